"""What is found on a site: reports to iterate, to filter, and to show."""

from __future__ import annotations

import json
from html import escape

from loadworthy import _core, _html
from loadworthy._errors import QuestionTypeError, not_known
from loadworthy._outcome import Outcome
from loadworthy._views import Place, Record, Step, place, steps

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Iterator
    from typing import Any

    from loadworthy._site import Site

#: How a finding ends.
_ENDS = (Outcome.HOLDS.value, Outcome.FAILS.value, Outcome.CANNOT_TELL.value)


class Finding(Record):
    """One thing that a rule examined, and what it found.

    Attributes:
        rule: the slug of the rule: `cord-ampacity`.
        severity: how grave a failure is: prohibited, violation, caution or information.
        outcome: `Outcome.HOLDS`, `Outcome.FAILS` or `Outcome.CANNOT_TELL`.
        kind: the kind of the component: `cord`, `panel`.
        component: the name of the component.
        place: where in the description the fact stands that decided.
        message: the finding in one sentence.
        measured: what was measured, a text with its unit.
        limit: what it was compared with.
        citation: the sections that the rule rests on.
        remedy: what would mend it.
        working: how the numbers came about, where the working was asked for.
        acknowledged: whether it is a caution that does not hold and that the description acknowledges.
    """

    __slots__ = (  # noqa: RUF023  in the order of the constructor
        "rule", "severity", "outcome", "kind", "component", "place", "message", "measured", "limit", "citation",
        "remedy", "working", "acknowledged",
    )  # fmt: skip

    def __init__(
        self,
        rule: str,
        severity: str,
        outcome: Outcome,
        kind: str,
        component: str,
        place: Place | None,
        message: str,
        measured: str | None,
        limit: str | None,
        citation: str,
        remedy: str | None,
        working: tuple[Step, ...],
        acknowledged: bool = False,
    ) -> None:
        self.rule = rule
        self.severity = severity
        self.outcome = outcome
        self.kind = kind
        self.component = component
        self.place = place
        self.message = message
        self.measured = measured
        self.limit = limit
        self.citation = citation
        self.remedy = remedy
        self.working = working
        self.acknowledged = acknowledged

    @classmethod
    def _of(cls, said: dict[str, Any]) -> Finding:
        values = {name: said[name] for name in cls.__slots__}
        values["outcome"] = Outcome(said["outcome"])
        values["place"] = place(said["place"])
        values["working"] = steps(said["working"])
        return cls(**values)

    def __str__(self) -> str:
        return self.message


class Question(Record):
    """A fact to find out, and the rules that wait for it.

    Attributes:
        kind: the kind of the component that it is asked of.
        component: the name of the component.
        field: the field of the description that would say it.
        question: the question in words.
        decides: the slugs of the rules that wait for it.
        place: where in the description that component stands.
    """

    __slots__ = ("kind", "component", "field", "question", "decides", "place")  # noqa: RUF023

    def __init__(
        self, kind: str, component: str, field: str, question: str, decides: tuple[str, ...], place: Place | None
    ) -> None:
        self.kind = kind
        self.component = component
        self.field = field
        self.question = question
        self.decides = decides
        self.place = place

    @classmethod
    def _of(cls, said: dict[str, Any]) -> Question:
        values = {name: said[name] for name in cls.__slots__}
        values["decides"] = tuple(said["decides"])
        values["place"] = place(said["place"])
        return cls(**values)

    def __str__(self) -> str:
        return self.question


