"""The cards by a general typesetter, Typst: `typesetter.py PLAN.json CARDS.pdf FONTS`."""

import json
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

import typst

from cards import FOOT, STOP, cards


def main():
    plan, out, fonts = sys.argv[1:]
    with TemporaryDirectory() as folder:
        source = Path(folder) / "cards.typ"
        source.write_bytes((Path(__file__).parent / "cards.typ").read_bytes())
        data = {"cards": cards(plan), "foot": FOOT, "stop": STOP}
        text = json.dumps(data, ensure_ascii=False)
        (Path(folder) / "cards.json").write_text(text, encoding="utf-8")
        typst.compile(str(source), output=out, font_paths=[fonts], ignore_system_fonts=True)


main()
