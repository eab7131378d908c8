"""Which walk this was, as it was said: kind, date, unit and who, each with when it was said."""

from __future__ import annotations

import pytest

from narrate2report.records.findings import Header
from tests.read.told import Narrator, transcript_of


def _header(entries: Narrator, *lines: str, recorded_at: str | None = None) -> Header:
    return entries.read(transcript_of(lines, recorded_at)).findings.walkthrough


@pytest.mark.parametrize(
    ("said", "day"),
    [
        ("It's March the fourth.", "--03-04"),
        ("Today is March 4th.", "--03-04"),
        ("It's the fourth of March.", "--03-04"),
        ("It's the twenty-first of June.", "--06-21"),
        ("It's June twenty first.", "--06-21"),
        ("Today's the 21st of June.", "--06-21"),
        ("It is October thirty-first.", "--10-31"),
        ("It is December the thirtieth.", "--12-30"),
        ("September fifteen.", "--09-15"),
        ("It's the first of May.", "--05-01"),
        ("Today is August 9.", "--08-09"),
    ],
)
def test_a_spoken_day_is_read_without_a_year(said: str, day: str, entries: Narrator) -> None:
    (date,) = _header(entries, f"Okay, here we go. {said} Let's start.").date
    assert date.value == day
    assert date.source.startswith("spoken at 0:0")


@pytest.mark.parametrize(
    "said", ["It's March the fourth, twenty twenty-six.", "It's March 4, 2026.", "It's the fourth of March 2026."]
)
def test_a_spoken_year_is_kept(said: str, entries: Narrator) -> None:
    (date,) = _header(entries, said).date
    assert date.value == "2026-03-04"


@pytest.mark.parametrize(
    "said",
    [
        "You may want to look at this first.", "We march on into the kitchen.", "This may be the second one.",
        "It's March already.", "February the thirtieth is no day.", "It's the fortieth of May.",
    ],
)  # fmt: skip
def test_what_is_no_date_is_not_read_as_one(said: str, entries: Narrator) -> None:
    assert _header(entries, said).date == ()


def test_a_spoken_day_takes_the_year_of_the_recordings_clock(entries: Narrator) -> None:
    header = _header(entries, "It's March the fourth.", recorded_at="2026-03-04T09:30:00Z")
    assert [fact.value for fact in header.date] == ["2026-03-04", "2026-03-04"]
    assert header.clashes == ()


def test_a_spoken_day_that_is_not_the_clocks_is_shown_as_a_clash(entries: Narrator) -> None:
    header = _header(entries, "It's March the fourth.", recorded_at="2026-03-06T09:30:00Z")
    (clash,) = header.clashes
    assert clash == "date: --03-04 (spoken at 0:00), 2026-03-06 (the recording's own clock)"


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("This is the move-in walkthrough.", "move_in"),
        ("Move in inspection, here we go.", "move_in"),
        ("Doing the move-out today.", "move_out"),
        ("This is the check-out inspection.", "move_out"),
        ("Here's the moving out walk.", "move_out"),
        ("This is a periodic inspection.", "periodic"),
        ("It's the quarterly inspection.", "periodic"),
    ],
)
def test_the_kind_of_walk_is_read(said: str, kind: str, entries: Narrator) -> None:
    assert [fact.value for fact in _header(entries, said, "Okay, the kitchen.").kind] == [kind]


@pytest.mark.parametrize(
    "said", ["Check out this view.", "Let me check in the oven.", "I do a routine like this a lot."]
)
def test_turns_of_phrase_are_no_kind_of_walk(said: str, entries: Narrator) -> None:
    assert _header(entries, said).kind == ()


@pytest.mark.parametrize(
    ("said", "unit"),
    [
        ("This is unit twelve.", "twelve"),
        ("We're in apartment 4B.", "4b"),
        ("Flat two C.", "two c"),
        ("Unit number 301.", "301"),
        ("This is suite B.", "b"),
        ("It's apartment 12-D.", "12-d"),
        ("This is unit two-by, and we start in the hall.", "two-b"),
        ("Unit 14-see, second floor.", "14-c"),
        ("This is unit two, by the stairs.", "two"),
    ],
)
def test_a_spoken_unit_is_read(said: str, unit: str, entries: Narrator) -> None:
    assert [fact.value for fact in _header(entries, said).unit] == [unit]


@pytest.mark.parametrize("said", ["The unit is clean.", "The unit a previous tenant left.", "Flat paint on the walls."])
def test_what_is_no_unit_is_not_read_as_one(said: str, entries: Narrator) -> None:
    assert _header(entries, said).unit == ()


def test_two_units_that_differ_are_shown_as_a_clash(entries: Narrator) -> None:
    header = _header(entries, "This is unit twelve.", "The tub is clean.", "That was unit fourteen.")
    assert [fact.source for fact in header.unit] == ["spoken at 0:00", "spoken at 0:20"]
    assert header.clashes == ("unit: twelve (spoken at 0:00), fourteen (spoken at 0:20)",)


def test_one_unit_said_in_two_ways_is_no_clash(entries: Narrator) -> None:
    assert _header(entries, "This is unit twelve.", "That was unit 12.").clashes == ()


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("This is Ida Lund, doing the walk.", "Ida Lund"),
        ("My name is Ida, and here we go.", "Ida"),
        ("I'm Ida Lund from the office.", "Ida Lund"),
    ],
)
def test_who_walks_is_read(said: str, name: str, entries: Narrator) -> None:
    assert [fact.value for fact in _header(entries, said).inspector] == [name]


@pytest.mark.parametrize("said", ["This is Monday.", "This is March.", "I'm Going in.", "This is the kitchen."])
def test_what_is_no_name_is_not_read_as_one(said: str, entries: Narrator) -> None:
    assert _header(entries, said).inspector == ()


def test_nothing_said_is_nothing_known(entries: Narrator) -> None:
    assert _header(entries, "The tub is clean.") == Header()


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("Right, checking in flat seven.", "move_in"),
        ("I'm doing the periodic at suite 210 today.", "periodic"),
        ("This is for the family moving in to unit two.", "move_in"),
    ],
)
def test_the_kind_of_walk_may_be_told_with_the_home(said: str, kind: str, entries: Narrator) -> None:
    assert [fact.value for fact in _header(entries, said).kind] == [kind]


def test_that_somebody_will_move_in_is_no_kind_of_walk(entries: Narrator) -> None:
    assert _header(entries, "I'm walking unit 14 before the new resident moves in.").kind == ()


def test_a_written_day_is_read_and_an_impossible_one_is_not(entries: Narrator) -> None:
    assert [fact.value for fact in _header(entries, "Inspection 2026-03-09, unit 31.").date] == ["2026-03-09"]
    assert _header(entries, "Inspection 2026-02-30, unit 31.").date == ()
