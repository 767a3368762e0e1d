"""How marked cells look: the style that they had, with another ground."""

from __future__ import annotations

from copy import deepcopy

from lxml import etree

from loadworthy.spreadsheet._errors import SheetError
from loadworthy.spreadsheet._package import Package, main

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lxml.etree import _Element

#: The grounds of cells that do not hold; the words in the cells say the same without colour.
GROUNDS = {"fails": "FFFFC7CE", "cannot tell": "FFFFEB9C"}


class Styles:
    """The styles of a workbook."""

    def __init__(self, package: Package, part: str) -> None:
        self._package = package
        self._part = part
        self._made: dict[tuple[int, str | None], int] = {}

    def marked(self, style: int, verdict: str | None) -> int:
        """The style of a cell that ends so: as `style`, but with the ground of the verdict, or without one of ours."""
        key = (style, verdict if verdict in GROUNDS else None)
        if key not in self._made:
            self._made[key] = self._make(*key)
        return self._made[key]

    def _make(self, style: int, verdict: str | None) -> int:
        styles = self._table("cellXfs")
        if style >= len(styles):
            raise SheetError(f"a cell has style {style}, which is not there; the workbook is damaged")
        ours = {str(self._ground(known)): known for known in GROUNDS if verdict or self._has_ground(known)}
        has = ours.get(styles[style].get("fillId", "0"))
        if has == verdict:
            return style
        made = deepcopy(styles[style])
        made.set("fillId", str(self._ground(verdict)) if verdict else "0")
        made.set("applyFill", "1")
        for number, known in enumerate(styles):
            if etree.tostring(known).strip() == etree.tostring(made).strip():
                return number
        return _append(self._changed("cellXfs"), made)

    def _has_ground(self, verdict: str) -> bool:
        return any(_colour(fill) == GROUNDS[verdict] for fill in self._table("fills"))

    def _ground(self, verdict: str) -> int:
        for number, fill in enumerate(self._table("fills")):
            if _colour(fill) == GROUNDS[verdict]:
                return number
        fill = etree.Element(main("fill"))
        pattern = etree.SubElement(fill, main("patternFill"), patternType="solid")
        etree.SubElement(pattern, main("fgColor"), rgb=GROUNDS[verdict])
        return _append(self._changed("fills"), fill)

    def _table(self, name: str) -> _Element:
        found = self._package.tree(self._part).find(main(name))
        if found is None:
            raise SheetError(f"its part `{self._part}` lacks `{name}`; it is damaged", str(self._package.path))
        return found

    def _changed(self, name: str) -> _Element:
        self._package.changed(self._part)
        return self._table(name)


def _colour(fill: _Element) -> str | None:
    colour = fill.find(f"{main('patternFill')}/{main('fgColor')}")
    return None if colour is None else colour.get("rgb")


def _append(table: _Element, element: _Element) -> int:
    table.append(element)
    table.set("count", str(len(table)))
    return len(table) - 1
