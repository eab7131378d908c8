"""The work list: nothing that has to be done is missing, safety first, and spreadsheets read it as it was meant."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from narrate2report.publish.report_links import Links
from narrate2report.publish.standing import heading_of
from narrate2report.publish.work_list import Stills, WorkList, work_list
from narrate2report.publish.work_list_csv import csv_of, defused
from narrate2report.publish.work_list_xlsx import LONGEST_ADDRESS, LONGEST_TEXT, xlsx_of
from narrate2report.publish.work_urgency import RANKS
from narrate2report.publish.work_words import WORDS
from narrate2report.records.findings import Entry, Findings
from tests.publish.walk import SEAL, entry, evidence, findings

AT = datetime(2026, 3, 6, 10, 0, tzinfo=UTC)
SHA = "c" * 64


def listed(*entries: Entry, links: Links | None = None, stills: Stills | None = None, **parts: Any) -> WorkList:
    return of(findings(*entries, **parts), links, stills)


def of(record: Findings, links: Links | None = None, stills: Stills | None = None) -> WorkList:
    return work_list(record, heading_of(record, "draft", AT), links or Links(), stills or Stills())


def sheet_of(made: WorkList) -> Worksheet:
    sheet = openpyxl.load_workbook(io.BytesIO(xlsx_of(made)))["Work list"]
    assert isinstance(sheet, Worksheet)
    return sheet


def link_of(made: WorkList, words: str) -> tuple[str, str | None] | None:
    """Where the cell with these words in the first line leads: the address, and the part of it."""
    (cell,) = [cell for cell in sheet_of(made)[3] if cell.value == words]
    return None if cell.hyperlink is None else (str(cell.hyperlink.target).replace("\\", "/"), cell.hyperlink.location)


def rows_of(made: WorkList) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(csv_of(made).decode("utf-8"), newline="")))


KNOB = entry(id="e2", component="range_knob", condition="missing", evidence=(evidence(20),))
WORK = entry(
    id="e3", kind="follow_up", component="range_knob", action="replace", party="manager", evidence=(evidence(25),)
)


def test_a_work_stands_with_what_was_found_of_the_part_and_a_flaw_without_work_is_to_be_decided() -> None:
    made = listed(entry(id="e1"), KNOB, WORK)
    told = [(task.part, task.found, task.to_do, task.party, task.entries) for task in made.tasks]
    assert told == [
        ("Range knob", "missing", "Replace", "manager", ("e3", "e2")),
        ("Countertop", "chip", "to be decided", "not said", ("e1",)),
    ]
    assert [task.moment.label for task in made.tasks] == ["0:20", "1:15"]


def test_work_in_another_room_takes_no_flaw_along() -> None:
    made = listed(KNOB, WORK.model_copy(update={"room": "garage"}))
    assert [task.entries for task in made.tasks] == [("e2",), ("e3",)]
    assert made.tasks[1].found == "nothing was said to be wrong with it"


def test_what_is_sound_denied_dropped_or_only_described_is_no_work() -> None:
    sound = [
        entry(condition="good"),
        entry(assertion="absent"),
        entry(kind="check", outcome="works"),
        entry(kind="check", outcome="not_tested"),
        entry(kind="advice"),
        entry(kind="handover", component="key"),
        entry(state="dropped"),
    ]
    assert listed(*sound).tasks == ()


RANKED = [
    (entry(component="range", condition="gas_smell"), "safety"),
    (entry(component="outlet", condition="exposed_wiring"), "safety"),
    (entry(kind="check", component="smoke_alarm", outcome="fails"), "safety"),
    (entry(component="co_alarm", condition="missing"), "safety"),
    (entry(component="anti_tip_bracket", condition="missing"), "safety"),
    (entry(component="railing", condition="loose"), "safety"),
    (entry(component="stair", condition="trip_hazard"), "safety"),
    (entry(kind="follow_up", component="smoke_alarm", action="replace"), "safety"),
    (entry(component="pipe", condition="leak"), "soon"),
    (entry(component="ceiling", condition="water_damage", assertion="possible"), "soon"),
    (entry(component="cover_plate", condition="missing"), "soon"),
    (entry(component="wall", condition="hole", severity="severe"), "soon"),
    (entry(kind="check", component="oven", outcome="fails"), "soon"),
    (entry(component="refrigerator", condition="not_working"), "soon"),
    (entry(component="light_bulb", condition="burned_out"), "in_turn"),
    (entry(component="cover_plate", condition="scuff"), "in_turn"),
    (entry(component="railing", condition="scratch"), "in_turn"),
    (entry(), "in_turn"),
]


@pytest.mark.parametrize(("one", "rank"), RANKED, ids=lambda value: getattr(value, "component", value))
def test_each_flaw_has_the_rank_of_the_rule(one: Entry, rank: str) -> None:
    assert [task.urgency for task in listed(one).tasks] == [rank]


def test_work_is_as_urgent_as_the_worst_that_was_said_of_the_part() -> None:
    leak = entry(id="e4", component="faucet", condition="leak", evidence=(evidence(50),))
    work = entry(id="e5", kind="follow_up", component="faucet", action="repair", evidence=(evidence(54),))
    tasks = listed(entry(id="e1", evidence=(evidence(5),)), leak, work).tasks
    assert [(task.urgency, task.entry) for task in tasks] == [("soon", "e5"), ("in_turn", "e1")]


def test_a_smell_of_gas_stands_above_other_matters_of_safety_that_were_said_before_it() -> None:
    alarm = entry(id="e1", kind="check", component="smoke_alarm", outcome="fails", evidence=(evidence(5),))
    gas = entry(id="e9", component="range", condition="gas_smell", evidence=(evidence(180),))
    assert [task.entry for task in listed(alarm, gas).tasks] == ["e9", "e1"]


def test_a_smell_of_gas_comes_first_and_says_what_to_do_in_every_form() -> None:
    gas = entry(id="e9", component="range", condition="gas_smell", evidence=(evidence(180),))
    made = listed(entry(id="e1"), gas)
    assert made.tasks[0].entry == "e9"
    assert "call the gas utility" in made.tasks[0].mind
    assert "from outside" in rows_of(made)[0]["Mind"]
    assert any("from outside" in str(cell.value) for cell in sheet_of(made)[3])
    assert made.tasks[1].mind == ""


SAID = st.sampled_from(
    [
        {"kind": "condition", "condition": "chip", "assertion": "present"},
        {"kind": "condition", "condition": "leak", "assertion": "possible"},
        {"kind": "condition", "condition": "good", "assertion": "present"},
        {"kind": "check", "outcome": "fails"},
        {"kind": "check", "outcome": "works"},
        {"kind": "follow_up", "action": "repair", "party": "owner"},
        {"kind": "advice"},
    ]
)


@st.composite
def walks(draw: st.DrawFn) -> Findings:
    entries = [
        entry(
            id=f"e{number}",
            room=draw(st.sampled_from(["kitchen", "bathroom"])),
            component=draw(st.sampled_from(["sink", "wall", "smoke_alarm"])),
            state=draw(st.sampled_from(["proposed", "dropped"])),
            evidence=(evidence(draw(st.integers(0, 150))),),
            **draw(SAID),
        )
        for number in range(draw(st.integers(0, 9)))
    ]
    return findings(*entries)


@given(walks())
def test_every_work_flaw_and_failed_check_is_on_the_list_and_nothing_else(record: Findings) -> None:
    wanted = {
        one.id for one in record.entries if one.state != "dropped" and (one.is_adverse or one.kind == "follow_up")
    }
    tasks = of(record).tasks
    assert {name for task in tasks for name in task.entries} == wanted
    ranks = [RANKS.index(task.urgency) for task in tasks]
    assert ranks == sorted(ranks)
    assert len({task.entry for task in tasks}) == len(tasks)


def test_links_lead_where_the_videos_lie() -> None:
    made = listed(entry(), links=Links(base="https://films.example/{file}?at={seconds}"))
    assert rows_of(made)[0]["Link"] == "https://films.example/walk.mp4?at=75.30"
    assert link_of(made, "1:15") == ("https://films.example/walk.mp4?at=75.30", None)


def test_a_link_beside_the_list_is_a_link_with_its_moment() -> None:
    made = listed(entry(), links=Links({"walk.mp4": "../films/walk.mp4"}))
    assert rows_of(made)[0]["Link"] == "../films/walk.mp4#t=75.30,78.30"
    assert link_of(made, "1:15") == ("../films/walk.mp4", "t=75.30,78.30")


STILL = {"file": "walk.stills/e1-1.png", "recording": "walk.mp4", "time": 76.5, "sha256": SHA}


def test_a_picture_is_a_link_and_a_missing_one_says_so() -> None:
    shown = entry(stills=(STILL,))
    made = listed(shown, stills=Stills({SHA: "../walk.stills/e1-1.png"}))
    assert link_of(made, "walk.stills/e1-1.png") == ("../walk.stills/e1-1.png", None)
    lost = listed(shown, stills=Stills({}, {SHA: "its file is missing"}))
    assert rows_of(lost)[0]["Picture"] == "walk.stills/e1-1.png (its file is missing)"
    assert all(cell.hyperlink is None for cell in sheet_of(lost)[3])


def test_the_sheet_can_be_read_filtered_and_printed() -> None:
    sheet = sheet_of(listed(entry(), KNOB, WORK))
    assert sheet.freeze_panes == "A3"
    assert sheet.auto_filter.ref == "A2:O4"
    assert sheet.print_title_rows == "$2:$2"
    assert sheet.page_setup.orientation == "landscape"
    assert [cell.value for cell in sheet[2]] == [words for name, words in WORDS.columns.items() if name != "link"]
    widths = {
        cell.value: sheet.column_dimensions[get_column_letter(number)].width for number, cell in enumerate(sheet[2], 1)
    }
    assert all(width >= len(str(head)) for head, width in widths.items())


def test_a_list_with_nothing_on_it_says_so() -> None:
    assert sheet_of(listed())["A3"].value == WORDS.empty
    assert csv_of(listed()).count(b"\r\n") == 1


def test_a_draft_and_a_sealed_record_are_named_on_every_line() -> None:
    assert rows_of(listed(entry()))[0]["Record"] == "DRAFT – not fully reviewed"
    record = findings(entry(), seal=SEAL)
    made = work_list(record, heading_of(record, "sealed", AT), Links(), Stills())
    assert rows_of(made)[0]["Record"] == f"Sealed, SHA-256 {'5' * 64}"
    sheet = sheet_of(made)
    assert sheet["A1"].value.startswith(f"Sealed, SHA-256 {'5' * 64}")


def test_a_workbook_has_the_order_and_the_cautions_on_a_second_sheet() -> None:
    book = openpyxl.load_workbook(io.BytesIO(xlsx_of(listed(entry()))))
    text = "\n".join(str(cell.value) for row in book["About this list"] for cell in row)
    assert all(words in text for words in WORDS.urgencies.values())
    assert "not a home inspection" in text


def test_equal_records_give_equal_bytes() -> None:
    first, again = listed(entry(), KNOB, WORK), listed(entry(), KNOB, WORK)
    assert xlsx_of(first) == xlsx_of(again)
    assert csv_of(first) == csv_of(again)


@settings(max_examples=25)
@given(st.integers(LONGEST_TEXT - 2, LONGEST_TEXT + 2))
def test_what_no_cell_can_hold_is_cut_and_says_so(length: int) -> None:
    made = listed(entry())
    long = replace(made, tasks=(replace(made.tasks[0], remark="x" * length),))
    cell = next(str(cell.value) for cell in sheet_of(long)[3] if str(cell.value).startswith("xx"))
    assert len(cell) <= LONGEST_TEXT
    assert cell.endswith("x" if length <= LONGEST_TEXT else "…")
    assert rows_of(long)[0]["Remark"] == "x" * length


def test_an_emoji_counts_twice_and_is_not_torn() -> None:
    made = listed(entry())
    long = replace(made, tasks=(replace(made.tasks[0], remark="x" + "🏚" * LONGEST_TEXT),))
    cell = next(str(cell.value) for cell in sheet_of(long)[3] if str(cell.value).startswith("x🏚"))
    assert len(cell.encode("utf-16-le")) // 2 <= LONGEST_TEXT
    assert set(cell) == {"x", "🏚", "…"}


def test_an_address_that_no_link_can_hold_stays_a_time() -> None:
    made = listed(entry(), links=Links(base=f"https://films.example/{'x' * LONGEST_ADDRESS}"))
    assert link_of(made, "1:15") is None


@given(st.text("ab'=+-@＝ ", max_size=6))
def test_an_apostrophe_and_nothing_else_stands_before_a_formula(words: str) -> None:
    told = defused(words)
    assert told in (words, f"'{words}")
    assert not told.startswith(("=", "+", "-", "@"))
    assert _meant(told) == words


def _meant(field: str) -> str:
    """What was said, as the guide tells a program to read it."""
    return field[1:] if field.startswith("'") and field.lstrip("'").startswith(tuple("=+-@＝＋－＠")) else field


def test_what_is_no_formula_stays_as_it_is() -> None:
    assert [defused(words) for words in ("chip", "'quoted'", "a=b", "=1", "'=1")] == [
        "chip",
        "'quoted'",
        "a=b",
        "'=1",
        "''=1",
    ]


def test_a_csv_is_as_rfc_4180_says() -> None:
    """Section 2: each record on a line of its own ended by CRLF (1), a header (3), as many fields in each (4), fields
    in quotes (5), a quote in a field doubled (7)."""
    whole = csv_of(listed(entry(note='say "no", twice'), KNOB)).decode("utf-8")
    lines = whole.split("\r\n")
    assert lines[-1] == ""
    assert "\n" not in whole.replace("\r\n", "")
    assert not whole.startswith("\ufeff")
    assert lines[0] == ",".join(f'"{words}"' for words in WORDS.columns.values())
    assert {len(row) for row in csv.reader(io.StringIO(whole, newline=""), strict=True)} == {len(WORDS.columns)}
    assert '"say ""no"", twice"' in whole
