"""The report as a PDF, read back with another library: what people, screen readers and archives find in it."""

from __future__ import annotations

import struct
import zlib
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from narrate2report.publish.language import language
from narrate2report.publish.report_attached import attached_to
from narrate2report.publish.report_crowd import GLANCE
from narrate2report.publish.report_glyphs import can_be_shown
from narrate2report.publish.report_links import Links
from narrate2report.publish.report_pdf import ALL_PIXELS, SMALLEST_SIDE, Paper, longest_side, pdf_of
from narrate2report.publish.report_values import Reader, Respond, Standing
from narrate2report.publish.report_whole import Around, report_of, telling_of
from narrate2report.records.findings import Decision, Findings
from narrate2report.records.plain import NOT_TEXT
from tests.publish.injected import SHA, STILL, injected
from tests.publish.pdf import ReadBack
from tests.publish.walk import entry, evidence, findings

NOON = datetime(2026, 3, 6, 12, tzinfo=UTC)
BY = Decision(by="Ida Pell", at="2026-03-06T12:00:00Z")


def png() -> bytes:
    """A picture of one dot."""

    def chunk(kind: bytes, content: bytes) -> bytes:
        return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))

    head = struct.pack(">IIBBBBB", 1, 1, 8, 2, 0, 0, 0)
    dot = zlib.compress(bytes([0, 200, 100, 50]))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", dot) + chunk(b"IEND", b"")


INJECTED = [
    "#pagebreak() #panic(1)",
    "$ x^2 $ \\ `raw` ~",
    "*bold* _it_ = Heading\n= Heading\n- list",
    "[square] @label <anchor> // comment /* */",
    '<script>alert("1")</script> & &amp; {{x}} "',
    "דירה שתיים مستأجر",
    "\U0001f600\U0001f469\u200d\U0001f467 中文",
    "Donaudampf" * 60,
    "\\u{41} #\"a\" ) ] } ``` '''",
]


def pdf(record: Findings, reader: Reader = "resident", standing: Standing = "reviewed", **more: Any) -> ReadBack:
    around = Around(Links({"walk.mp4": "walk.mp4"}), missing_stills=more.get("missing", {}))
    paper: Paper = more.get("paper", "letter")
    telling = telling_of(record, reader, around, language(more.get("language", "en")))
    report = report_of(telling, "walk", standing, around, more.get("respond"))
    return ReadBack(pdf_of(report, more.get("stills", {}), NOON, paper, attached_to(telling, "walk")))


def still_on_disk(folder: Path) -> dict[str, Path]:
    (folder / "b.png").write_bytes(png())
    return {SHA: folder / "b.png"}


def test_it_is_tagged_titled_archival_and_holds_its_fonts(tmp_path: Path) -> None:
    read = pdf(findings(entry(stills=(STILL,), decided=BY, state="accepted")), stills=still_on_disk(tmp_path))
    assert read.title == "Condition report, unit 2B"
    assert read.root["/Lang"] == "en"
    assert read.root["/MarkInfo"]["/Marked"]
    assert read.root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert "<pdfuaid:part>1<" in read.metadata
    assert "<pdfaid:part>3<" in read.metadata
    structure = list(read.structure())
    kinds = {kind for kind, _ in structure}
    assert {"/Title", "/H1", "/H2", "/H3", "/Table", "/TH", "/TD", "/Link", "/Figure"} <= kinds | {"/Title"}
    assert [alt for kind, alt in structure if kind == "/Figure"] == [
        "Picture from the recording at 1:16. Kitchen, countertop: chip",
        "The walk drawn along its 3:20, a line for each of these rooms: Kitchen. The table after it says the same.",
    ]
    assert read.fonts
    assert all({"/FontFile2", "/FontFile3"} & set(font) for font in read.fonts)


def test_times_are_links_into_the_recording() -> None:
    read = pdf(findings(entry(decided=BY, state="accepted")))
    assert set(read.links) == {"walk.mp4#t=75.30,78.30"}


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_draft_says_so_on_every_page(paper: Paper) -> None:
    read = pdf(findings(entry(), check_of_many()), standing="draft", paper=paper)
    assert len(read.pages) > 1
    assert all("DRAFT" in page for page in read.pages)
    assert "NOT REVIEWED" in read.text
    assert not any("DRAFT" in page for page in pdf(findings(entry(decided=BY, state="accepted"))).pages)


def test_the_marks_are_explained_on_the_first_page_before_they_are_used() -> None:
    words = language()
    (first, *_) = pdf(findings(entry(decided=BY, state="accepted"))).pages
    explained, _, used = first.partition(words.page["summary"])
    assert all(mark in explained for mark in words.marks.values())
    assert words.marks["attention"] in used


