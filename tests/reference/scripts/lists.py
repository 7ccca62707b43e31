# The season list of tests/reference/lists/season.ods and season.xlsx, written with general-purpose libraries:
#   pip install odfpy==1.4.1 openpyxl==3.1.5
#   python3 scripts/lists.py        (in tests/reference)
# Both hold: a title in merged cells, an empty row, headings in row 3, numbers, a date, text that begins with
# = + - @ or an apostrophe, quotes, a line break, an emoji, and a second sheet. The invented names are ours.
import datetime
from odf.opendocument import OpenDocumentSpreadsheet
from odf.table import Table, TableRow, TableCell, CoveredTableCell
from odf.text import P
from openpyxl import Workbook

HEAD = ["No", "Kind", "Variety", "Source", "Year", "Lot", "Seeds", "Bought on", "Notes"]
DAY = datetime.date(2026, 2, 3)
ROWS = [
    [7, "pepper", "Kestrel", '=Fern, "hill"', 2024, "-9", "about 25", DAY, "first line\nsecond 🌶"],
    [None, "tomato", "+Wren", "Testwood", 2023, "@x", 10, DAY, "'quoted"],
    [None, None, None, None, None, None, None, None, None],
    [9, "pepper", "Osprey", "Testwood", None, "L-1", 12.0, None, None],
]

book = Workbook()
sheet = book.active
sheet.title = "Read me"
sheet["A1"] = "Nothing of the list stands here"
sheet = book.create_sheet("Season 2026")
sheet["A1"] = "Seeds of the season"
sheet.merge_cells("A1:I1")
for i, row in enumerate([HEAD] + ROWS, start=3):
    for j, value in enumerate(row, start=1):
        cell = sheet.cell(row=i, column=j)
        if isinstance(value, str):
            cell.data_type = "s"
            cell.value = value
            cell.data_type = "s"
        else:
            cell.value = value
book.save("lists/season.xlsx")


def cell(value):
    if value is None:
        return TableCell()
    if isinstance(value, datetime.date):
        made = TableCell(valuetype="date", datevalue=value.isoformat())
        made.addElement(P(text=value.strftime("%d/%m/%Y")))
    elif isinstance(value, (int, float)):
        made = TableCell(valuetype="float", value=str(value))
        made.addElement(P(text=str(value)))
    else:
        made = TableCell(valuetype="string")
        for line in value.split("\n"):
            made.addElement(P(text=line))
    return made


document = OpenDocumentSpreadsheet()
table = Table(name="Read me")
row = TableRow()
row.addElement(cell("Nothing of the list stands here"))
table.addElement(row)
document.spreadsheet.addElement(table)
table = Table(name="Season 2026")
row = TableRow()
title = TableCell(valuetype="string", numbercolumnsspanned=9)
title.addElement(P(text="Seeds of the season"))
row.addElement(title)
row.addElement(CoveredTableCell(numbercolumnsrepeated=8))
table.addElement(row)
table.addElement(TableRow())
for values in [HEAD] + ROWS:
    row = TableRow()
    for value in values:
        row.addElement(cell(value))
    table.addElement(row)
table.addElement(TableRow(numberrowsrepeated=1048000))
document.spreadsheet.addElement(table)
document.save("lists/season.ods")
