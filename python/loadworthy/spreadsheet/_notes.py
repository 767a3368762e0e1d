"""Notes of cells: why a cell does not hold. Other people's notes stay as they are."""

from __future__ import annotations

from lxml import etree

from loadworthy.spreadsheet import _place
from loadworthy.spreadsheet._errors import SheetError
from loadworthy.spreadsheet._package import LINKS, MAIN, Package, main

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Mapping

    from lxml.etree import _Element

AUTHOR = "Loadworthy"

_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml"
_DRAWING_TYPE = "application/vnd.openxmlformats-officedocument.vmlDrawing"
_VML, _OFFICE, _EXCEL = (
    "urn:schemas-microsoft-com:vml",
    "urn:schemas-microsoft-com:office:office",
    "urn:schemas-microsoft-com:office:excel",
)

#: What may follow the drawing of the notes in a sheet, ECMA-376 Part 1, 18.3.1.99 (the order of CT_Worksheet).
_BEHIND = frozenset(
    ["legacyDrawingHF", "drawingHF", "picture", "oleObjects", "controls", "webPublishItems", "tableParts", "extLst"]
)


class Notes:
    """The notes of one sheet."""

    def __init__(self, package: Package, sheet: str) -> None:
        self._package = package
        self._sheet = sheet
        links = package.links(sheet)
        self._part = next((target for kind, target in links.values() if kind == "comments"), None)
        drawing = package.tree(sheet).find(main("legacyDrawing"))
        identifier = None if drawing is None else drawing.get(f"{{{LINKS}}}id")
        self._drawing = links[identifier][1] if identifier in links else None

    def others(self, cells: Mapping[tuple[int, int], str]) -> list[str]:
        """Which of these cells have a note of somebody else."""
        wanted, ours = {_place.cell(*at) for at in cells}, set(self._ours())
        return [ref for note in self._notes() if (ref := note.get("ref", "")) in wanted and note not in ours]

    def write(self, notes: Mapping[tuple[int, int], str]) -> None:
        """Takes our notes of before away, and puts these in their places."""
        old = self._ours()
        if not notes and not old:
            return
        self._make()
        root, drawing = self._package.changed(self._part or ""), self._package.changed(self._drawing or "")
        authors, listed = root.find(main("authors")), root.find(main("commentList"))
        if authors is None or listed is None:
            raise SheetError(f"its part `{self._part}` lacks what every list of notes has; it is damaged")
        for note in old:
            listed.remove(note)
        _remove_shapes(drawing, {_place.placed(note.get("ref", "")) for note in old})
        author = self._author(authors)
        for (row, column), text in sorted(notes.items()):
            note = etree.SubElement(listed, main("comment"), ref=_place.cell(row, column), authorId=str(author))
            said = etree.SubElement(etree.SubElement(note, main("text")), main("t"))
            said.text = text
            said.set("{http://www.w3.org/XML/1998/namespace}space", "preserve")
            drawing.append(_shape(row, column, text, len(drawing)))

    def _notes(self) -> list[_Element]:
        if self._part is None:
            return []
        return list(self._package.tree(self._part).iterfind(f"{main('commentList')}/{main('comment')}"))

    def _authors(self) -> list[str | None]:
        if self._part is None:
            return []
        root = self._package.tree(self._part)
        return [author.text for author in root.iterfind(f"{main('authors')}/{main('author')}")]

    def _ours(self) -> list[_Element]:
        ours = {str(number) for number, author in enumerate(self._authors()) if author == AUTHOR}
        return [note for note in self._notes() if note.get("authorId") in ours]

    def _author(self, authors: _Element) -> int:
        known = self._authors()
        if AUTHOR in known:
            return known.index(AUTHOR)
        etree.SubElement(authors, main("author")).text = AUTHOR
        return len(known)

    def _make(self) -> None:
        """The parts that hold notes, where the sheet has none yet."""
        package = self._package
        if self._part is None:
            root = etree.fromstring(f'<comments xmlns="{MAIN}"><authors/><commentList/></comments>')
            self._part = package.free("xl/comments_loadworthy{}.xml")
            package.add(self._part, root, _TYPE)
            package.link(self._sheet, "comments", self._part)
        if self._drawing is None:
            self._drawing = package.free("xl/drawings/vmlDrawing_loadworthy{}.vml")
            package.add(self._drawing, _empty_drawing(), _DRAWING_TYPE)
            identifier = package.link(self._sheet, "vmlDrawing", self._drawing)
            sheet = package.changed(self._sheet)
            element = etree.Element(main("legacyDrawing"))
            element.set(f"{{{LINKS}}}id", identifier)
            behind = [at for at, child in enumerate(sheet) if etree.QName(child).localname in _BEHIND]
            sheet.insert(min(behind, default=len(sheet)), element)


def _remove_shapes(drawing: _Element, places: set[tuple[int, int]]) -> None:
    for shape in list(drawing.iterfind(f"{{{_VML}}}shape")):
        data = shape.find(f"{{{_EXCEL}}}ClientData")
        if data is None or data.get("ObjectType") != "Note":
            continue
        row, column = (data.findtext(f"{{{_EXCEL}}}{name}", "").strip() for name in ("Row", "Column"))
        if row.isdecimal() and column.isdecimal() and (int(row) + 1, int(column) + 1) in places:
            drawing.remove(shape)


def _empty_drawing() -> _Element:
    root = etree.Element("xml", nsmap={"v": _VML, "o": _OFFICE, "x": _EXCEL})
    kind = etree.SubElement(
        root, f"{{{_VML}}}shapetype", id="_x0000_t202", coordsize="21600,21600", path="m,l,21600r21600,l21600,xe"
    )
    kind.set(f"{{{_OFFICE}}}spt", "202")
    etree.SubElement(kind, f"{{{_VML}}}stroke", joinstyle="miter")
    path = etree.SubElement(kind, f"{{{_VML}}}path", gradientshapeok="t")
    path.set(f"{{{_OFFICE}}}connecttype", "rect")
    return root


def _shape(row: int, column: int, text: str, number: int) -> _Element:
    """The box that a note is shown in, beside its cell."""
    lines = 2 + sum(1 + len(line) // 40 for line in text.splitlines())
    style = "position:absolute;width:240pt;height:80pt;z-index:1;visibility:hidden"
    shape = etree.Element(
        f"{{{_VML}}}shape", id=f"_x0000_s{9000 + number}", type="#_x0000_t202", style=style, fillcolor="#ffffe1"
    )
    shape.set(f"{{{_OFFICE}}}insetmode", "auto")
    etree.SubElement(shape, f"{{{_VML}}}fill", color2="#ffffe1")
    etree.SubElement(etree.SubElement(shape, f"{{{_VML}}}textbox"), "div").set("style", "text-align:left")
    data = etree.SubElement(shape, f"{{{_EXCEL}}}ClientData", ObjectType="Note")
    etree.SubElement(data, f"{{{_EXCEL}}}MoveWithCells")
    etree.SubElement(data, f"{{{_EXCEL}}}SizeWithCells")
    # Left column and offset, top row and offset, right column and offset, bottom row and offset.
    anchor = f"{column}, 15, {row - 1}, 2, {column + 5}, 15, {row - 1 + max(4, lines)}, 4"
    etree.SubElement(data, f"{{{_EXCEL}}}Anchor").text = anchor
    etree.SubElement(data, f"{{{_EXCEL}}}AutoFill").text = "False"
    etree.SubElement(data, f"{{{_EXCEL}}}Row").text = str(row - 1)
    etree.SubElement(data, f"{{{_EXCEL}}}Column").text = str(column - 1)
    return shape
