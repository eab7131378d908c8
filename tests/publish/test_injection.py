"""No word of a record is ever more than a word: whatever stands in its fields, each file is read back as it was meant.

The same words go into every text field at once; each form is read by a reader that did not write it.
"""

from __future__ import annotations

import csv
import html
import io
import json
import re
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import av
import icalendar
import openpyxl
import pysubs2
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from narrate2report.intake.chaptered_copy import Additions, make_chaptered_copy
from narrate2report.publish.annotations import annotations_of
from narrate2report.publish.calendar import DueDay, calendar_of
from narrate2report.publish.captions import shown_in_turn
from narrate2report.publish.chapters import chapters_of, in_a_row, webvtt_chapters
from narrate2report.publish.report_links import Links
from narrate2report.publish.standing import Heading, heading_of
from narrate2report.publish.work_list import Stills, WorkList, work_list
from narrate2report.publish.work_list_csv import csv_of
from narrate2report.publish.work_list_xlsx import xlsx_of
from narrate2report.publish.work_words import WORDS
from narrate2report.records.canonical import readable_bytes
from narrate2report.records.findings import Findings
from narrate2report.records.plain import one_line
from narrate2report.records.transcript import Stretch
from tests.intake.films import TEN_A_SECOND, write_film
from tests.publish import ics
from tests.publish.walk import entry, evidence, findings

AT = datetime(2026, 3, 6, 10, 0, tzinfo=UTC)
HANDPICKED = (
    '=cmd|"/c calc"!A0',
    "+1",
    "-2+3",
    "@SUM(A1)",
    "＝1+1",
    "\t=1",
    "\r=1",
    " =1",
    "'=1",
    "{=1}",
    "00:00:01.000 --> 00:00:02.000",
    "a\n\n00:00:01.000 --> 00:00:02.000\nb",
    "<script>alert(1)</script>",
    "</c><v Mallory><b>x",
    "&lt;b&gt; &amp; &",
    "WEBVTT\n\nSTYLE\n::cue {}",
    "NOTE",
    "x\r\nEND:VTODO\r\nBEGIN:VCALENDAR\r\nX:1",
    "SUMMARY:other;x=1,2\\n\\",
    "]]>",
    "<![CDATA[",
    "_x0041_",
    'say "no", twice',
    "a\x00b\x07c\x1bd\x85e\u2028f\u2029g",
    "\ufffe\uffff\ufdd0\U0010ffff",
    "\u202etxt.exe\u2066",
    "שלום עולם",
    "👩‍🔧 smoke 🏚️",
    "{\\an8}{\\b1}\\N",
    "https://films.example/",
    "internal:Sheet1!A1",
    "x" * 300,
    "{file}{seconds}",
)
HOSTILE = st.one_of(st.sampled_from(HANDPICKED), st.text(st.characters(exclude_categories=["Cs"]), max_size=60))


def record_with(words: str) -> Findings:
    """A walk with these words in each of its free fields, as if no reader of files had refused any."""
    told = {"id": "e1", "where": words, "size": {"text": words}, "note": words, "component": "sink"}
    piece = evidence(1.5).model_copy(update={"quote": words})
    flaw = entry(condition="leak", evidence=(piece,), decided={"by": words, "at": words}, **told)
    advice = entry(id="e2", kind="advice", evidence=(piece,), where=words)
    odd = entry(id="e3", kind="follow_up", room="kitchen." + words, component=words, action="repair", evidence=(piece,))
    described = entry(id="e4", kind="description", evidence=(piece,), attribute={"name": "material", "value": words})
    header = {name: [{"value": words, "source": words}] for name in ("unit", "inspector", "residents", "date", "kind")}
    rooms = [{"room": words, "recording": "walk.mp4", "start": 1, "end": 3}]
    return findings(flaw, advice, odd, described, walkthrough=header, rooms=rooms)


def heading(record: Findings) -> Heading:
    return heading_of(record, "draft", AT)


def listed(record: Findings) -> WorkList:
    return work_list(record, heading(record), Links(base="https://films.example/"), Stills())


def every(test: Any) -> Any:
    """Run a test with each handpicked text and with many others."""
    for words in HANDPICKED:
        test = example(words)(test)
    return settings(max_examples=60)(given(HOSTILE)(test))


@every
def test_a_workbook_holds_texts_numbers_and_the_links_that_were_meant(words: str) -> None:
    made = listed(record_with(words))
    book = openpyxl.load_workbook(io.BytesIO(xlsx_of(made)))
    assert book.sheetnames == ["Work list", "About this list"]
    cells = [cell for sheet in book for row in sheet for cell in row if cell.value is not None]
    assert {cell.data_type for cell in cells} == {"s", "n"}
    assert all(cell.column == 1 for cell in cells if cell.data_type == "n")
    sheet = book["Work list"]
    for row, task in enumerate(made.tasks, start=3):
        shown = {str(sheet.cell(2, column).value): sheet.cell(row, column).value for column in range(1, 16)}
        assert shown["What was found"] == task.found
        assert (shown["Remark"] or "") == task.remark
        assert (shown["Part"] or "") == task.part
    links = {str(cell.hyperlink.target) for cell in cells if cell.hyperlink}
    assert links == {"https://films.example/walk.mp4"}


