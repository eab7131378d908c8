"""What stands in a report, for whom, and what must never stand in it."""

from __future__ import annotations

import unicodedata
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.publish.language import language
from narrate2report.publish.report_crowd import ranges
from narrate2report.publish.report_entries import mark
from narrate2report.publish.report_glyphs import LONGEST_WORD, can_be_shown, printable
from narrate2report.publish.report_links import Links
from narrate2report.publish.report_values import Reader, Report
from narrate2report.publish.report_whole import Around, report_of, telling_of
from narrate2report.records.findings import Acknowledged, Coverage, Decision, Entry, Findings
from narrate2report.records.labels import LANGUAGES
from tests.publish.walk import entry, evidence, findings

MARKS = language().marks
BY = Decision(by="Ida Pell", at="2026-03-06T12:00:00Z")
OK: dict[str, Any] = {"state": "accepted", "decided": BY}


def check(component: str, outcome: str, room: str = "hallway", **fields: Any) -> Entry:
    return entry(
        id=f"{room}-{component}", kind="check", room=room, component=component, outcome=outcome, **OK, **fields
    )


def told(record: Findings, reader: Reader = "resident", **around: Any) -> Report:
    known = Around(**around)
    return report_of(telling_of(record, reader, known), "walk", "draft", known)


def everything(report: Report) -> str:
    return repr(report).replace("\\n", " ")


def test_what_is_wrong_is_numbered_in_walk_order_and_found_again_in_its_room() -> None:
    record = findings(
        entry(id="b", evidence=(evidence(90),), component="sink", condition="stain", **OK),
        entry(id="a", evidence=(evidence(10),), **OK),
        check("oven", "fails", "kitchen", evidence=(evidence(50),)),
    )
    report = told(record)
    assert [(one.number, one.part, one.state) for one in report.attention] == [
        (1, "Countertop", "Needs attention"),
        (2, "Oven", "Does not work"),
        (3, "Sink", "Needs attention"),
    ]
    assert [one for room in report.rooms for part in room.parts for one in part.findings] == list(report.attention)


def test_what_is_in_order_takes_a_line_a_component() -> None:
    record = findings(
        entry(id="a", component="door", condition="good", **OK),
        entry(id="b", component="door", condition="dent", assertion="absent", **OK),
        check("lock", "works", "kitchen"),
    )
    (room,) = told(record).rooms
    assert room.parts == ()
    assert [(one.name, one.says) for one in room.sound] == [("Door", "good, no dent"), ("Lock", "works")]


@pytest.mark.parametrize("reader", ["resident", "owner", "office"])
def test_what_was_dropped_is_in_no_copy_and_what_nobody_reviewed_says_so(reader: Reader) -> None:
    record = findings(
        entry(id="a", condition="burn", state="dropped", decided=BY, note="nonsense"),
        entry(id="b", component="sink", condition="stain"),
        entry(id="c", component="oven", condition="clean"),
        entry(id="d", kind="handover", component="key", quantity=2),
    )
    report = told(record, reader)
    assert "burn" not in everything(report).lower()
    assert "nonsense" not in everything(report)
    assert [one.unreviewed for one in report.attention] == [True]
    assert report.rooms[0].sound[0].unreviewed
    assert report.handed[0].unreviewed


def test_remarks_of_the_office_and_work_of_others_are_not_for_the_resident() -> None:
    record = findings(
        entry(id="a", note="ask Ansel what it costs", **OK),
        entry(id="b", kind="follow_up", action="replace", party="owner", evidence=(evidence(5, "owner pays"),), **OK),
        entry(id="c", kind="follow_up", action="clean", party="resident", component="oven", **OK),
        coverage=[
            Coverage(
                room="kitchen",
                component="sink",
                status="not_noted",
                acknowledged=Acknowledged(looked="not_looked_at", note="too dark", by="Ida", at=BY.at),
            )
        ],
    )
    resident, office = told(record), told(record, "office")
    for words in ("Ansel", "owner pays", "by the owner", "too dark"):
        assert words not in everything(resident)
        assert words in everything(office)
    assert [one.part for one in resident.work] == ["Oven"]
    assert resident.left_out[0].startswith("1 entry about work that is not")
    assert "sink" in everything(resident)


def test_of_safety_devices_silence_comes_first_and_praise_is_no_test() -> None:
    record = findings(
        check("smoke_alarm", "works"),
        entry(id="n", room="hallway", component="co_alarm", condition="new", **OK),
        coverage=[Coverage(room="bedroom", component="smoke_alarm", status="not_noted")],
    )
    assert [(one.name, one.room, one.state) for one in told(record).safety] == [
        ("Smoke alarm", "Bedroom", "Not spoken of"),
        ("Gas smell", "Anywhere", "Not spoken of"),
        ("CO alarm", "Hallway", "Not tested; said: new"),
        ("Smoke alarm", "Hallway", "Works"),
    ]


