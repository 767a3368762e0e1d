"""A workbook: which sheets it has, and where its circuits are."""

from __future__ import annotations

from lxml import etree

from loadworthy.spreadsheet import _columns
from loadworthy.spreadsheet._errors import SheetError
from loadworthy.spreadsheet._grid import Grid, shared_texts, shown_as
from loadworthy.spreadsheet._package import LINKS, MAIN, Package, main

TYPE_CHECKING = False
if TYPE_CHECKING:
    from pathlib import Path

#: How far down the heading is looked for.
_HEADING_WITHIN = 50

#: What may stand in front of how the workbook is calculated, ECMA-376 Part 1, 18.2.27 (the order of CT_Workbook).
_BEFORE_CALCULATION = frozenset(
    ["fileVersion", "fileSharing", "workbookPr", "workbookProtection", "bookViews", "sheets", "functionGroups",
     "externalReferences", "definedNames", "AlternateContent", "revisionPtr"]
)  # fmt: skip


class Workbook:
    """A workbook that was opened."""

    def __init__(self, path: Path) -> None:
        self.package = Package(path)
        links = self.package.links("")
        self._part = next((target for kind, target in links.values() if kind == "officeDocument"), "")
        if self._part.endswith(".bin"):
            raise SheetError("is a binary workbook; save it as .xlsx", str(path))
        if not self._part:
            raise SheetError("is no workbook of the .xlsx format", str(path))
        root = self.package.tree(self._part)
        if etree.QName(root).namespace != MAIN:
            raise SheetError("is no workbook of the usual .xlsx format; save it as .xlsx (not strict)", str(path))
        self._links = self.package.links(self._part)
        self._shared = self._texts()
        self.styles = next((target for kind, target in self._links.values() if kind == "styles"), None)
        self._formats = shown_as(self.package.tree(self.styles)) if self.styles else ()

    def _texts(self) -> tuple[str, ...]:
        part = next((target for kind, target in self._links.values() if kind == "sharedStrings"), None)
        return shared_texts(self.package.tree(part)) if part and part in self.package else ()

    @property
    def sheets(self) -> dict[str, str]:
        """The parts of the sheets of cells, by name."""
        found = {}
        for sheet in self.package.tree(self._part).iterfind(f"{main('sheets')}/{main('sheet')}"):
            kind, part = self._links.get(sheet.get(f"{{{LINKS}}}id", ""), ("", ""))
            if kind == "worksheet":
                found[sheet.get("name", "")] = part
        return found

    def grid(self, part: str) -> Grid:
        """The cells of a sheet."""
        return Grid(self.package, part, self._shared, self._formats)

    def circuits(self, name: str | None) -> tuple[str, Grid, int]:
        """The sheet of circuits, its cells, and the row of its heading: the one that is named, or the only one."""
        sheets, path = self.sheets, str(self.package.path)
        if name is not None and name not in sheets:
            raise SheetError(f"has no sheet `{name}`; its sheets are: {', '.join(sheets)}", path)
        wanted = {name: sheets[name]} if name is not None else sheets
        found = []
        for title, part in wanted.items():
            grid = self.grid(part)
            if row := _heading(grid):
                found.append((title, grid, row))
        if len(found) > 1:
            raise SheetError(
                f"has circuits on several sheets; name one of: {', '.join(title for title, _, _ in found)}", path
            )
        if not found:
            needed = "material, size, insulation or cable, load_continuous_a, load_other_a, device_a"
            raise SheetError(f"has no heading of circuits; one row must name the columns: {needed}", path)
        return found[0]

    def calculate_on_opening(self) -> None:
        """Asks whoever opens the workbook to calculate its formulas: some may refer to what was written."""
        root = self.package.changed(self._part)
        found = root.find(main("calcPr"))
        if found is None:
            found = etree.Element(main("calcPr"))
            before = [at for at, child in enumerate(root) if etree.QName(child).localname in _BEFORE_CALCULATION]
            root.insert(max(before, default=-1) + 1, found)
        found.set("fullCalcOnLoad", "1")


def _heading(grid: Grid) -> int | None:
    for row in [row for row in grid.rows if row <= _HEADING_WITHIN]:
        texts = [text.strip() for column in grid.columns(row) if (text := grid.text(row, column))]
        if _columns.is_heading(texts):
            return row
    return None
