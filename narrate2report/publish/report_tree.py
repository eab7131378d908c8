"""Pieces of a web page as a tree: text goes in as text, so nothing in it can become markup."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TypeAlias
from xml.etree.ElementTree import Element

from narrate2report.publish.report_values import Brief, Fact, Finding, Moment, Report, Safety

Part: TypeAlias = "Element | str"
_NAMES = {"klass": "class", "view_box": "viewBox"}
"""Attributes whose names Python cannot spell; in all others `_` stands for `-`."""


def node(tag: str, *children: Part, **attributes: str) -> Element:
    """An element with its children in order."""
    made = Element(tag, {_NAMES.get(name, name.replace("_", "-")): value for name, value in attributes.items()})
    last: Element | None = None
    for child in children:
        if not isinstance(child, str):
            made.append(child)
            last = child
        elif last is None:
            made.text = (made.text or "") + child
        else:
            last.tail = (last.tail or "") + child
    return made


def paragraph(*children: Part, klass: str = "") -> Element:
    """A paragraph; its direction is that of its words."""
    attributes = {"klass": klass} if klass else {}
    return node("p", *children, dir="auto", **attributes)


def table(heads: Sequence[str], rows: Iterable[Sequence[Part]]) -> Element:
    """A table with its heads. It can be scrolled where the page is narrow, with the keyboard too."""
    top = node("thead", node("tr", *(node("th", head, scope="col") for head in heads)))
    body = node("tbody", *(node("tr", *(node("td", cell, dir="auto") for cell in row)) for row in rows))
    return node("div", node("table", top, body), klass="wide", tabindex="0", role="group", aria_label=" ".join(heads))


def facts(rows: Iterable[Fact]) -> Element:
    """Names with their values, and where these came from."""
    parts: list[Part] = []
    for one in rows:
        source = [node("span", f" ({one.source})", klass="quiet")] if one.source else []
        parts += [node("dt", one.name), node("dd", one.value, *source, dir="auto")]
    return node("dl", *parts)


def moments(all_of_them: Iterable[Moment]) -> Element:
    """Times, each a link where the recording can be opened."""
    parts: list[Part] = []
    for one in all_of_them:
        parts += [", "] if parts else []
        parts.append(one.label if one.link is None else node("a", one.label, href=one.link))
    return node("span", *parts)


def spoken(report: Report, *words: Part) -> Element:
    """Words in the language of the recording, in the direction in which they read."""
    return node("em", *words, lang=report.spoken_in, dir="auto")


def says(report: Report, one: Finding | Brief) -> list[Part]:
    """What is stated, and the speaker's own words after it where they stand apart."""
    between = ", " if one.says and one.spoken else ""
    return [one.says + between, *([spoken(report, f"“{one.spoken}”")] if one.spoken else [])]


def state(report: Report, one: Finding | Safety) -> Element:
    """A state in words; the shape before it is drawn by the style and not read aloud."""
    return node("span", node("span", one.state, klass=f"state {one.mark}"), *unreviewed(report, one.unreviewed))


def unreviewed(report: Report, is_so: bool) -> list[Part]:
    """The mark of what nobody has decided on."""
    return [" ", node("span", report.words["unreviewed"], klass="unreviewed")] if is_so else []
