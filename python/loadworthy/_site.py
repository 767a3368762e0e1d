"""Described sites: read from a file, a text or a mapping, and judged, planned, switched."""

from __future__ import annotations

import os
from operator import index

from loadworthy import _mapped, _steps
from loadworthy._core import Acceptance, Described
from loadworthy._errors import InputError, QuestionError, QuestionTypeError
from loadworthy._reports import Findings, Plan, Report, Switching

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from typing import Any, Union

    _Path = Union[str, os.PathLike[str]]
    _Source = Union["Site", str, os.PathLike[str], Mapping[str, Any]]
    _Steps = Union[str, os.PathLike[str], Mapping[str, Any], Iterable[Mapping[str, Any]]]


class Site:
    """A site whose description was understood.

    >>> import loadworthy as lw
    >>> site = lw.Site.parse('''
    ... [site]
    ... name = "shed"
    ... code = "nec-2023"
    ... [[source]]
    ... name = "generator"
    ... kind = "generator"
    ... system = "120 V"
    ... ''')
    >>> site
    <Site 'shed'>
    >>> site.check().outcome is lw.Outcome.CANNOT_TELL
    True
    """

    __slots__ = ("_bytes", "_changes", "_described", "_file")

    def __init__(self, file: str, document: bytes, _changes: tuple[tuple[str, str, str], ...] = ()) -> None:
        """Reads the bytes of a document, TOML or JSON; `file` is the name that its problems and places carry.

        Raises InputError with every problem of the document.
        """
        self._file = file
        self._bytes = document
        self._changes = _changes
        described = Described(file, document)
        for change, name, text in _changes:
            described = getattr(described, change)(name, text)
        self._described = described

    @classmethod
    def load(cls, path: _Path) -> Site:
        """Reads a file. Raises OSError where there is none, InputError with every problem of the document."""
        with open(path, "rb") as stream:
            return cls(os.fspath(path), stream.read())

    @classmethod
    def parse(cls, text: str, file: str = "site") -> Site:
        """Reads a text, TOML or JSON. Raises InputError with every problem of the document."""
        try:
            return cls(file, text.encode("utf-8", "surrogatepass"))
        except InputError:
            if not _is_other_json(text):
                raise
            what = f"{file}:1:1: this is a value of JSON that describes nothing; a site is a table of fields"
            raise InputError([("wrong-type", what, file, 1, 1, "")]) from None

    @classmethod
    def from_dict(cls, description: Mapping[str, Any], file: str = "site") -> Site:
        """Reads a mapping with the fields of a document. Raises InputError with every problem of it.

        Quantities are texts or objects such as `Amperes(16)`; a number without a unit is a problem. A problem says the
        path of its field, such as `cord[0].length`; its line and column are 0.
        """
        document = _mapped.written(description, file)
        try:
            return cls(file, document)
        except InputError as error:
            raise _mapped.without_lines(error) from None

    @classmethod
    def of(cls, source: _Source) -> Site:
        """A site of whatever is at hand: a site, a mapping, a text, or the path of a file.

        A string is a text where it has several lines or begins with a brace; no description is shorter. Otherwise it
        is a path.
        """
        if isinstance(source, Site):
            return source
        if isinstance(source, str):
            if not source.strip():
                raise InputError([("syntax", "site: the text is empty; describe a site in it", "site", 0, 0, "")])
            return cls.parse(source) if "\n" in source or source.lstrip().startswith("{") else cls.load(source)
        if isinstance(source, os.PathLike):
            return cls.load(source)
        if hasattr(source, "keys"):
            return cls.from_dict(source)
        raise QuestionTypeError(
            f"a site is a path, a text or a mapping, not a value of type `{type(source).__name__}`", "source"
        )

    @property
    def name(self) -> str:
        """The name that the description gives it."""
        return self._described.name

    @property
    def edition(self) -> str:
        """The edition that the description names."""
        return self._described.edition

    def with_field(self, path: str, value: object) -> Site:
        """This site with one field set, or removed where the value is empty: `site.with_field("cord.length", "100 ft")`.

        Raises InputError where the field does not take the value, QuestionError where the path names none.
        """
        text = "" if value is None else str(value).lower() if isinstance(value, bool) else str(value)
        return self._changed("with_field", path, text)

    def with_components(self, text: str, file: str = "components") -> Site:
        """This site with the components of a further text, each in place of the one with its name."""
        return self._changed("with_components", file, text)

    def _changed(self, change: str, name: str, text: str) -> Site:
        return Site(self._file, self._bytes, (*self._changes, (change, name, text)))

    def check(self, *, edition: str | None = None, accept: Acceptance | None = None, working: bool = False) -> Report:
        """Judges the site: loadworthy, not loadworthy, or cannot tell. With `working`, findings carry their derivation.

        The interpreter's lock is released meanwhile. Raises QuestionError for an edition that is not carried.
        """
        asked: dict[str, Any] = {"working": working, "edition": edition, "accept": accept}
        return Report(self, asked, self._described.check("json", **asked))

    def plan(
        self,
        *,
        source: str | None = None,
        start_order: Iterable[str] | str | None = None,
        hours: object = None,
        start_hour: int = 0,
        measured: _Path | None = None,
        measured_share: object = None,
        measured_for: Iterable[str] | str | None = None,
        edition: str | None = None,
        accept: Acceptance | None = None,
    ) -> Plan:
        """Plans what can run on the source of the site, in which order, and for how long.

        `hours` is a duration (`"12 h"`), `start_hour` the hour of the day at which the source takes over, 0 to 23,
        `measured` a record of the home's meter and `measured_share` (`"95 %"`) the share of it that the base load covers.
        Raises QuestionError for what cannot be planned.
        """
        if measured is not None and not isinstance(measured, (str, os.PathLike)):
            raise QuestionTypeError(
                f"measured: a value of type `{type(measured).__name__}` is not the path of a file", "measured"
            )
        asked: dict[str, Any] = {
            "source": _name("source", source),
            "start_order": _names("start_order", start_order),
            "hours": _text("hours", hours),
            "start_hour": _hour(start_hour),
            "measured": measured,
            "measured_share": _text("measured_share", measured_share),
            "measured_for": _names("measured_for", measured_for),
            "edition": edition,
            "accept": accept,
        }
        return Plan(self, asked, self._described.plan("json", **asked))

    def sequence(
        self, *, verify: _Steps | None = None, edition: str | None = None, accept: Acceptance | None = None
    ) -> Switching:
        """Finds the order to connect, to return and to disconnect, or judges the steps `verify`.

        Steps are the path of a file, its text in several lines, a list such as
        `[{"do": "stop", "device": "generator"}]`, or a mapping with that list as `step` and with positions as `start`.

        Raises InputError with every problem of the steps, QuestionError for an edition that is not carried.
        """
        asked: dict[str, Any] = {
            "steps": None if verify is None else _steps.read(verify),
            "edition": edition,
            "accept": accept,
        }
        return Switching(self, asked, self._described.sequence("json", **asked))

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Site) and self.__reduce__() == other.__reduce__()

    def __hash__(self) -> int:
        return hash(self.__reduce__())

    def __reduce__(self) -> tuple[type[Site], tuple[str, bytes, tuple[tuple[str, str, str], ...]]]:
        return Site, (self._file, self._bytes, self._changes)

    def __repr__(self) -> str:
        return f"<Site {self.name!r}>"


