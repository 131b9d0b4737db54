#!/usr/bin/env python3
"""Counts the instructions of each stage, which hardly vary from run to run, and writes them into
benches/README.md: by `perf` where the machine lets it count, else by valgrind, which is slow.

A stage's count is that of a run up to it less that of a run up to the stage before.
"""

import argparse
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT / "benches" / "peers"))
import report  # noqa: E402

STAGES = [("read", None), ("resolve", "read"), ("evaluate", "resolve"), ("cards", "evaluate"), ("text", "evaluate")]
TOLD = {
    "read": "start, read, parse", "resolve": "resolve", "evaluate": "evaluate",
    "cards": "lay out, write the PDF", "text": "write text",
}


def executable(bench):
    told = subprocess.run(
        ["cargo", "bench", "--no-run", "--message-format=json", "--bench", bench],
        cwd=ROOT, check=True, stdout=subprocess.PIPE, text=True,
    ).stdout
    messages = (json.loads(line) for line in told.splitlines())
    found = [m["executable"] for m in messages if m.get("executable") and m["target"]["name"] == bench]
    return found[0]


def by_perf(command, environment, _folder):
    said = subprocess.run(
        ["perf", "stat", "-x,", "-e", "instructions:u", *command], env=environment,
        stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True,
    ).stderr
    found = re.search(r"^(\d+),,instructions:u", said, re.M)
    return int(found[1]) if found else None


def by_valgrind(command, environment, folder):
    out = Path(folder) / "callgrind"
    said = subprocess.run(
        ["valgrind", "--tool=callgrind", f"--callgrind-out-file={out}", *command], env=environment,
        stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True,
    ).stderr
    found = re.search(r"Collected : (\d+)", said)
    return int(found[1]) if found else None


def counter():
    """What counts here, or nothing."""
    if shutil.which("perf") and by_perf(["true"], os.environ, "."):
        return "perf", by_perf
    if shutil.which("valgrind"):
        return "valgrind", by_valgrind
    return None


def main():
    argparse.ArgumentParser(description=__doc__).parse_args()
    found = counter()
    if found is None:
        sys.exit("neither perf can count instructions here, nor is valgrind installed: nothing was counted")
    name, count = found
    once, write = executable("once"), executable("write")
    environment = dict(os.environ, RAYON_NUM_THREADS="1")
    with tempfile.TemporaryDirectory() as folder:
        cases = {"rowing club": ROOT / "examples" / "rowing-club" / "winter.sets"}
        for title, words in (("2,000 lines", ["long", "2000"]), ("1 athlete", ["squad", "1"]), ("10 athletes", ["squad", "10"])):
            inside = Path(folder) / words[1]
            subprocess.run([write, words[0], str(inside), words[1]], check=True, stdout=subprocess.DEVNULL)
            cases[title] = inside / "programme.sets"
        lines = [f"Millions of instructions on one core, by {name}:", ""]
        lines += ["| stage | " + " | ".join(cases) + " |", "|---|" + "--:|" * len(cases)]
        counts = {}
        for stage, before in STAGES:
            cells = []
            for title, file in cases.items():
                print(f"{stage}: {title}", file=sys.stderr, flush=True)
                made = count([once, stage, str(file)], environment, folder)
                if made is None:
                    sys.exit(f"{name} gave no count for {stage} of {title}")
                counts[stage, title] = made
                cells.append(report.short((made - counts.get((before, title), 0)) / 1e6))
            lines.append(f"| {TOLD[stage]} | " + " | ".join(cells) + " |")
    text = "\n".join(lines)
    print(text)
    report.put(ROOT / "benches" / "README.md", text, "counted")


main()
