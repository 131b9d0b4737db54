#!/usr/bin/env python3
"""Measures Setwright against what a user would otherwise do, and writes benches/README.md's table.

All in one run on one machine, because only ratios hold on another: each command several times, the
fastest counts. `run.py --help` lists the options; `README.md` beside this says what to install.
"""

import argparse
import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from math import log
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
import report  # noqa: E402

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent
TIME = shutil.which("time", path="/usr/bin:/bin")
BENCHES = ("write", "floor", "empty")


def build():
    """Builds the program and the benches' tools; gives where each is."""
    targets = [part for bench in BENCHES for part in ("--bench", bench)]
    told = subprocess.run(
        ["cargo", "bench", "--no-run", "--message-format=json", *targets],
        cwd=ROOT, check=True, stdout=subprocess.PIPE, text=True,
    ).stdout
    found = {}
    for line in told.splitlines():
        message = json.loads(line)
        if message.get("executable") and message["target"]["kind"] in (["bench"], ["bin"]):
            found[message["target"]["name"]] = message["executable"]
    # After the benches, which build the program with features that only tests ask for.
    subprocess.run(["cargo", "build", "--release"], cwd=ROOT, check=True)
    target = Path(found["empty"]).parent.parent
    found["setwright"] = str(target / "setwright")
    return found


def run(command, folder, cores=None):
    """Seconds on the clock, seconds of all cores, and the peak of memory in MB."""
    environment = dict(os.environ, PYTHONDONTWRITEBYTECODE="1")
    if cores:
        environment["RAYON_NUM_THREADS"] = str(cores)
    peak = Path(folder) / "peak"
    measured = [TIME, "-f", "%M", "-o", str(peak), *command] if TIME else command
    start = time.perf_counter()
    child = subprocess.Popen(
        measured, cwd=folder, env=environment, stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
    )
    said = child.stderr.read()
    _, status, used = os.wait4(child.pid, 0)
    wall = time.perf_counter() - start
    child.returncode = os.waitstatus_to_exitcode(status)
    child.stderr.close()
    if child.returncode != 0:
        raise RuntimeError(f"{' '.join(command)}: {said.decode(errors='replace')[-300:]}")
    memory = int(peak.read_text().split()[-1]) if TIME else used.ru_maxrss
    return wall, used.ru_utime + used.ru_stime, memory / 1024


def best(command, folder, times, cores=None):
    """The fastest of several runs, each figure for itself."""
    return tuple(min(figures) for figures in zip(*(run(command, folder, cores) for _ in range(times))))


def has(module):
    """Whether this Python has a module."""
    return subprocess.run([sys.executable, "-c", f"import {module}"], capture_output=True).returncode == 0


def available():
    """Which peers can run; what is missing is said."""
    office = shutil.which("soffice") or shutil.which("libreoffice")
    needs = {
        "page library": {"Python's reportlab": has("reportlab")},
        "typesetter": {"Python's typst": has("typst")},
        "spreadsheet": {"Python's openpyxl": has("openpyxl"), "LibreOffice Calc": bool(office)},
    }
    found = []
    for peer, parts in needs.items():
        missing = [part for part, there in parts.items() if not there]
        if missing:
            print(f"skipped: {peer}: not installed: {', '.join(missing)}", file=sys.stderr)
        else:
            found.append(peer)
    return found, office


def commands(tools, office, folder):
    """How each makes the cards in this folder, and the file that it makes."""
    python, fonts = sys.executable, str(ROOT / "fonts")
    made = ["programme.sets", "-o", "cards.pdf"]
    profile = (Path(folder) / "profile").as_uri()
    print_sheets = (
        f"{python} {HERE}/spreadsheet.py plan.json sheets.xlsx && "
        f"{office} -env:UserInstallation={profile} --headless --convert-to pdf sheets.xlsx"
    )
    return {
        "setwright": ([tools["setwright"], "cards", *made], "cards.pdf"),
        "plan": ([tools["setwright"], "plan", "programme.sets", "-o", "plan.json"], "plan.json"),
        "floor": ([tools["floor"], "pack", "streams", "packed"], "packed"),
        "page library": ([python, f"{HERE}/page_library.py", "plan.json", "page.pdf", fonts], "page.pdf"),
        "typesetter": ([python, f"{HERE}/typesetter.py", "plan.json", "set.pdf", fonts], "set.pdf"),
        "spreadsheet": (["sh", "-c", print_sheets], "sheets.pdf"),
    }


def peers(tools, options):
    """The same cards by every means, at each size."""
    there, office = available()
    found = []
    for athletes in (1, 10, 100):
        with tempfile.TemporaryDirectory() as folder:
            subprocess.run([tools["write"], "squad", folder, str(athletes)], check=True)
            how = commands(tools, office, folder)
            subprocess.run(how["setwright"][0], cwd=folder, check=True, capture_output=True)
            subprocess.run([tools["floor"], "take", "cards.pdf", "streams"], cwd=folder, check=True)
            row = {}
            for name, (command, file) in how.items():
                if name not in there and name not in ("setwright", "plan", "floor"):
                    continue
                if athletes == 100 and name not in ("setwright", "floor", "plan"):
                    continue
                if name == "spreadsheet" and athletes == 10 and options.quick:
                    continue
                print(f"{athletes * 48} cards: {name}", file=sys.stderr, flush=True)
                long = name == "spreadsheet" and athletes > 1 or athletes == 100
                times = 1 if long else options.times
                try:
                    figures = best(command, folder, times)
                    if name in ("setwright", "floor"):
                        alone = best(command, folder, times, 1)
                        row[name + ", one core"] = dict(zip(("wall", "cpu"), alone))
                except RuntimeError as error:
                    print(f"failed: {error}", file=sys.stderr)
                    continue
                size = (Path(folder) / file).stat().st_size
                row[name] = dict(zip(("wall", "cpu", "memory"), figures), bytes=size)
            found.append({"cards": athletes * 48, "by": row})
    return found