class Findings(tuple[Finding, ...]):
    """Findings in order; `where` keeps some of them."""

    #: The names of the components of the site that they are of, where that is known.
    _components: frozenset[str] | None = None

    @classmethod
    def _on(cls, site: Site, documents: Iterable[dict[str, Any]]) -> Findings:
        return cls(Finding._of(said) for said in documents)._beside(frozenset(site._described.components))

    def _beside(self, components: frozenset[str] | None) -> Findings:
        self._components = components
        return self

    def where(
        self,
        *,
        outcome: Outcome | str | None = None,
        rule: str | None = None,
        severity: str | None = None,
        kind: str | None = None,
        component: str | None = None,
        matching: Callable[[Finding], bool] | None = None,
    ) -> Findings:
        """Those that are like all that is stated, and for which `matching` gives true.

        Args:
            outcome: holds, fails or cannot-tell, as a word or a member of `Outcome`.
            rule: the slug of a rule, such as cord-ampacity.
            severity: prohibited, violation, caution or information.
            kind: a kind of component, such as cord; empty for the site as a whole.
            component: the name of a component; empty for the site as a whole.
            matching: whether to keep a finding.

        Raises QuestionError for a word that is not known: nothing found would look like nothing wrong.
        """
        wanted = {"outcome": outcome, "rule": rule, "severity": severity, "kind": kind, "component": component}
        stated = {name: value for name, value in wanted.items() if value is not None}
        for name, value in stated.items():
            self._know(name, value)
        kept = (one for one in self if all(getattr(one, name) == value for name, value in stated.items()))
        return Findings(one for one in kept if matching is None or matching(one))._beside(self._components)

    def _know(self, option: str, word: str) -> None:
        if not isinstance(word, str):
            raise QuestionTypeError(f"{option}: a value of type `{type(word).__name__}` is not a word", option)
        if any(getattr(one, option) == word for one in self):
            return
        known: Collection[str]
        if option == "component":
            if self._components is None:
                return
            known = self._components
        elif option == "kind":
            known = _core.kinds()
        elif option == "outcome":
            known = _ENDS
        else:
            known = {rule[option == "severity"] for rule in _core.rules()}
        if word not in known and not (word == "" and option in ("kind", "component")):
            raise not_known(option, str(word.value if isinstance(word, Outcome) else word), known)

    def _repr_html_(self) -> str:
        heading = ("outcome", "rule", "component", "finding", "remedy")
        rows = [(one.outcome.value, one.rule, one.component, one.message, one.remedy) for one in self]
        return _html.table(heading, rows)


class Document:
    """What was found on a site: made from the document that the command prints with `--format json`.

    It has no truth value: ask for its `outcome`.
    """

    __slots__ = ("_asked", "_json", "_read", "_site")

    def __init__(self, site: Site, asked: dict[str, Any], written: str) -> None:
        self._site = site
        self._asked = asked
        self._json = written
        self._read: dict[str, Any] | None = None

    @property
    def _document(self) -> dict[str, Any]:
        # Two threads may both read it: they read the same.
        if self._read is None:
            self._read = json.loads(self._json)
        return self._read

    @property
    def site(self) -> Site:
        """The site that it is about."""
        return self._site

    @property
    def outcome(self) -> Outcome:
        """How it ends."""
        return Outcome(self._document["outcome"])

    @property
    def edition(self) -> str:
        """The identifier of the edition that it was judged by."""
        return str(self._document["code"])

    @property
    def cautions(self) -> tuple[str, ...]:
        """The cautions of every report."""
        return tuple(self._document["cautions"])

    def to_json(self) -> str:
        """The document that `--format json` of the command prints, byte for byte, with the newline at its end."""
        return self._json

    def to_dict(self) -> dict[str, Any]:
        """The same document as a dictionary."""
        read: dict[str, Any] = json.loads(self._json)
        return read

    def __bool__(self) -> bool:
        raise TypeError("a report has no truth value; ask for its `outcome`")

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and isinstance(other, Document) and self._json == other._json

    def __hash__(self) -> int:
        return hash(self._json)

    def __reduce__(self) -> tuple[type, tuple[Site, dict[str, Any], str]]:
        return type(self), (self._site, self._asked, self._json)

    def __repr__(self) -> str:
        return f"<{type(self).__name__} of {self._document['site']!r}: {self.outcome.value}>"

    def _text(self) -> str:
        raise NotImplementedError

    @property
    def text(self) -> str:
        """The report for a person to read, as the command prints it."""
        return self._text()

    def __str__(self) -> str:
        return self._text()