def _is_other_json(text: str) -> bool:
    """Whether a text is well-formed JSON, and no table."""
    import json

    try:
        return not isinstance(json.loads(text), dict)
    except (ValueError, RecursionError):
        return False


def _hour(start_hour: Any) -> int:
    try:
        hour = -1 if isinstance(start_hour, bool) else index(start_hour)
    except TypeError:
        hour = -1
    if not 0 <= hour <= 23:
        raise QuestionError(f"start_hour: the day has no hour {start_hour!r}; write 0 to 23", "start_hour")
    return hour


def _text(option: str, value: object) -> str | None:
    if value is None or isinstance(value, str):
        return value
    if isinstance(value, (bool, float)):
        raise QuestionTypeError(f"{option}: `{value!r}` has no unit; write text, or a quantity", option)
    return str(value)


def _name(option: str, name: Any) -> Any:
    if name is not None and not isinstance(name, str):
        raise QuestionTypeError(f"{option}: a value of type `{type(name).__name__}` is not a name", option)
    return name


def _names(option: str, names: Any) -> str | None:
    if names is None or isinstance(names, str):
        return names
    listed = names if hasattr(names, "__iter__") else [names]
    return ",".join(_name(option, name) for name in listed)


def check(
    site: _Source, /, *, edition: str | None = None, accept: Acceptance | None = None, working: bool = False
) -> Report:
    """Judges a site from a path, a text, a mapping or a `Site`: loadworthy, not loadworthy, or cannot tell.

    >>> import loadworthy as lw
    >>> shed = {
    ...     "site": {"name": "shed", "code": "nec-2023"},
    ...     "source": [{"name": "generator", "kind": "generator", "system": "120 V"}],
    ... }
    >>> report = lw.check(shed)
    >>> report.outcome.value, len(report.failures), len(report.questions) > 5
    ('cannot-tell', 0, True)

    Args:
        site: the description; its fields are those that `loadworthy fields` prints, quantities are texts with units.
        edition: nec-2017, nec-2020 or nec-2023, in place of the one that the description names.
        accept: cells that somebody has read in the book and accepts.
        working: whether each finding carries its derivation.

    Raises OSError where there is no such file, InputError with every problem of the description, QuestionError for an
    edition that is not carried. The sections that each finding rests on are its `citation`.
    """
    return Site.of(site).check(edition=edition, accept=accept, working=working)


