"""A prompt card on paper and for the phone: read back, one page, accessible, and no word of a unit more than a word."""

from __future__ import annotations

import base64
import hashlib
import re
from html.parser import HTMLParser
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from narrate2report.plan.card import Wish, make_card
from narrate2report.plan.known import LOOK_ONLY
from narrate2report.publish.card_html import card_html_of
from narrate2report.publish.card_pdf import card_pdf_of
from narrate2report.publish.card_told import ToldCard, told_card
from narrate2report.publish.card_words import card_words
from narrate2report.publish.language import language
from narrate2report.publish.report_cautions import CAUTIONS
from narrate2report.publish.report_pdf import Paper
from narrate2report.records.card import Card
from narrate2report.records.findings import Entry
from narrate2report.records.plain import NOT_TEXT
from narrate2report.shipped import shipped
from tests.plan.units import KNOWN, unit
from tests.publish.pdf import ReadBack
from tests.publish.walk import entry, evidence, findings

ROOMS: dict[str, tuple[str, ...]] = {"kitchen": ("countertop", "oven"), "utility": ("furnace",)}
WALK = {
    "kind": [{"value": "move_in", "source": "given"}],
    "date": [{"value": "2025-03-06", "source": "given"}],
}


def card(*old: Entry, rooms: Any = None, kind: Any = "move_out", reviewed: bool = True, **parts: Any) -> Card:
    last = findings(*old, walkthrough=WALK) if old else None
    return make_card(Wish(unit(ROOMS if rooms is None else rooms, **parts), kind, last, reviewed), KNOWN)


def told(made: Card) -> ToldCard:
    return told_card(made, language())


SCRATCH = entry(id="a", condition="scratch", where="left of the sink", evidence=(evidence(134),))


class Texts(HTMLParser):
    """A page as a browser takes it: its tags, and the words outside of style and script."""

    def __init__(self, page: bytes) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.inside: dict[str, str] = {}
        self._open = ""
        self.words = ""
        self.feed(page.decode("utf-8"))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        self._open = tag

    def handle_endtag(self, _: str) -> None:
        self._open = ""

    def handle_data(self, data: str) -> None:
        if self._open in {"style", "script"}:
            self.inside[self._open] = self.inside.get(self._open, "") + data
        else:
            self.words += data


def test_an_old_flaw_stands_on_the_card_with_where_and_when_it_was_told() -> None:
    made = told(card(SCRATCH))
    read = ReadBack(card_pdf_of(made))
    assert "Countertop Look again: scratch, left of the sink (at 2:14 of the move-in)" in read.text.replace(" △", "")
    words = re.sub(r"\s+", " ", Texts(card_html_of(made)).words)
    assert "Look again: scratch, left of the sinkat 2:14 of the move-in" in words
    assert "Looks back to the move-in of March 6, 2025." in words


def test_a_draft_that_is_looked_back_to_is_called_one() -> None:
    assert any("draft" in one for one in told(card(SCRATCH, reviewed=False)).remarks)
    assert not any("draft" in one for one in told(card(SCRATCH)).remarks)


def test_a_record_of_another_unit_is_asked_about_on_the_card() -> None:
    other = findings(entry(), walkthrough={"unit": [{"value": "7A", "source": "given"}]})
    made = told(make_card(Wish(unit(ROOMS), "move_out", other, last_reviewed=True), KNOWN))
    asked = "Is that the right record? unit: 2B (unit file), 7A (given)."
    assert asked in made.remarks
    assert asked in ReadBack(card_pdf_of(made)).text


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_it_is_one_page_titled_tagged_and_holds_its_fonts(paper: Paper) -> None:
    read = ReadBack(card_pdf_of(told(card(SCRATCH)), paper))
    assert len(read.pages) == 1
    assert read.title == "Move-out walk, unit 2B"
    assert read.root["/Lang"] == "en"
    assert "<pdfuaid:part>1<" in read.metadata
    kinds = {kind for kind, _ in read.structure()}
    assert {"/H1", "/H2"} <= kinds
    assert read.fonts
    assert all({"/FontFile2", "/FontFile3"} & set(font) for font in read.fonts)


def test_a_large_flat_still_fits_one_page_and_nothing_is_left_off() -> None:
    usual = {f"bedroom.{n}": tuple(f"part_{n}_{one}" for one in range(12)) for n in range(1, 11)}
    read = ReadBack(card_pdf_of(told(card(rooms=usual))))
    assert len(read.pages) == 1
    for names in usual.values():
        for name in names:
            assert name.replace("_", " ").capitalize() in read.text


def test_what_cannot_fit_one_page_goes_on_to_the_next() -> None:
    old = [entry(id=f"e{n}", where="behind the door on the left side", component="wall") for n in range(150)]
    read = ReadBack(card_pdf_of(told(card(*old))))
    assert len(read.pages) > 1
    assert read.text.count("Look again") == 150


def test_the_same_card_gives_the_same_bytes() -> None:
    assert card_pdf_of(told(card(SCRATCH))) == card_pdf_of(told(card(SCRATCH)))
    assert card_html_of(told(card(SCRATCH))) == card_html_of(told(card(SCRATCH)))


