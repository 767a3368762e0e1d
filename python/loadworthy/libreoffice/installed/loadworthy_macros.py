# mypy: ignore-errors
"""Macros of Loadworthy for LibreOffice Calc; the package `loadworthy` lies beside this file in `pythonpath`."""

from loadworthy import spreadsheet
from loadworthy.libreoffice import _circuits, _functions


def check_circuits(*_):
    """Judge the selected circuits: the area with its heading, or one cell of it."""
    document = XSCRIPTCONTEXT.getDocument()
    try:
        said = _circuits.check(document, _circuits.area_of(document.CurrentSelection))
    except spreadsheet.SheetError as error:
        said = str(error)
    _show(document, said)


def add_cell_functions(*_):
    """Make the functions LOADWORTHY… known to cells, once for this user."""
    _show(XSCRIPTCONTEXT.getDocument(), _functions.add(XSCRIPTCONTEXT.getComponentContext()))


def check_area(document, sheet, area, edition=None, most_notes=_circuits.MOST_NOTES):
    """Judge an area, by its name, of a sheet of a document that is handed in; gives the summary."""
    return _circuits.check(document, document.Sheets.getByName(sheet).getCellRangeByName(area), edition, most_notes)


def figure(question, unit, stated):
    """For a cell: a number."""
    return spreadsheet.figure(question, unit, stated)


def spoken(question, stated):
    """For a cell: the answer in words."""
    return spreadsheet.spoken(question, stated)


def working(question, stated):
    """For a cell: the answer with its working."""
    return spreadsheet.working(question, stated)


def _show(document, text):
    from com.sun.star.awt.MessageBoxType import INFOBOX

    window = document.CurrentController.Frame.ContainerWindow
    window.Toolkit.createMessageBox(window, INFOBOX, 1, "Loadworthy", text).execute()


g_exportedScripts = (check_circuits, add_cell_functions)
