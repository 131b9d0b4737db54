#!/usr/bin/env python3
"""Inputs within the bounds of `src/bounds.rs` that were written to be slow or large, and what `check`
takes for them: seconds of all cores per megabyte read, and the peak of its memory beyond what it
prints. Aims: at most a second a megabyte, and 200 MB over the output. A second table has whole commands
on large projects, each with its own aims: seconds of all cores, and the peak of memory.

    python3 benches/hostile.py [PROGRAM] [--only NAME] [--megabytes 1]

Writes nothing into the repository. Times are the machine's; nothing is decided by them.
"""

import argparse
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
GYM = "gym Shed\n  bar: 20 kg\n  plates: 20 kg x 4, 10 kg x 2, 5 kg x 2, 2.5 kg x 2, 1.25 kg x 2\n\n"
WHO = "athlete Robin Vale\n  gym: Shed\n  max Back squat: 100 kg\n\n"
HEAD = "programme Small\n  weeks: 12\n\n"
LINE = 20_000  # LINE_BYTES of src/bounds.rs


def fill(size, piece, head="", tail=""):
    """A text of about `size` bytes: `head`, then `piece(0)`, `piece(1)` …, then `tail`."""
    parts, have, n = [head], len(head) + len(tail), 0
    while True:
        part = piece(n)
        if have + len(part.encode()) > size:
            return "".join(parts) + tail
        parts.append(part)
        have += len(part.encode())
        n += 1


def letters(n):
    """A word of its own for each number."""
    word = ""
    while True:
        word = chr(ord("a") + n % 26) + word
        n = n // 26
        if n == 0:
            return word