@every
def test_a_csv_has_its_rows_and_no_field_is_a_formula(words: str) -> None:
    made = listed(record_with(words))
    raw = csv_of(made)
    assert raw.count(b"\r\n") == raw.count(b"\n") == raw.count(b"\r") == len(made.tasks) + 1
    rows = list(csv.reader(io.StringIO(raw.decode("utf-8"), newline=""), strict=True))
    assert rows[0] == list(WORDS.columns.values())
    for row, task in zip(rows[1:], made.tasks, strict=True):
        assert not any(field.startswith(("=", "+", "-", "@", "\t", "\r", "＝", "＋", "－", "＠")) for field in row)
        shown = dict(zip(WORDS.columns, row, strict=True))
        assert shown["found"].lstrip("'") == task.found.lstrip("'")
        assert shown["part"].lstrip("'") == task.part.lstrip("'")


@every
def test_a_calendar_has_its_to_dos_and_days_and_nothing_else(words: str) -> None:
    made = listed(record_with(words))
    raw = calendar_of(made.heading, made.tasks, [DueDay("a", AT.date(), words, words)])
    calendar = ics.read(raw)
    assert [part.name for part in calendar.inside] == ["VTODO"] * len(made.tasks) + ["VEVENT"]
    for part, task in zip(calendar.inside, made.tasks, strict=False):
        assert f"What was found: {task.found}" in part.text("DESCRIPTION").split("\n")
        assert task.part in part.text("SUMMARY")
    assert calendar.inside[-1].text("SUMMARY") == f"DRAFT: {one_line(words)}"
    library = icalendar.Calendar.from_ical(raw)
    assert [str(one["UID"]) for one in library.subcomponents] == [part.raw("UID") for part in calendar.inside]


@every
def test_chapters_are_as_many_as_meant_with_the_titles_that_were_meant(words: str) -> None:
    record = record_with(words)
    whole = chapters_of(record, heading(record), "walk.mp4")
    text = webvtt_chapters(whole, heading(record))
    assert text.count("-->") == 3  # the walk, the room, the moment
    assert not re.search(r"[<\x00-\x09\x0b-\x1f]", text)
    read = pysubs2.SSAFile.from_string(text, format_="vtt")
    (room,) = whole.inside
    wanted = [whole.title, room.title, room.inside[0].title]
    assert [html.unescape(one.text.replace("\\N", "\n")) for one in read] == [
        one.replace("\\N", "\n") for one in wanted
    ]


@pytest.mark.parametrize("ending", [".mp4", ".mkv"])
def test_a_film_holds_the_chapters_and_captions_that_were_meant(tmp_path: Path, ending: str) -> None:
    path = write_film(tmp_path / f"walk{ending}", times_s=TEN_A_SECOND)
    for number, words in enumerate(HANDPICKED):
        record = record_with(words)
        row = in_a_row(chapters_of(record, heading(record), "walk.mp4"))
        captions = shown_in_turn([Stretch(recording="walk.mp4", start=1, end=2, text=words)])
        out = tmp_path / f"{number}{ending}"
        make_chaptered_copy(path, out, Additions(heading(record).about, heading(record).mark, row, captions))
        with av.open(str(out)) as container:
            assert [one["metadata"]["title"] for one in container.chapters()] == [one.text for one in row]
            assert container.metadata.get("title", container.metadata.get("TITLE")) == heading(record).about
            stored = [bytes(packet) for packet in container.demux(subtitles=0) if packet.size] if captions else []
        texts = [raw[2:].decode() if ending == ".mp4" else html.unescape(raw.decode()) for raw in stored]
        assert [text for text in texts if text] == [one.text for one in captions]
        if ending == ".mkv":
            assert not any(b"<" in raw or b"-->" in raw for raw in stored)


@every
def test_annotations_are_as_many_as_meant_with_the_words_as_plain_text(words: str) -> None:
    record = record_with(words)
    read = json.loads(readable_bytes(annotations_of(record, heading(record), {})))
    made = read["first"]["items"]
    assert len(made) == 4
    for one in made:
        assert {body["format"] for body in one["body"]} == {"text/plain"}
        assert [body["value"] for body in one["body"] if body["purpose"] == "highlighting"] == (
            [words] if words else []
        )
        assert one["target"]["source"]["id"] == "walk.mp4"
        assert "created" not in one, "what is no moment is no date"
