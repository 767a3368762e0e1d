"""A workbook as a package of parts: opened with care, and written with every part that is not ours as it was."""

from __future__ import annotations

import io
import os
import posixpath
import tempfile
import zipfile
import zlib
from contextlib import suppress
from pathlib import Path

from lxml import etree

from loadworthy.spreadsheet._errors import SheetError

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lxml.etree import _Element

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
LINKS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE_LINKS = "http://schemas.openxmlformats.org/package/2006/relationships"
TYPES = "http://schemas.openxmlformats.org/package/2006/content-types"

#: More than this, unpacked, is no sheet of circuits.
_MOST_BYTES = 1 << 30

#: How an encrypted workbook begins, and one of the format before 2007: neither is a package.
_COMPOUND_FILE = b"\xd0\xcf\x11\xe0"


def main(name: str) -> str:
    """A name in the namespace of sheets."""
    return f"{{{MAIN}}}{name}"


class Package:
    """The parts of a workbook. Parts that are asked for as XML and marked as changed are written anew."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._entries, self._bytes = _read(path)
        self._trees: dict[str, _Element] = {}
        self._changed: set[str] = set()
        if "_xmlsignatures/origin.sigs" in self._bytes:
            raise SheetError("the workbook is signed; writing results would break the signature", str(path))

    def __contains__(self, part: str) -> bool:
        return part in self._bytes or part in self._trees

    def tree(self, part: str) -> _Element:
        """A part as XML."""
        if part not in self._trees:
            if part not in self._bytes:
                raise SheetError(f"the workbook lacks its part `{part}`; it is damaged", str(self.path))
            # Entities and networks are none of a workbook's business.
            parser = etree.XMLParser(resolve_entities=False, no_network=True, huge_tree=True)
            try:
                root = etree.fromstring(self._bytes[part], parser)
            except etree.XMLSyntaxError as error:
                raise SheetError(f"its part `{part}` is damaged: {error}", str(self.path)) from None
            if root.getroottree().docinfo.internalDTD is not None:
                raise SheetError(f"its part `{part}` declares a document type, which no workbook does", str(self.path))
            self._trees[part] = root
        return self._trees[part]

    def changed(self, part: str) -> _Element:
        """A part as XML that is about to be changed."""
        self._changed.add(part)
        return self.tree(part)

    def add(self, part: str, root: _Element, kind: str) -> None:
        """A new part, with its content type."""
        self._trees[part] = root
        self._changed.add(part)
        types = self.changed("[Content_Types].xml")
        etree.SubElement(types, f"{{{TYPES}}}Override", PartName=f"/{part}", ContentType=kind)

    def links(self, part: str) -> dict[str, tuple[str, str]]:
        """The links of a part: by their identifier, the kind and the part that is meant."""
        where = _links_of(part)
        if where not in self:
            return {}
        found = {}
        for link in self.tree(where):
            target = link.get("Target", "")
            if link.get("TargetMode") != "External":
                target = _resolved(part, target)
            found[link.get("Id", "")] = (link.get("Type", "").rsplit("/", 1)[-1], target)
        return found

    def link(self, part: str, kind: str, target: str) -> str:
        """Links a part to another, and gives the identifier."""
        where = _links_of(part)
        if where not in self:
            self._trees[where] = etree.fromstring(f'<Relationships xmlns="{PACKAGE_LINKS}"/>')
        taken = self.links(part)
        identifier = next(name for number in range(1, len(taken) + 2) if (name := f"rId{number}") not in taken)
        attributes = {"Id": identifier, "Type": f"{LINKS}/{kind}", "Target": f"/{target}"}
        etree.SubElement(self.changed(where), f"{{{PACKAGE_LINKS}}}Relationship", attributes)
        return identifier

    def free(self, pattern: str) -> str:
        """A name for a new part: the pattern with the first number that is free."""
        return next(name for number in range(1, 1 << 20) if (name := pattern.format(number)) not in self)

    def write(self, path: Path) -> None:
        """Writes the workbook so that there is never half of one: beside the place, then moved there."""
        for lock in (f"~${path.name}", f".~lock.{path.name}#"):
            if (path.parent / lock).exists():
                raise SheetError(
                    f"is open in another program, which would not see the results; close it (or remove `{lock}`)",
                    str(path),
                )
        out = io.BytesIO()
        with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
            for entry in self._entries:
                changed = entry.filename in self._changed
                archive.writestr(entry, self._text(entry.filename) if changed else self._bytes[entry.filename])
            known = {entry.filename for entry in self._entries}
            for part in sorted(self._changed - known):
                archive.writestr(part, self._text(part))
        _put(path, out.getvalue(), like=self.path)

    def _text(self, part: str) -> bytes:
        return bytes(etree.tostring(self._trees[part], xml_declaration=True, encoding="UTF-8", standalone=True))


def _read(path: Path) -> tuple[list[zipfile.ZipInfo], dict[str, bytes]]:
    place = str(path)
    try:
        content = path.read_bytes()
    except OSError as error:
        raise SheetError(f"cannot be read: {error.strerror}", place) from None
    if content.startswith(_COMPOUND_FILE):
        raise SheetError(
            "is encrypted with a password, or of a format before 2007; open it and save it as .xlsx without one", place
        )
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            entries = archive.infolist()
            if sum(entry.file_size for entry in entries) > _MOST_BYTES:
                raise SheetError(
                    "is larger than a gigabyte when unpacked; keep the circuits in a workbook of their own", place
                )
            if len({entry.filename for entry in entries}) != len(entries):
                raise SheetError("holds a part twice; it is damaged", place)
            return entries, {entry.filename: archive.read(entry) for entry in entries}
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, ValueError) as error:
        if isinstance(error, SheetError):
            raise
        raise SheetError(
            "is no workbook of the .xlsx format, or only a part of one: it may be truncated", place
        ) from None


def _put(path: Path, content: bytes, like: Path) -> None:
    mode = like.stat().st_mode & 0o777
    try:
        # The real file behind a link is replaced, and the link stays.
        real = Path(os.path.realpath(path))
        handle, name = tempfile.mkstemp(prefix=f".{real.name}.", dir=real.parent)
    except OSError as error:
        raise SheetError(f"cannot be written: {error.strerror}", str(path)) from None
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(name, mode)
        os.replace(name, real)
    except OSError as error:
        with suppress(OSError):
            os.unlink(name)
        raise SheetError(f"cannot be written: {error.strerror}", str(path)) from None


def _links_of(part: str) -> str:
    folder, name = posixpath.split(part)
    return posixpath.join(folder, "_rels", f"{name}.rels")


def _resolved(part: str, target: str) -> str:
    if target.startswith("/"):
        return target.lstrip("/")
    return posixpath.normpath(posixpath.join(posixpath.dirname(part), target))
