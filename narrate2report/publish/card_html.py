"""A prompt card as one HTML file for the phone: large, for one hand, without a network; without script, a plain list.

It is built as a tree and written by the standard library, so that no word of a unit file is ever read as markup. Its
policy allows nothing but its own style and script, each by its hash.
"""

from __future__ import annotations

import base64
import hashlib
import itertools
import json
from collections.abc import Iterable
from dataclasses import asdict
from pathlib import Path
from xml.etree.ElementTree import Element

from narrate2report.publish.card_told import ToldAgain, ToldCard, ToldCaution, ToldHanded, ToldPart, ToldRoom
from narrate2report.publish.report_html import whole_page
from narrate2report.publish.report_tree import Part, node, paragraph

STYLE = Path(__file__).with_name("card.css")
SCRIPT = Path(__file__).with_name("card.js")


def card_html_of(card: ToldCard) -> bytes:
    """The card as HTML in UTF-8. The same card gives the same bytes."""
    style, script = STYLE.read_text(encoding="utf-8"), SCRIPT.read_text(encoding="utf-8")
    body = node("body", *_top(card), node("main", *_main(card)), _bar(card), _words(card), node("script", script))
    return whole_page(_head(card, style, script), body, "en", data_card=_identity(card))


def _head(card: ToldCard, style: str, script: str) -> Element:
    policy = (
        f"default-src 'none'; style-src '{_hash(style)}'; script-src '{_hash(script)}'; "
        "base-uri 'none'; form-action 'none'"
    )
    return node(
        "head",
        node("meta", charset="utf-8"),
        node("meta", http_equiv="Content-Security-Policy", content=policy),
        node("meta", name="viewport", content="width=device-width, initial-scale=1, viewport-fit=cover"),
        node("meta", name="color-scheme", content="light dark"),
        node("meta", name="format-detection", content="telephone=no"),
        node("title", card.title),
        node("style", style),
    )


def _hash(text: str) -> str:
    """How a policy names what it allows (Content Security Policy Level 2)."""
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode('ascii')}"


def _identity(card: ToldCard) -> str:
    """Whose ticks these are: another card, or another last walk, starts with none."""
    whole = json.dumps(asdict(card), default=lambda value: value.model_dump(), sort_keys=True)
    return hashlib.sha256(whole.encode()).hexdigest()[:16]


def _top(card: ToldCard) -> Iterable[Element]:
    phone = card.words.phone
    facts = [paragraph(f"{name}: {value}", klass="quiet") for name, value in card.facts]
    remarks = [paragraph(one, klass="quiet") for one in card.remarks]
    # What stands there until the script runs; not every viewer that runs none honours `noscript`.
    keeping = node("p", phone["no_script"], id="keeping", klass="quiet notice", role="status")
    yield node("header", node("h1", card.title, dir="auto"), *facts, *remarks, keeping)


def _main(card: ToldCard) -> Iterable[Element]:
    words = card.words
    yield _saying(card)
    numbers = itertools.count(1)
    begin = [_tick(f"begin/{number}", [one]) for number, one in enumerate(card.begin)]
    yield _section(next(numbers), words.page["begin"], begin)
    for room in card.rooms:
        yield _room(next(numbers), room)
    if card.handed:
        hands = [_handed(one, words.page["counted"]) for one in card.handed]
        yield _section(next(numbers), card.handing, hands)
    end = [_tick(f"end/{number}", [one]) for number, one in enumerate(card.end)]
    yield _section(next(numbers), words.page["end"], end)
    yield _leave(card)
    yield node("button", words.phone["clear"], id="clear", type="button", hidden="", data_with_script="")


def _saying(card: ToldCard) -> Element:
    words = card.words
    steps = [node("li", node("span", node("strong", one.lead), f" {one.more}")) for one in words.saying]
    example = node("p", node("em", words.example))
    told = (node("ol", *steps), example, node("p", words.also), node("p", words.phone["note"], klass="quiet"))
    return node("section", node("h2", words.page["saying"]), *told, klass="say")


def _section(number: int, name: str, rows: Iterable[Element]) -> Element:
    """A heading that can be gone to, with how much of it is ticked, and its rows."""
    head = node("h2", node("span", name, dir="auto"), node("span", klass="left"), id=f"h{number}", tabindex="-1")
    listed = node("ul", *(node("li", row) for row in rows))
    return node("section", head, listed, klass="room", id=f"r{number}", aria_labelledby=f"h{number}")


def _room(number: int, room: ToldRoom) -> Element:
    return _section(number, room.name, map(_part, room.parts))


def _part(part: ToldPart) -> Element:
    how = [node("span", part.how, klass="how")] if part.how else []
    row = _tick(part.key, [node("span", part.name, klass="name", dir="auto"), *how])
    if not part.again:
        return row
    return node("div", row, node("ul", *(node("li", _again(one)) for one in part.again), klass="again"))


def _again(one: ToldAgain) -> Element:
    says: list[Part] = [": ", node("span", one.says, klass="name", dir="auto")] if one.says else []
    return _tick(one.key, [node("span", one.head, klass="head"), *says, node("span", one.when, klass="when")])


def _handed(one: ToldHanded, counted: str) -> Element:
    told = [node("span", one.told, klass="how")] if one.told else []
    row = _tick(one.key, [node("span", one.name, klass="name"), *told])
    # A text field: one for numbers shows arrows, and takes letters for nothing without a word.
    count = node(
        "input",
        type="text",
        inputmode="numeric",
        maxlength="4",
        autocomplete="off",
        data_key=one.key,
        aria_label=f"{one.name}, {counted.lower()}",
    )
    return node("div", row, count, klass="hand")


def _tick(key: str, told: Iterable[Part]) -> Element:
    """A row of which every spot ticks its box."""
    box = node("input", type="checkbox", autocomplete="off", data_key=key)
    return node("label", box, node("span", *told, klass="text"), node("span", klass="at"), klass="row")


def _leave(card: ToldCard) -> Element:
    page = card.words.page
    head = node("h2", page["leave"])
    return node(
        "section", head, paragraph(page["leave_lead"]), *(_caution(one, page["source"]) for one in card.cautions)
    )


def _caution(one: ToldCaution, source: str) -> Element:
    """In short, and in full for whoever wants it."""
    short = node("summary", node("strong", f"{one.lead}."), f" {one.more}")
    return node("details", short, paragraph(one.full), paragraph(source.format(source=one.source), klass="quiet"))


def _bar(card: ToldCard) -> Element:
    phone = card.words.phone
    clock = node("button", node("span", "0:00", id="elapsed"), node("span", phone["start"], id="run"), id="clock")
    on = node("button", phone["next"], id="next")
    for button in (clock, on):
        button.set("type", "button")
    inner = node("div", clock, on, klass="inner")
    return node(
        "nav",
        node("p", id="ticked"),
        inner,
        klass="bar",
        hidden="",
        aria_label=phone["bar"],
        data_with_script="",
    )


def _words(card: ToldCard) -> Element:
    """What the script says, so that it holds no words of its own."""
    phone = card.words.phone
    names = ("start", "stop", "go_on", "next", "none_open", "ticked", "left", "clear", "clear_sure", "cleared", "kept")
    told = {f"data_{name}": phone[name] for name in (*names, "refused")}
    made = node("div", id="words", **told)
    made.set("hidden", "")
    return made
