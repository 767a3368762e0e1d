"""The cells of one sheet: read as they are kept, written one by one, all else untouched."""

from __future__ import annotations

import re

from lxml import etree

from loadworthy.spreadsheet import _place
from loadworthy.spreadsheet._cells import Unread
from loadworthy.spreadsheet._errors import SheetError
from loadworthy.spreadsheet._package import Package, main

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lxml.etree import _Element

#: Built-in number formats that show a date or a time.
_DATES = frozenset([*range(14, 23), *range(27, 37), *range(45, 48), *range(50, 59)])
_PERCENT = frozenset([9, 10])

#: What of a number format is shown as it stands, and what stands in brackets.
_LITERAL = re.compile(r'"[^"]*"|\\.|_.|\*.|\[[^\]]*\]')

#: What XML cannot hold.
_NO_TEXT = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")


class Grid:
    """The cells of a sheet."""

    def __init__(self, package: Package, part: str, shared: tuple[str, ...], formats: tuple[str, ...]) -> None:
        self._package = package
        self._part = part
        self._shared = shared
        self._formats = formats
        root = package.tree(part)
        data = root.find(main("sheetData"))
        if data is None:
            raise SheetError(f"its part `{part}` holds no cells; it is damaged", str(package.path))
        self._data = data
        self._lines: dict[int, _Element] = {}
        self._cells: dict[int, dict[int, _Element]] = {}
        self._index()
        areas = root.iterfind(f"{main('mergeCells')}/{main('mergeCell')}")
        self._merged = [_place.area(area.get("ref", "")) for area in areas]
        self._merged_in: dict[int, list[tuple[int, int, int, int]]] = {}
        self._written = False
        self._shared_formulas_found: dict[str | None, tuple[str, int]] | None = None

    def _index(self) -> None:
        """Rows and cells by their numbers; where a number is left out, the next one is meant."""
        row = 0
        for line in self._data.iterfind(main("row")):
            row = _place.number(line.get("r", str(row + 1)))
            self._lines[row] = line
            cells = self._cells[row] = {}
            column = 0
            for cell in line.iterfind(main("c")):
                at = cell.get("r")
                column = _place.placed(at)[1] if at else column + 1
                cells[column] = cell

    @property
    def rows(self) -> list[int]:
        """The numbers of the rows that are there."""
        return list(self._lines)

    @property
    def last_column(self) -> int:
        """The last column of which anything is used."""
        used = (max(cells) for cells in self._cells.values() if cells)
        return max([*used, *(area[3] for area in self._merged)], default=0)

    def columns(self, row: int) -> list[int]:
        """The columns of a row that are there."""
        return list(self._cells.get(row, ()))

    def merged_with(self, row: int, column: int) -> str | None:
        """The cell that a cell is merged with and that holds what it shows; `None` for a cell that is itself."""
        if row not in self._merged_in:
            self._merged_in[row] = [area for area in self._merged if area[0] <= row <= area[2]]
        for first_row, first_column, _, last_column in self._merged_in[row]:
            if first_column <= column <= last_column and (row, column) != (first_row, first_column):
                return _place.cell(first_row, first_column)
        return None

    def _at(self, row: int, column: int) -> _Element | None:
        return self._cells.get(row, {}).get(column)

    def text(self, row: int, column: int) -> str | None:
        """The text of a cell; `None` where it holds none."""
        value = self.value(row, column)
        return value if isinstance(value, str) else None

    def value(self, row: int, column: int) -> float | str | bool | Unread | None:
        """What stands in a cell; of a formula what it came to when the workbook was saved."""
        if anchor := self.merged_with(row, column):
            return Unread.merged_with(anchor)
        cell = self._at(row, column)
        if cell is None:
            return None
        kept, kind = cell.find(main("v")), cell.get("t", "n")
        if kind == "inlineStr":
            return _said(cell.find(main("is")))
        if kept is None or kept.text is None:
            empty = cell.find(main("f")) is None or (kind == "str" and kept is not None)
            return None if empty else Unread("holds a formula that was never calculated; open the workbook and save it")
        return self._kept(kind, kept.text, cell)

    def _kept(self, kind: str, text: str, cell: _Element) -> float | str | bool | Unread:
        match kind:
            case "s":
                at = int(text) if text.isdecimal() else -1
                return self._shared[at] if 0 <= at < len(self._shared) else Unread("refers to a text that is not there")
            case "str":
                return text
            case "b":
                return text.strip() in ("1", "true")
            case "e":
                return Unread(f"holds the error {text}")
            case "d":
                return Unread("holds a date")
        try:
            number = float(text)
        except ValueError:
            return Unread(f"holds `{text[:60]}`, which is no number")
        match self._shown_as(cell):
            case "date":
                return Unread("holds a date or a time; give the cell a number format and write the value again")
            case "percent":
                return Unread(f"is shown as a percentage while it holds {text[:20]}; write the number in plain format")
        return number

    def _shown_as(self, cell: _Element) -> str:
        style = cell.get("s", "0")
        at = int(style) if style.isdecimal() else 0
        return self._formats[at] if at < len(self._formats) else ""

    def style(self, row: int, column: int) -> int:
        """The number of the style of a cell."""
        cell = self._at(row, column)
        return 0 if cell is None else _place.number(cell.get("s", "0"))

    def has_formula(self, row: int, column: int) -> bool:
        """Whether a cell holds a formula."""
        cell = self._at(row, column)
        return cell is not None and cell.find(main("f")) is not None

    def formula(self, row: int, column: int) -> tuple[str, int] | None:
        """The formula of a cell, and the row for which it is written: several cells may share that of one of them."""
        cell = self._at(row, column)
        kept = None if cell is None else cell.find(main("f"))
        if kept is None:
            return None
        if kept.text is None and kept.get("t") == "shared":
            return self._shared_formulas().get(kept.get("si"))
        return kept.text or "", row

    def _shared_formulas(self) -> dict[str | None, tuple[str, int]]:
        if self._shared_formulas_found is None:
            written = (
                (row, kept)
                for row, cells in self._cells.items()
                for cell in cells.values()
                if (kept := cell.find(main("f"))) is not None and kept.get("t") == "shared" and kept.text
            )
            self._shared_formulas_found = {kept.get("si"): (str(kept.text), row) for row, kept in written}
        return self._shared_formulas_found

    def write(self, row: int, column: int, value: str | float | None, style: int) -> None:
        """Writes a text or a number; what stood there is gone."""
        if not self._written:
            self._package.changed(self._part)
            self._written = True
        cell = self._at(row, column)
        if cell is None:
            if value is None and not style:
                return
            cell = self._inserted(row, column)
        for child in list(cell):
            cell.remove(child)
        for name in ("t", "cm", "vm"):
            cell.attrib.pop(name, "")
        cell.set("s", str(style))
        if isinstance(value, str):
            cell.set("t", "inlineStr")
            text = etree.SubElement(etree.SubElement(cell, main("is")), main("t"))
            text.text = _NO_TEXT.sub("\ufffd", value)
            text.set("{http://www.w3.org/XML/1998/namespace}space", "preserve")
        elif value is not None:
            etree.SubElement(cell, main("v")).text = repr(float(value)).removesuffix(".0")

    def _inserted(self, row: int, column: int) -> _Element:
        line = self._lines.get(row)
        if line is None:
            line = etree.Element(main("row"), r=str(row))
            self._data.insert(sum(1 for known in self._lines if known < row), line)
            self._lines[row] = line
        # A row may say which columns it spans, which is only a hint: drop it rather than let it lie.
        line.attrib.pop("spans", "")
        cells = self._cells.setdefault(row, {})
        cell = etree.Element(main("c"), r=_place.cell(row, column))
        behind = max(cells, default=0) < column
        line.insert(len(cells) if behind else sum(1 for known in cells if known < column), cell)
        cells[column] = cell
        return cell

    def finish(self) -> None:
        """Says which area of the sheet is used, once everything is written."""
        dimension = self._package.changed(self._part).find(main("dimension"))
        used = [(row, column) for row, cells in self._cells.items() for column in cells]
        if dimension is not None and used:
            rows, columns = zip(*used, strict=True)
            dimension.set("ref", f"{_place.cell(min(rows), min(columns))}:{_place.cell(max(rows), max(columns))}")


