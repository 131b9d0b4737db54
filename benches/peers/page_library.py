"""The cards by a page library, reportlab: `page_library.py PLAN.json CARDS.pdf FONTS`."""

import sys
from pathlib import Path

from reportlab.lib.pagesizes import A5
from reportlab.lib.units import mm
from reportlab.lib.utils import simpleSplit
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from cards import FOOT, STOP, cards

WIDTH, HEIGHT = A5
EDGE = 7 * mm
MIDDLE = 82 * mm


def paragraph(page, text, left, top, width, font="Sans", size=6):
    """Wrapped lines from the top down; gives where they end."""
    page.setFont(font, size)
    for line in simpleSplit(text, font, size, width):
        top -= size * 1.15
        page.drawString(left, top, line)
    return top


def boxes(page, labels, left, top):
    wide = 5.5 * mm if len(labels) > 6 else 12 * mm
    page.setFont("Sans", 5)
    for at, label in enumerate(labels):
        x = left + at * wide if label != "RPE" else WIDTH - EDGE - 10 * mm
        page.rect(x, top - 7 * mm, 10 * mm if label == "RPE" else wide, 7 * mm)
        page.drawString(x + 2, top - 6, label)
    return top - 7 * mm


def draw(page, card):
    page.setFont("Bold", 14)
    page.drawString(EDGE, HEIGHT - 12 * mm, card["athlete"])
    page.drawRightString(WIDTH - EDGE, HEIGHT - 12 * mm, card["day"])
    page.setFont("Sans", 7)
    page.drawString(EDGE, HEIGHT - 16 * mm, card["under"])
    page.drawRightString(WIDTH - EDGE, HEIGHT - 16 * mm, card["when"])
    top = HEIGHT - 18 * mm
    for block in card["blocks"]:
        page.line(EDGE, top, WIDTH - EDGE, top)
        page.setFont("Bold", 10)
        page.drawString(EDGE + 1 * mm, top - 11, block["order"])
        left = EDGE + 9 * mm
        page.drawString(left, top - 11, block["name"])
        below = paragraph(page, block["detail"], left, top - 12, MIDDLE - left - 4, size=7)
        for note in block["notes"]:
            below = paragraph(page, note, left, below, MIDDLE - left - 4)
        page.setFont("Bold", 10)
        page.drawString(MIDDLE, top - 11, block["target"])
        right = paragraph(page, block["plates"], MIDDLE, top - 12, WIDTH - EDGE - MIDDLE, size=7)
        right = boxes(page, block["boxes"], MIDDLE, right - 3)
        right = paragraph(page, block["next"], MIDDLE, right, WIDTH - EDGE - MIDDLE)
        top = min(below, right) - 5
    wide = (WIDTH - 2 * EDGE) / len(FOOT)
    for at, label in enumerate(FOOT):
        page.rect(EDGE + at * wide, top - 7 * mm, wide, 7 * mm)
        paragraph(page, label, EDGE + at * wide + 2, top, wide)
    page.rect(EDGE, top - 16 * mm, WIDTH - 2 * EDGE, 8 * mm)
    paragraph(page, "Notes", EDGE + 2, top - 8 * mm, wide)
    paragraph(page, STOP, EDGE, top - 17 * mm, WIDTH - 2 * EDGE)
    page.showPage()


def main():
    plan, out, fonts = sys.argv[1:]
    pdfmetrics.registerFont(TTFont("Sans", str(Path(fonts) / "IBMPlexSans_400Regular.ttf")))
    pdfmetrics.registerFont(TTFont("Bold", str(Path(fonts) / "IBMPlexSans_600SemiBold.ttf")))
    page = Canvas(out, pagesize=A5, pageCompression=1)
    for card in cards(plan):
        draw(page, card)
    page.save()


main()