def exponent(sizes, figures):
    """The slope of the line through the logarithms, by least squares."""
    xs, ys = [log(size) for size in sizes], [log(figure) for figure in figures]
    x, y = sum(xs) / len(xs), sum(ys) / len(ys)
    return sum((a - x) * (b - y) for a, b in zip(xs, ys)) / sum((a - x) ** 2 for a in xs)


def growth(tools, options):
    """How the seconds of all cores grow with a programme's size."""
    kinds = {
        "athletes": ("cards", [5, 10, 20, 40], lambda n: ["squad", str(n)]),
        "weeks": ("cards", [13, 26, 52, 104], lambda n: ["squad", "4", str(n)]),
        "lines": ("check", [750, 1500, 3000, 6000], lambda n: ["long", str(n)]),
    }
    found = {}
    for kind, (verb, sizes, words) in kinds.items():
        seconds, real = [], []
        for size in sizes:
            print(f"growth: {size} {kind}", file=sys.stderr, flush=True)
            with tempfile.TemporaryDirectory() as folder:
                what, *rest = words(size)
                subprocess.run([tools["write"], what, folder, *rest], check=True, capture_output=True)
                text = (Path(folder) / "programme.sets").read_text(encoding="utf-8")
                real.append(len(text.splitlines()) if kind == "lines" else size)
                command = [tools["setwright"], verb, "programme.sets"]
                seconds.append(best(command, folder, options.times, 1)[1])
        found[kind] = {"verb": verb, "sizes": real, "seconds": seconds, "exponent": exponent(real, seconds)}
    return found


def start(tools):
    """A cold start against a program that does nothing, alternately."""
    check = [tools["setwright"], "check", str(ROOT / "examples/first-steps/programme.sets")]
    times = {"check": [], "empty": []}
    quiet = [(os.POSIX_SPAWN_OPEN, stream, os.devnull, os.O_WRONLY, 0) for stream in (1, 2)]
    for _ in range(200):
        for name, command in (("check", check), ("empty", [tools["empty"]])):
            begun = time.perf_counter()
            child = os.posix_spawn(command[0], command, os.environ, file_actions=quiet)
            os.waitpid(child, 0)
            times[name].append(time.perf_counter() - begun)
    return {name: min(all_of) for name, all_of in times.items()}


def crates():
    """How many crates the program is made of, itself not counted."""
    told = subprocess.run(
        ["cargo", "tree", "--edges", "normal", "--prefix", "none", "--format", "{p}"],
        cwd=ROOT, check=True, stdout=subprocess.PIPE, text=True,
    ).stdout
    lines = {line.removesuffix(" (*)") for line in told.splitlines() if line}
    return len(lines) - 1


def machine():
    """What this was measured on."""
    def first(path, key):
        try:
            lines = Path(path).read_text().splitlines()
        except OSError:
            return "unknown"
        return next((line.split(":", 1)[1].strip() for line in lines if line.startswith(key)), "unknown")

    memory = first("/proc/meminfo", "MemTotal").split()[0]
    versions = [subprocess.run(["rustc", "--version"], capture_output=True, text=True).stdout.strip()]
    versions.append(f"Python {sys.version.split()[0]}")
    for module in ("reportlab", "typst", "openpyxl"):
        asked = f"from importlib.metadata import version; print(version('{module}'))"
        told = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True)
        if told.returncode == 0:
            versions.append(f"{module} {told.stdout.strip()}")
    office = shutil.which("soffice")
    if office:
        told = subprocess.run([office, "--version"], capture_output=True, text=True).stdout
        versions.append(" ".join(told.split()[:2]))
    return {
        "processor": first("/proc/cpuinfo", "model name"),
        "cores": len(os.sched_getaffinity(0)),
        "memory": f"{int(memory) / 2**20:.0f} GB" if memory.isdigit() else memory,
        "system": f"{os.uname().sysname} {os.uname().release}",
        "versions": versions,
    }


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--times", type=int, default=5, help="runs of each command; the fastest counts")
    options.add_argument("--quick", action="store_true", help="without the spreadsheet at 480 cards")
    options.add_argument("--figures", default="target/peers.json", help="where the figures go")
    options.add_argument("--no-readme", action="store_true", help="leave benches/README.md as it is")
    options.add_argument("--tools", help="a folder with setwright, write, floor and empty, instead of building")
    options = options.parse_args()
    tools = build() if options.tools is None else {
        name: str(Path(options.tools).resolve() / name) for name in ("setwright", *BENCHES)
    }
    file = ROOT / options.figures
    file.parent.mkdir(parents=True, exist_ok=True)
    figures = {
        "machine": machine(),
        "start": start(tools),
        "binary": Path(tools["setwright"]).stat().st_size,
        "crates": crates(),
    }
    # Written after each part, so that a long run that is broken off has not been for nothing.
    for name, part in (("peers", peers), ("growth", growth)):
        figures[name] = part(tools, options)
        file.write_text(json.dumps(figures, indent=1), encoding="utf-8")
    text = report.text(figures)
    print(text)
    if not options.no_readme:
        report.put(ROOT / "benches" / "README.md", text)


main()