def _said(element: _Element | None) -> str:
    """The text of a cell or of a shared text: its runs one behind the other, without the reading aids."""
    if element is None:
        return ""
    parts = (
        element.iterfind(f"{main('r')}/{main('t')}")
        if element.find(main("r")) is not None
        else element.iterfind(main("t"))
    )
    return "".join(part.text or "" for part in parts)


def shared_texts(root: _Element) -> tuple[str, ...]:
    """The texts that cells share."""
    return tuple(_said(element) for element in root.iterfind(main("si")))


def shown_as(styles: _Element) -> tuple[str, ...]:
    """For every style whether it shows a number as a `date`, as a `percent`, or neither."""
    written = {item.get("numFmtId"): item.get("formatCode", "") for item in styles.iter(main("numFmt"))}
    found = []
    for style in styles.iterfind(f"{main('cellXfs')}/{main('xf')}"):
        number = style.get("numFmtId", "0")
        code = _LITERAL.sub("", written.get(number, "")).lower()
        built_in = int(number) if number.isdecimal() and number not in written else -1
        if built_in in _DATES or (re.search("[dmyhs]", code) and "general" not in code):
            found.append("date")
        elif built_in in _PERCENT or "%" in code:
            found.append("percent")
        else:
            found.append("")
    return tuple(found)
