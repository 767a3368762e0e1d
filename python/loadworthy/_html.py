"""What a notebook shows: plain tables, every text escaped."""

from __future__ import annotations

from html import escape

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from typing import Any


def table(heading: Sequence[str], rows: Iterable[Sequence[str | None]]) -> str:
    """A table; a cell of `None` is empty."""
    head = "".join(f"<th>{escape(name)}</th>" for name in heading)
    body = "".join("<tr>" + "".join(f"<td>{escape(cell or '')}</td>" for cell in row) + "</tr>" for row in rows)
    return f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"


def paragraph(text: str) -> str:
    """A paragraph of plain text."""
    return f"<p>{escape(text)}</p>"


def listed(texts: Iterable[str]) -> str:
    """A list of plain texts."""
    return "<ul>" + "".join(f"<li>{escape(text)}</li>" for text in texts) + "</ul>"


def answer(document: Mapping[str, Any]) -> str:
    """The answer to one question with its working."""
    said, gap = document.get("answer"), document.get("gap")
    if said:
        head = f"{said['text']}: {document['subject']}"
    elif gap:
        head = f"cannot tell {gap['what']}: {gap['why']}"
    else:
        head = document["outcome"]
    parts = [f"<p><b>{escape(head)}</b></p>"]
    if document.get("governed_by"):
        parts.append(paragraph(f"governed by: {document['governed_by']}"))
    if document.get("figures"):
        parts.append(table(("figure", ""), ((name.replace("_", " "), text) for name, text in document["figures"].items())))
    parts.append(working(document.get("working") or ()))
    parts.append(listed(f"assumed: {text}" for text in document["assumed"]) if document["assumed"] else "")
    parts.append(paragraph(f"caution: {document['caution']}"))
    return "".join(parts)


def working(steps: Iterable[Mapping[str, str]]) -> str:
    """The steps of a derivation."""
    rows = [[step["what"], step["result"], step.get("citation"), step.get("cell")] for step in steps]
    return table(("step", "result", "citation", "cell"), rows) if rows else ""
