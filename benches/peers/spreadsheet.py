"""The cards as a spreadsheet, a sheet a card, by openpyxl: `spreadsheet.py PLAN.json CARDS.xlsx`.

LibreOffice prints it: `run.py` starts it on the file. Texts that run over several lines are cells
joined over the page, whose height is set from their length, because neither program does that for
joined cells.
"""

import sys

from openpyxl import Workbook
from openpyxl.styles import Alignment, Border, Font, Side

from cards import FOOT, STOP, cards

COLUMNS = 8
LINE = Side(style="thin")
BOX = Border(left=LINE, right=LINE, top=LINE, bottom=LINE)
RULE = Border(top=LINE)
SMALL, BOLD, TITLE = Font(size=6), Font(size=9, bold=True), Font(size=13, bold=True)
WRAP = Alignment(wrap_text=True, vertical="top")
# Signs of small type to a line over all columns.
ACROSS = 130


class Writer:
    """A sheet, row by row."""

    def __init__(self, sheet):
        self.sheet = sheet
        self.row = 0

    def across(self, text, font=SMALL, align=WRAP):
        self.row += 1
        cell = self.sheet.cell(self.row, 1, text)
        cell.font, cell.alignment = font, align
        self.sheet.merge_cells(
            start_row=self.row, end_row=self.row, start_column=1, end_column=COLUMNS
        )
        self.sheet.row_dimensions[self.row].height = 8 * (1 + len(text) // ACROSS)

    def pair(self, left, right, font):
        self.row += 1
        for column, text in ((1, left), (5, right)):
            cell = self.sheet.cell(self.row, column, text)
            cell.font = font
        self.sheet.row_dimensions[self.row].height = font.size * 1.4

    def boxes(self, labels, height):
        for at, label in enumerate(labels):
            if at % COLUMNS == 0:
                self.row += 1
                self.sheet.row_dimensions[self.row].height = height
            cell = self.sheet.cell(self.row, at % COLUMNS + 1, label)
            cell.font, cell.border, cell.alignment = SMALL, BOX, WRAP


def fill(sheet, card):
    sheet.page_setup.paperSize = sheet.PAPERSIZE_A5
    sheet.page_setup.fitToWidth = sheet.page_setup.fitToHeight = 1
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    margins = sheet.page_margins
    margins.left = margins.right = margins.top = margins.bottom = 0.3
    for column in "ABCDEFGH":
        sheet.column_dimensions[column].width = 8
    to = Writer(sheet)
    to.pair(card["athlete"], card["day"], TITLE)
    to.pair(card["under"], card["when"], Font(size=7))
    for block in card["blocks"]:
        to.pair(f"{block['order']}  {block['name']}", block["target"], BOLD)
        for column in range(1, COLUMNS + 1):
            sheet.cell(to.row, column).border = RULE
        to.pair(block["detail"], block["plates"], Font(size=7))
        for note in block["notes"]:
            to.across(note)
        to.boxes(block["boxes"], 16)
        if block["next"]:
            to.across(block["next"])
    to.boxes(FOOT, 18)
    to.across("Notes")
    sheet.row_dimensions[to.row].height = 18
    to.across(STOP)


def main():
    plan, out = sys.argv[1:]
    book = Workbook()
    book.remove(book.active)
    for at, card in enumerate(cards(plan)):
        fill(book.create_sheet(f"Card {at + 1}"), card)
    book.save(out)


main()