def check_of_many() -> Any:
    return entry(id="e2", component="oven", kind="check", outcome="not_tested")


def test_an_empty_record_makes_a_report_that_says_so() -> None:
    read = pdf(findings())
    assert "Nothing in the recording was read as being about the unit" in read.text
    assert "Smoke alarm Anywhere" in read.text


def test_a_missing_still_is_said_in_its_place() -> None:
    read = pdf(findings(entry(stills=(STILL,))), missing={SHA: "picture_gone"})
    assert "Picture not shown: its file is missing." in read.text
    assert not [alt for kind, alt in read.structure() if kind == "/Figure" and "Picture" in str(alt)]


@pytest.mark.parametrize("tag", ["en", "es"])
@pytest.mark.parametrize("text", INJECTED)
def test_no_word_of_a_record_is_ever_markup(text: str, tag: str) -> None:
    reader: Reader = "resident" if tag == "es" else "office"
    read, plain = (
        pdf(injected(one), reader, missing={SHA: "picture_gone"}, language=tag, standing="sealed")
        for one in (text, "plain")
    )
    kinds = ("/H1", "/H2", "/H3", "/Table", "/TH", "/TD", "/Figure", "/Link")
    found, expected = ([kind for kind, _ in one.structure()] for one in (read, plain))
    assert {kind: found.count(kind) for kind in kinds} == {kind: expected.count(kind) for kind in kinds}
    assert read.links == []
    assert {name[:5] for name in read.attachments} == {"walk."}
    if text.isascii():
        squeezed = "".join(read.text.split())
        assert squeezed.count("".join(text.split())) >= 8


@given(
    st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=60).filter(lambda text: not NOT_TEXT.search(text))
)
@settings(max_examples=12, suppress_health_check=[HealthCheck.too_slow])
def test_any_text_can_be_set(text: str) -> None:
    assert pdf(injected(text or "x"), "office", missing={SHA: "picture_gone"}).pages


def test_every_character_that_is_said_to_be_shown_is_in_the_fonts() -> None:
    """One that is in no font would be refused by the typesetter, as PDF/UA demands."""
    shown = [chr(code) for code in range(0x20, 0x3000) if can_be_shown(chr(code))]
    text = " ".join(shown)
    assert pdf(
        findings(entry(evidence=(evidence(5, text),)), walkthrough={"unit": [{"value": text, "source": "x"}]})
    ).pages


def test_the_same_record_gives_the_same_bytes() -> None:
    around = Around()
    report = report_of(telling_of(findings(entry()), "office", around), "walk", "draft", around)
    assert pdf_of(report, {}, NOON) == pdf_of(report, {}, NOON)


@pytest.mark.parametrize("pictures", [0, 1, 30, 200, 600])
def test_however_many_pictures_they_fit_into_memory_together(pictures: int) -> None:
    side = longest_side(pictures)
    assert pictures * side * side * 9 // 16 <= ALL_PIXELS or side == SMALLEST_SIDE
    assert pictures > 30 or side >= 2880


def test_a_translation_says_so_on_every_page_and_marks_what_stays_in_another_language() -> None:
    read = pdf(findings(entry(where="by the sink"), check_of_many()), standing="draft", language="es")
    assert read.root["/Lang"] == "es"
    assert len(read.pages) > 1
    assert all("Traducción de cortesía" in page for page in read.pages)
    assert "Desportilladura, “by the sink”" in read.text
    assert "/Lang(en)" in read.drawing
    assert "/Lang(en)" not in pdf(findings(), language="es").drawing


@pytest.mark.parametrize(
    ("respond", "told"),
    [
        (Respond(14, "your lease, section 9"), "within 14 days"),
        (Respond(1), "within 1 day ("),
        (None, "within ____ days"),
    ],
)
def test_the_days_to_respond_are_printed_or_left_blank(respond: Respond | None, told: str) -> None:
    read = pdf(findings(entry()), respond=respond)
    assert told in read.text
    assert ("comes from: your lease, section 9." in read.text) == (respond is not None and respond.source != "")


def test_where_very_much_is_wrong_the_summary_stays_one_and_nothing_is_lost() -> None:
    many = [
        entry(id=f"e{number}", room=f"bedroom.{number // 65 + 1}", evidence=(evidence(number),))
        for number in range(GLANCE + 10)
    ]
    read = pdf(findings(*many))
    assert "There are 130 such entries" in read.text
    assert "Bedroom 1 1–65 Needs attention: 65" in read.text
    assert "130. Chip" in read.text
    assert "130. Bedroom 2, countertop: Chip" in read.text
    assert "1–" not in pdf(findings(*many[:GLANCE])).text
