"""The report as a web page: one file, no script, and no word of a record that becomes markup."""

from __future__ import annotations

from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from narrate2report.publish.language import language
from narrate2report.publish.report_crowd import GLANCE
from narrate2report.publish.report_html import html_of
from narrate2report.publish.report_links import Links
from narrate2report.publish.report_values import Reader, Standing
from narrate2report.publish.report_whole import Around, report_of, telling_of
from narrate2report.records.findings import Findings
from narrate2report.records.plain import NOT_TEXT
from tests.publish.injected import SHA, STILL, injected
from tests.publish.test_report_pdf import BY, INJECTED, still_on_disk
from tests.publish.walk import entry, evidence, findings


class Parsed(HTMLParser):
    """The elements and the words of a page, as a browser takes them in."""

    def __init__(self, page: bytes) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str | None]] = []
        self.words: list[str] = []
        self.feed(page.decode("utf-8"))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += attrs

    def handle_data(self, data: str) -> None:
        self.words.append(data)

    @property
    def text(self) -> str:
        return "".join(self.words)


def page(record: Findings, reader: Reader = "resident", standing: Standing = "reviewed", **more: Any) -> Parsed:
    missing = {} if more.get("stills") else {SHA: "picture_gone"}
    around = Around(Links({"walk.mp4": "walk.mp4"}), missing_stills=missing)
    telling = telling_of(record, reader, around, language(more.get("language", "en")))
    return Parsed(html_of(report_of(telling, "walk", standing, around), more.get("stills", {})))


def test_the_marks_are_explained_before_they_are_used() -> None:
    words = language()
    explained, _, _ = page(findings(entry(state="accepted", decided=BY))).text.partition(words.page["summary"])
    assert all(mark in explained for mark in words.marks.values())


def test_it_holds_everything_itself_and_runs_nothing(tmp_path: Path) -> None:
    made = page(findings(entry(stills=(STILL,), state="accepted", decided=BY)), stills=still_on_disk(tmp_path))
    assert {"script", "link", "iframe", "form"} & set(made.tags) == set()
    (source,) = [value for name, value in made.attributes if name == "src"]
    assert str(source).startswith("data:image/png;base64,")
    assert ("alt", "Picture from the recording at 1:16. Kitchen, countertop: chip") in made.attributes
    assert ("lang", "en") in made.attributes
    assert ("href", "walk.mp4#t=75.30,78.30") in made.attributes


@pytest.mark.parametrize("text", INJECTED)
def test_no_word_of_a_record_is_ever_markup(text: str) -> None:
    made, plain = page(injected(text), "office"), page(injected("plain"), "office")
    assert made.tags == plain.tags
    assert [name for name, _ in made.attributes] == [name for name, _ in plain.attributes]
    assert made.text.count(text) >= 8


@given(st.text(st.characters(codec="utf-8"), min_size=1).filter(lambda text: not NOT_TEXT.search(text)))
@settings(max_examples=50, suppress_health_check=[HealthCheck.too_slow])
def test_any_text_stays_text(text: str) -> None:
    assert set(page(injected(text), "office").tags) <= set(page(injected("plain"), "office").tags)


def test_a_draft_and_what_nobody_reviewed_are_marked() -> None:
    made = page(findings(entry()), standing="draft")
    assert "DRAFT" in made.text
    assert "NOT REVIEWED" in made.text
    assert "DRAFT" not in page(findings(entry(state="accepted", decided=BY))).text


def test_an_empty_record_makes_a_page_that_says_so() -> None:
    assert "Nothing in the recording was read as being about the unit" in page(findings()).text


def test_a_translation_says_so_and_marks_what_stays_in_another_language() -> None:
    made = page(findings(entry(where="by the sink")), language="es")
    assert ("lang", "es") in made.attributes
    assert ("lang", "en") in made.attributes
    assert made.text.count("Traducción de cortesía") == 2
    assert "by the sink" in made.text


def test_the_timeline_is_told_and_not_only_shown() -> None:
    made = page(findings(entry(), rooms=[{"room": "kitchen", "recording": "walk.mp4", "start": 70, "end": 90}]))
    assert made.tags.count("svg") == 2
    assert made.attributes.count(("role", "img")) == 2
    assert "a line for each of these rooms: Kitchen." in made.text
    assert "1:10–1:30" in made.text
    names = {value for name, value in made.attributes if name == "id"}
    labels = [str(value).split() for name, value in made.attributes if name == "aria-labelledby"]
    assert all(set(label) <= names for label in labels)


def test_where_very_much_is_wrong_the_summary_leads_to_each_room() -> None:
    many = [entry(id=f"e{number}", evidence=(evidence(number),)) for number in range(GLANCE + 1)]
    made = page(findings(*many))
    assert ("href", "#entry-1") in made.attributes
    assert f"1–{GLANCE + 1}" in made.text