class Report(Document):
    """A site judged: `for finding in report`, `report.findings.where(outcome="fails")`."""

    __slots__ = ()

    @property
    def findings(self) -> Findings:
        """Everything that was found, in the order of the rules and of the components."""
        return Findings._on(self._site, self._document["findings"])

    @property
    def failures(self) -> Findings:
        """The findings that fail, those too that the description acknowledges."""
        return self.findings.where(outcome=Outcome.FAILS)

    @property
    def questions(self) -> tuple[Question, ...]:
        """The facts that are missing, each once, with the rules that wait for it."""
        return tuple(Question._of(said) for said in self._document["questions"])

    def __iter__(self) -> Iterator[Finding]:
        return iter(self.findings)

    def __len__(self) -> int:
        return len(self._document["findings"])

    def _text(self) -> str:
        return self._site._described.check("text", **self._asked)

    def _repr_html_(self) -> str:
        document = self._document
        head = _html.paragraph(f"{document['site']}: {self.outcome.value.replace('-', ' ')}, by {document['code_title']}")
        open_facts = _html.listed(question.question for question in self.questions)
        told = self.findings.where(matching=lambda one: one.outcome is not Outcome.HOLDS and not one.acknowledged)
        quiet = {one.rule: None for one in self.findings if one.acknowledged}
        said = _html.paragraph(f"acknowledged and not shown: {', '.join(quiet)}") if quiet else ""
        return head + said + told._repr_html_() + open_facts + _html.listed(self.cautions)


class Plan(Document):
    """What can run together on which leg, what stays off and why, the order of starts, and how long it lasts."""

    __slots__ = ()

    @property
    def on(self) -> tuple[dict[str, Any], ...]:
        """The loads that run, as the document has them: `load`, `leg`, `current`, `power`."""
        return tuple(self._document["on"])

    @property
    def off(self) -> tuple[dict[str, Any], ...]:
        """The loads that are kept off, and why."""
        return tuple(self._document["off"])

    @property
    def path(self) -> Findings:
        """The findings of the check of the planned site."""
        return Findings._on(self._site, self._document["path"]["findings"])

    def _text(self) -> str:
        return self._site._described.plan("text", **self._asked)

    def _repr_html_(self) -> str:
        head = _html.paragraph(f"{self._document['site']}: the plan {self.outcome.value.replace('-', ' ')}")
        rows = [(one["load"], one["leg"], one["current"], one["power"]) for one in self.on]
        on = _html.table(("load", "leg", "current", "power"), rows) if rows else ""
        kept_off = [(one["load"], one["why"]) for one in self.off]
        off = _html.table(("kept off", "why"), kept_off) if kept_off else ""
        said = [
            *self._document["reasons"],
            *(f"{one['about']}: {one['fact']}, which decides {one['decides']}" for one in self._document["questions"]),
        ]
        return head + on + off + _html.listed([*said, *self.cautions])


class Switching(Document):
    """The orders to connect, to return and to disconnect, or the judgement of somebody's own steps."""

    __slots__ = ()

    @property
    def orders(self) -> tuple[dict[str, Any], ...]:
        """The orders of all sources, as the document has them: `purpose`, `steps`, `faults`."""
        return tuple(order for source in self._document.get("sources", ()) for order in source["orders"])

    def checklist(self) -> str:
        """The page to print. Raises QuestionError where steps were judged, which have none."""
        return self._site._described.sequence("checklist", **self._asked)

    def _text(self) -> str:
        return self._site._described.sequence("text", **self._asked)

    def _repr_html_(self) -> str:
        return f"<pre>{escape(self._text())}</pre>"