def test_an_alarm_that_is_only_there_or_only_spoken_of_in_advice_does_not_fall_out_of_the_list() -> None:
    record = findings(
        entry(id="a", room="hallway", component="smoke_alarm", kind="advice"),
        entry(id="d", room="bedroom", component="co_alarm", kind="description", quantity=1),
        coverage=[Coverage(room="hallway", component="smoke_alarm", status="not_noted")],
    )
    rows = [(one.name, one.room, one.mark) for one in told(record).safety if one.name != "Gas smell"]
    assert rows == [("Smoke alarm", "Hallway", "silent"), ("CO alarm", "Bedroom", "untested")]


def test_praise_of_an_alarm_is_no_test_in_its_room_either() -> None:
    record = findings(
        entry(id="n", room="hallway", component="co_alarm", condition="new", **OK),
        entry(id="d", room="hallway", component="door", condition="new", **OK),
        check("smoke_alarm", "works"),
    )
    (room,) = told(record).rooms
    assert [(one.name, one.says) for one in room.sound] == [
        ("CO alarm", "new, not tested"),
        ("Door", "new"),
        ("Smoke alarm", "works"),
    ]


def test_an_alarm_that_nobody_named_anywhere_is_said_to_be_silent() -> None:
    silent = [one.name for one in told(findings()).safety if one.mark == "silent"]
    assert silent == ["Smoke alarm", "CO alarm", "Gas smell"]


@pytest.mark.parametrize(
    ("outcome", "condition", "state"),
    [("works", "missing", "Needs attention: missing"), ("fails", "dirty", "Does not work")],
)
def test_a_flaw_of_a_safety_device_is_not_hidden_by_a_check_that_went_well(
    outcome: str, condition: str, state: str
) -> None:
    record = findings(
        check("smoke_alarm", outcome),
        entry(id="n", room="hallway", component="smoke_alarm", condition=condition, **OK),
    )
    assert [one.state for one in told(record).safety if one.room == "Hallway"] == [state]


def test_gas_stands_on_the_first_page_where_an_entry_calls_for_it_only() -> None:
    smell = entry(id="g", component="range", condition="gas_smell", **OK)
    advice = entry(
        id="h", kind="advice", component="switch", evidence=(evidence(3, "If you smell gas, touch no switch."),), **OK
    )
    none = entry(id="i", component="range", condition="gas_smell", assertion="absent", **OK)
    for called in (smell, advice):
        assert "from outside" in told(findings(called)).urgent[0]
    stove = entry(
        id="j", component="range", evidence=(evidence(3, "It is a gas range, and no water leaks here."),), **OK
    )
    assert told(findings(none, stove)).urgent == ()
    assert told(findings(entry(**OK))).urgent == ()


@pytest.mark.parametrize(
    ("fields", "urgent"),
    [
        ({"condition": "missing"}, True),
        ({"condition": "dead_battery"}, True),
        ({"condition": "scuff"}, False),
        ({"condition": "missing", "assertion": "absent"}, False),
        ({"kind": "check", "outcome": "fails"}, True),
        ({"kind": "check", "outcome": "not_tested"}, False),
    ],
)
def test_an_alarm_that_would_not_sound_stands_on_the_first_page(fields: dict[str, Any], urgent: bool) -> None:
    report = told(findings(entry(component="smoke_alarm", **fields, **OK)))
    assert any("before anyone sleeps here" in one for one in report.urgent) == urgent


def test_cautions_answer_to_what_was_found() -> None:
    mold = told(findings(entry(condition="mold", component="ceiling", **OK))).cautions
    paint = told(findings(entry(condition="peeling", component="trim", **OK))).cautions
    plain = told(findings(entry(**OK))).cautions
    assert [any("no sample was taken" in one for one in told_ones) for told_ones in (mold, paint, plain)] == [
        True, False, False,
    ]  # fmt: skip
    assert [any("before 1978" in one for one in told_ones) for told_ones in (mold, paint, plain)] == [
        False, True, False,
    ]  # fmt: skip
    for told_ones in (mold, paint, plain):
        assert any("not a home inspection" in one for one in told_ones)
        assert any("not legal advice" in one for one in told_ones)
        assert any("once a month" in one for one in told_ones)


CALLED: list[tuple[str, dict[str, Any], bool]] = [
    ("Heights:", {"kind": "follow_up", "action": "replace", "party": "resident", "component": "light_bulb"}, True),
    ("Heights:", {"kind": "advice", "component": "smoke_alarm"}, True),
    ("Heights:", {"component": "gutter", "condition": "loose"}, True),
    ("Heights:", {"component": "gutter", "condition": "loose", "assertion": "absent"}, False),
    ("Heights:", {"component": "ceiling", "condition": "stain"}, False),
    ("Protected outlets", {"kind": "check", "component": "gfci_outlet", "outcome": "works"}, True),
    ("Protected outlets", {"kind": "check", "component": "outlet", "outcome": "works"}, False),
    ("Carbon monoxide: the test button", {"component": "co_alarm", "condition": "new"}, True),
    ("Carbon monoxide: the test button", {"component": "smoke_alarm", "condition": "new"}, False),
    ("Tipping:", {"component": "anti_tip_bracket", "condition": "missing"}, True),
    ("Tipping:", {"component": "anti_tip_bracket", "condition": "missing", "assertion": "absent"}, False),
    ("insect screen", {"component": "window_screen", "condition": "tear"}, True),
    ("insect screen", {"component": "window_screen", "condition": "new"}, False),
    ("relief valve", {"kind": "check", "component": "water_heater", "outcome": "works"}, True),
    ("rotten, loose or unsafe", {"component": "deck", "condition": "rot"}, True),
    ("rotten, loose or unsafe", {"component": "deck", "condition": "dirty"}, False),
    ("may hold it, and it cannot be told by eye", {"component": "tile", "condition": "broken"}, True),
    ("may hold it, and it cannot be told by eye", {"component": "tile", "condition": "dirty"}, False),
    ("open a panel", {"component": "outlet", "condition": "burn"}, True),
    ("open a panel", {"component": "outlet", "condition": "new"}, False),
]