def test_another_last_walk_is_another_card_to_tick() -> None:
    def name(made: Card) -> str | None:
        return Texts(card_html_of(told(made))).tags[0][1]["data-card"]

    assert name(card(SCRATCH)) == name(card(SCRATCH))
    assert name(card(SCRATCH)) != name(card())


def test_nothing_is_loaded_and_only_its_own_script_and_style_may_run() -> None:
    page = Texts(card_html_of(told(card(SCRATCH))))
    (policy,) = (tag["content"] for name, tag in page.tags if tag.get("http-equiv") == "Content-Security-Policy")
    assert policy is not None
    assert policy.startswith("default-src 'none'; ")
    assert "unsafe" not in policy
    for name in ("style", "script"):
        digest = base64.b64encode(hashlib.sha256(page.inside[name].encode()).digest()).decode()
        assert f"{name}-src 'sha256-{digest}'" in policy
    assert not [tag for _, tag in page.tags if {"src", "href", "action", "srcset"} & set(tag)]
    assert not [tag for _, tag in page.tags if any(name.startswith("on") or name == "style" for name in tag)]
    assert "url(" not in page.inside["style"]
    assert not re.search(r"fetch|XMLHttp|WebSocket|sendBeacon|import\(", page.inside["script"])


def test_every_box_of_the_phone_has_a_key_of_its_own() -> None:
    keys = entry(id="k", component="key", kind="handover", direction="given", quantity=2)
    page = Texts(card_html_of(told(card(SCRATCH, keys, keys.model_copy(update={"id": "k2"})))))
    boxes = [tag["data-key"] for name, tag in page.tags if (name, tag.get("type")) == ("input", "checkbox")]
    assert len(boxes) == len(set(boxes)) > 5


HOSTILE = (
    '<script>alert("1")</script>',
    "</style></script><b>",
    "#panic(1) $x$ *b* = H [l] @a // c \\u{41}",
    "{unit} {title}",
    "דירה שתיים",
    "\U0001f600\U0001f469\u200d\U0001f467",
    "Donaudampf" * 40,
)
TEXT = st.text(min_size=1, max_size=40).filter(lambda text: bool(text.strip()) and not NOT_TEXT.search(text))


@settings(max_examples=12, suppress_health_check=[HealthCheck.too_slow])
@given(text=TEXT)
@example(text=HOSTILE[0])
@example(text=HOSTILE[1])
@example(text=HOSTILE[2])
@example(text=HOSTILE[3])
@example(text=HOSTILE[4])
@example(text=HOSTILE[5])
@example(text=HOSTILE[6])
def test_no_word_of_a_unit_or_a_record_is_more_than_a_word(text: str) -> None:
    text = text.strip()
    old = entry(where=text, evidence=(evidence(5, text),), component="oven")
    thing = {"room": "kitchen", "component": "countertop", "called": text}
    parts: dict[str, Any] = {"unit": text, "address": text, "people": {"residents": [text]}, "components": [thing]}
    plain, hostile = card(entry(where="x", component="oven")), card(old, **parts)
    page, clean = Texts(card_html_of(told(hostile))), Texts(card_html_of(told(plain)))
    assert page.inside == clean.inside
    assert {name for name, _ in page.tags} == {name for name, _ in clean.tags}
    assert page.words.count(text) >= 4
    assert len(ReadBack(card_pdf_of(told(hostile))).pages) == 1


def test_each_caution_is_one_of_the_report_and_says_what_it_rests_on() -> None:
    words = card_words()
    assert set(words.cautions) <= {one.key for one in CAUTIONS}
    assert {"gas", "electric", "ladder", "asbestos", "lead", "mold", "alarms", "water_heater"} <= set(words.cautions)
    page = Texts(card_html_of(told(card()))).words
    read = ReadBack(card_pdf_of(told(card()))).text
    for key, short in words.cautions.items():
        assert language().cautions[key] in page
        assert short.source in page
        assert short.more in read
        assert short.source in read


@pytest.mark.parametrize("kind", ["move_in", "move_out", "periodic"])
def test_each_kind_of_walk_has_its_words(kind: Any) -> None:
    made = told(card(kind=kind))
    assert (
        made.title
        == {
            "move_in": "Move-in walk, unit 2B",
            "move_out": "Move-out walk, unit 2B",
            "periodic": "Periodic visit, unit 2B",
        }[kind]
    )
    assert bool(made.handed) == (kind != "periodic")
    assert any("notice" in one for one in made.begin) == (kind == "periodic")


def test_what_is_told_to_try_or_only_to_look_at_is_a_component_and_never_both() -> None:
    words = card_words()
    known = (shipped("vocab") / "components.yaml").read_text(encoding="utf-8")
    assert [name for name in {*words.try_, *words.look} - {"any"} if f"\n{name}:" not in known] == []
    assert set(words.look) - {"any"} == LOOK_ONLY
    assert set(words.try_) & set(words.look) == {"any"}


def test_the_furnace_is_not_touched() -> None:
    (part,) = (part for room in told(card()).rooms for part in room.parts if part.name == "Furnace")
    assert part.look_only
    assert part.how == "look only; burner and gas stay as they are"