def days(count, line):
    """As many days, each with a line for every order there is."""
    orders = [f"{letter}{n}" for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ" for n in range(1, 10)]
    day = lambda n: f"day {letters(n)}\n" + "".join(f"  {order} {line(i)}\n" for i, order in enumerate(orders)) + "\n"
    return "".join(day(n) for n in range(count))


CASES = {
    "nothing but line ends": lambda size: "\n" * size,
    "comments": lambda size: fill(size, lambda n: f"# {letters(n)}\n"),
    "bytes of nothing known": lambda size: fill(size, lambda n: "\x00\x7f~`^|\\" * 8 + "\n"),
    "lines as long as may be": lambda size: fill(size, lambda n: "x" * (LINE - 2) + "\n"),
    "brackets that never close": lambda size: fill(size, lambda n: "  A X: " + "(" * 900 + "\n", "day One\n"),
    "numbers without end": lambda size: fill(size, lambda n: "  A X: " + "9" * 900 + "\n", "day One\n"),
    "lists as long as may be": lambda size: fill(
        size, lambda n: "  A Push-up: " + ", ".join(["5"] * 5_000) + "\n", GYM + WHO + HEAD + "day One\n"
    ),
    "every key misspelt": lambda size: fill(size, lambda n: f"  {letters(n)}z: 5\n", GYM + WHO + HEAD),
    "every exercise unknown": lambda size: fill(
        size, lambda n: f"  A Bakc sqaut {letters(n)}: 3 x 5\n", GYM + WHO + HEAD + "day One\n"
    ),
    "one name defined again and again": lambda size: fill(size, lambda n: "exercise Same\n  pattern: squat\n\n"),
    "exercises, each like the one before": lambda size: fill(
        size, lambda n: f"exercise Lift {letters(n + 1)}\n  like: Lift {letters(n)}\n\n", "exercise Lift a\n  pattern: squat\n\n"
    ),
    "athletes": lambda size: fill(
        size, lambda n: f"athlete Robin {letters(n)}\n  max Back squat: 100 kg\n\n", GYM, HEAD.replace("12", "1") + "day One\n  A Back squat: 5 @ 70%\n"
    ),
    "athletes in a full programme": lambda size: fill(
        size // 20, lambda n: f"athlete Robin {letters(n)}\n  max Back squat: 100 kg\n\n", GYM, HEAD + "day One\n" + "  A Back squat: 5 x 5 @ 70%\n  B Push-up: 3 x 10\n"
    ),
    "gyms": lambda size: fill(size, lambda n: f"gym {letters(n)}\n  bar: 20 kg\n  plates: 20 kg x 4, 1.25 kg x 2\n\n"),
    "a gym with every mass there is": lambda size: fill(
        size, lambda n: f"  plates: {n % 900 + 1}.25 kg x 1000\n", "gym Shed\n  bar: 20 kg\n", "\n" + WHO + HEAD + "day One\n  A Back squat: 5 @ 73%\n"
    ),
    "many plates, hard to make up": lambda size: GYM.replace(
        "1.25 kg x 2", ", ".join(f"{n}.0{n % 7 + 1} kg x 1000" for n in range(1, 900))
    ) + WHO + HEAD + days(1, lambda n: "Back squat: 5 @ 73.3%, 5 @ 72.9%, 5 @ 71.7%"),
    "days as full as may be": lambda size: GYM + WHO + HEAD + days(14, lambda n: f"Back squat: 3 x 5 @ {50 + n % 40}%"),
    "two years of long days": lambda size: GYM + WHO + HEAD.replace("12", "104") + days(14, lambda n: "Push-up: 3 x 10"),
    "weeks that each change": lambda size: fill(
        size, lambda n: f"    week {n % 12 + 1}: {n % 5 + 1} x 5\n", GYM + WHO + HEAD + "day One\n  A Back squat: 3 x 5 @ 70%\n"
    ),
    "rules": lambda size: fill(
        size, lambda n: f"    when missed {n % 9 + 1} in a row: load -{n % 9 + 1}%\n", GYM + WHO + HEAD + "day One\n  A Back squat: 3 x 5 @ 70%\n"
    ),
    "logs of one athlete": lambda size: fill(
        size, lambda n: f"  2026-{n // 28 % 12 + 1:02}-{n % 28 + 1:02} week {n % 12 + 1}, One\n    A: done\n", GYM + WHO + HEAD + "day One\n  A Back squat: 3 x 5 @ 70%\n\nlog Robin Vale: Small\n"
    ),
    "logs of nobody": lambda size: fill(size, lambda n: f"log Robin {letters(n)}: Small\n  2026-01-05 week 1, One\n    A: done\n\n", GYM + WHO + HEAD),
    "replacements": lambda size: fill(
        size, lambda n: f"  replace {letters(n)}: Front squat (shoulder)\n", GYM + WHO.rstrip() + "\n", "\n" + HEAD + "day One\n  A Back squat: 3 x 5\n"
    ),
    "notes": lambda size: fill(size, lambda n: f"  note: {letters(n)}\n", GYM + WHO + HEAD),
    "emoji and far alphabets": lambda size: fill(size, lambda n: "  \U0001f3cb\u0416\u05d0\u0928\u0e01: 3 \u00d7 5\n", "day One\n"),
    "use of itself and of nothing": lambda size: fill(size, lambda n: f"use {letters(n)}.sets\n"),
}


def chain(count):
    """Lifts, each with a max that is a share of the one before, and the last of them planned."""
    lifts = "".join(f"exercise Lift {letters(n)}\n  pattern: squat\n\n" for n in range(count))
    maxes = "".join(f"  max Lift {letters(n)}: 100% of Lift {letters(n - 1)}\n" for n in range(1, count))
    who = f"athlete Robin Vale\n  gym: Shed\n  max Lift a: 100 kg\n{maxes}\n"
    return f"{GYM}{lifts}{who}{HEAD}day One\n  A Lift {letters(count - 1)}: 3 x 5 @ 70%\n"


def with_rules(weeks, days, lines):
    """Two athletes, and two rules below each line."""
    who = "".join(f"athlete Robin {letters(n)}\n  gym: Shed\n  max Back squat: 100 kg\n\n" for n in range(2))
    rules = "    when all reps made: load +2.5 kg\n    when any rep missed: load -5%\n"
    line = lambda n: f"  {chr(65 + n)} Back squat: 3 x 5 @ {50 + n}%\n{rules}"
    day = lambda n: f"day Day {letters(n)}\n" + "".join(line(n) for n in range(lines)) + "\n"
    return f"{GYM}{who}programme Small\n  weeks: {weeks}\n\n" + "".join(day(n) for n in range(days))


def squad(count):
    """Athletes with maxes of their own, and three days a week."""
    who = lambda n: f"athlete Robin {letters(n)}\n  max Back squat: {60 + n % 80} kg\n  max Bench press: {40 + n % 60} kg\n\n"
    days = (
        "day One\n  A Back squat: 5 x 5 @ 70%\n  B Bench press: 4 x 6 @ 65%\n  C Push-up: 3 x 10\n\n"
        "day Two\n  A Back squat: 5 x 3 @ 80%\n  B Bench press: 5 x 3 @ 75%\n\n"
        "day Three\n  A Back squat: 3 x 5 @ 60%\n  B Bench press: 4 x 8 @ 60%\n"
    )
    return GYM + "".join(who(n) for n in range(count)) + HEAD + days


def folder_of(count):
    """Files that do not use each other."""
    text = lambda n: f"{GYM}{WHO}programme Small {letters(n)}\n  weeks: 2\n\nday One\n  A Back squat: 3 x 5 @ 70%\n"
    return {f"{n}.sets": text(n) for n in range(count)}


# Files, arguments, the most seconds and the most megabytes.
COMMANDS = {
    "check a folder of 2,000 files": (lambda: folder_of(2_000), ["check", "."], 5, 200),
    "check a chain of 40,000 maxes": (lambda: {"p.sets": chain(40_000)}, ["check", "p.sets"], 5, 400),
    "check rules for 60 weeks of 14 long days": (lambda: {"p.sets": with_rules(60, 14, 26)}, ["check", "p.sets"], 10, 200),
    "plan of 1,000 athletes to standard output": (lambda: {"p.sets": squad(1_000)}, ["plan", "p.sets"], 30, 100),
    "plan of 1,000 athletes as CSV": (lambda: {"p.sets": squad(1_000)}, ["plan", "p.sets", "--format", "csv"], 30, 100),
    "summary of 1,000 athletes to standard output": (lambda: {"p.sets": squad(1_000)}, ["summary", "p.sets"], 30, 100),
    "rack sheets for 100 athletes": (lambda: {"p.sets": squad(100)}, ["cards", "--sheet", "rack", "p.sets", "-o", "-"], 10, 300),
}


def run(program, files, arguments):
    """Seconds, seconds of all cores, peak of memory and bytes printed, in bytes."""
    with tempfile.TemporaryDirectory() as folder:
        for name, text in files.items():
            Path(folder, name).write_text(text, encoding="utf-8", newline="")
        with tempfile.TemporaryFile() as out:
            start = time.perf_counter()
            child = subprocess.Popen([program, *arguments], cwd=folder, stdout=out, stderr=subprocess.STDOUT)
            _, status, used = os.wait4(child.pid, 0)
            seconds = time.perf_counter() - start
            printed = os.fstat(out.fileno()).st_size
        code = os.waitstatus_to_exitcode(status)
    return seconds, used.ru_utime + used.ru_stime, used.ru_maxrss * 1024, printed, code


def main():
    asked = argparse.ArgumentParser(description=__doc__.split("\n\n")[0])
    asked.add_argument("program", nargs="?", default=str(ROOT / "target/release/setwright"))
    asked.add_argument("--only")
    asked.add_argument("--megabytes", type=float, default=1.0)
    asked = asked.parse_args()
    # A case that runs wild is a finding, not a machine brought down.
    resource.setrlimit(resource.RLIMIT_AS, (12 << 30, 12 << 30))
    program = str(Path(asked.program).resolve())
    print("| input | MB | seconds a MB | peak MB over the output | exit | met |")
    print("|---|--:|--:|--:|--:|---|")
    missed = 0
    for name, make in CASES.items():
        if asked.only and asked.only not in name:
            continue
        text = make(int(asked.megabytes * 1e6))
        size = len(text.encode()) / 1e6
        _, cores, peak, printed, code = run(program, {"programme.sets": text}, ["check", "programme.sets"])
        # Below a tenth of a megabyte the start would be counted as if it grew.
        pace, over = cores / max(size, 0.1), (peak - printed) / 1e6
        met = pace <= 1 and over <= 200 and code in (0, 1)
        missed += not met
        print(f"| {name} | {size:.2f} | {pace:.3f} | {over:.0f} | {code} | {'yes' if met else '**no**'} |", flush=True)
    print("\n| command | seconds of all cores | peak MB | exit | met |")
    print("|---|--:|--:|--:|---|")
    for name, (make, arguments, most_seconds, most_megabytes) in COMMANDS.items():
        if asked.only and asked.only not in name:
            continue
        _, cores, peak, _, code = run(program, make(), arguments)
        met = cores <= most_seconds and peak <= most_megabytes * 1e6 and code in (0, 1)
        missed += not met
        print(f"| {name} | {cores:.2f} | {peak / 1e6:.0f} | {code} | {'yes' if met else '**no**'} |", flush=True)
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