def plan(
    site: _Source,
    /,
    *,
    source: str | None = None,
    start_order: Iterable[str] | str | None = None,
    hours: object = None,
    start_hour: int = 0,
    measured: _Path | None = None,
    measured_share: object = None,
    measured_for: Iterable[str] | str | None = None,
    edition: str | None = None,
    accept: Acceptance | None = None,
) -> Plan:
    """Plans a site from a path, a text, a mapping or a `Site`: what can run together, in which order, for how long.

    Args:
        site: the description, as for `check`.
        source: the name of the source, where the site has several.
        start_order: names of loads, an order of starts to be judged.
        hours: how long it is wanted to last, a duration such as "12 h".
        start_hour: the hour of the day at which the source takes over, 0 to 23.
        measured: a record of the home's meter, from which the base load is taken.
        measured_share: the share of the recorded time that the base load covers, such as "95 %".
        measured_for: names of the described loads that the record holds already.
        edition: nec-2017, nec-2020 or nec-2023, in place of the one that the description names.
        accept: cells that somebody has read in the book and accepts.

    Raises OSError where there is no such file, InputError with every problem of the description, QuestionError for what
    cannot be planned. Source: ampacities, devices and demand by the edition; what starts and sags by the stated data of
    the source and the loads.
    """
    return Site.of(site).plan(
        source=source,
        start_order=start_order,
        hours=hours,
        start_hour=start_hour,
        measured=measured,
        measured_share=measured_share,
        measured_for=measured_for,
        edition=edition,
        accept=accept,
    )


def sequence(
    site: _Source, /, *, verify: _Steps | None = None, edition: str | None = None, accept: Acceptance | None = None
) -> Switching:
    """Finds and proves the switching orders of a site from a path, a text, a mapping or a `Site`, or judges your own.

    Args:
        site: the description, as for `check`.
        verify: steps to judge in place of finding an order: the path of a file, its text in several lines, a list such
            as `[{"do": "stop", "device": "generator"}]`, or a mapping with that list as `step` and with positions as
            `start`.
        edition: nec-2017, nec-2020 or nec-2023, in place of the one that the description names.
        accept: cells that somebody has read in the book and accepts.

    Raises OSError where there is no such file, InputError with every problem of the description or of the steps,
    QuestionError for an edition that is not carried.
    """
    return Site.of(site).sequence(verify=verify, edition=edition, accept=accept)


def size(site: _Source, /, *, edition: str | None = None, accept: Acceptance | None = None) -> Findings:
    """What to change on a site: the findings that fail and can be mended, each with its `remedy`.

    Where a size mends it, the remedy names the smallest standard one that passes and breaks nothing else.
    """
    failures = Site.of(site).check(edition=edition, accept=accept).failures
    return failures.where(matching=lambda one: one.remedy is not None)