@pytest.mark.parametrize(("words", "fields", "called"), CALLED)
def test_a_caution_is_there_where_an_entry_calls_for_it_and_not_elsewhere(
    words: str, fields: dict[str, Any], called: bool
) -> None:
    assert any(words in one for one in told(findings(entry(**fields, **OK))).cautions) == called


def test_every_report_says_how_often_to_test_an_alarm_and_when_to_replace_it() -> None:
    (alarms,) = [one for one in told(findings()).cautions if one.startswith("Alarms:")]
    assert "once a month" in alarms
    assert "ten years after the date of manufacture" in alarms


@pytest.mark.parametrize("tag", LANGUAGES)
def test_a_smell_of_gas_is_told_on_the_first_page_in_every_language(tag: str) -> None:
    record, around = findings(entry(component="range", condition="gas_smell", **OK)), Around()
    report = report_of(telling_of(record, "resident", around, language(tag)), "walk", "draft", around)
    assert report.urgent == (language(tag).cautions["gas"],)


@given(st.lists(st.integers(1, 300), unique=True).map(sorted))
def test_numbers_drawn_together_stand_for_all_of_them(numbers: list[int]) -> None:
    read: list[int] = []
    for run in filter(None, ranges(numbers).split(", ")):
        first, _, last = run.partition("–")
        read += range(int(first), int(last or first) + 1)
    assert read == numbers


def test_the_head_shows_every_source_and_every_clash() -> None:
    record = findings(
        walkthrough={
            "unit": [{"value": "2b", "source": "given"}, {"value": "2d", "source": "spoken at 0:06"}],
            "date": [{"value": "2026-03-06", "source": "given"}],
            "clashes": ["unit: 2b (given), 2d (spoken at 0:06)"],
        }
    )
    report = told(record)
    assert [(one.value, one.source) for one in report.facts if one.name == "Unit"] == [
        ("Unit 2B", "given"),
        ("Unit 2D", "spoken at 0:06"),
    ]
    assert ("March 6, 2026", "given") in [(one.value, one.source) for one in report.facts]
    assert [one.value for one in report.facts if one.name == "Resident"] == ["not recorded"]
    assert report.clashes == ("unit: 2b (given), 2d (spoken at 0:06)",)


@pytest.mark.parametrize(
    ("links", "link"),
    [
        (Links(), None),
        (Links({"walk.mp4": "../a%20b/walk.mp4"}), "../a%20b/walk.mp4#t=75.30,78.30"),
        (Links(base="https://films.example/unit/"), "https://films.example/unit/walk.mp4#t=75.30,78.30"),
        (Links(base="https://films.example/{file}?at={seconds}"), "https://films.example/walk.mp4?at=75.30"),
    ],
)
def test_a_moment_opens_the_recording_where_it_lies(links: Links, link: str | None) -> None:
    report = told(findings(entry(**OK)), links=links)
    assert [(one.label, one.link) for one in report.attention[0].moments] == [("1:15", link)]


def test_every_state_has_a_word_of_its_own() -> None:
    assert len(set(MARKS.values())) == len(MARKS)


@given(st.sampled_from(["condition", "check", "handover", "advice", "follow_up", "description"]))
def test_every_kind_has_a_mark(kind: str) -> None:
    assert mark(entry(kind=kind)) in MARKS


@given(st.text())
def test_print_holds_only_what_the_fonts_show_and_no_word_too_long_for_its_line(text: str) -> None:
    shown = printable(text)
    assert all(can_be_shown(character) or character == "\u200b" for character in shown)
    assert all(len(word) <= LONGEST_WORD for line in shown.split() for word in line.split("\u200b"))


@given(st.text(st.characters(min_codepoint=0x20, max_codepoint=0x24F, exclude_categories=("Cc", "Cf"))))
def test_print_changes_nothing_that_can_be_shown(text: str) -> None:
    assert printable(text).replace("\u200b", "") == unicodedata.normalize("NFC", text)


def test_what_no_font_shows_is_told_in_words() -> None:
    assert printable("a \U0001f600 at 中\t#b $c") == "a [grinning face] at [U+4E2D] #b $c"
    assert printable("Zoë Łęcka") == "Zoë Łęcka"
