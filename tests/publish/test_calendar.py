"""To-dos and legal days as RFC 5545 has them, read back by its grammar and by the library."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta, timezone

import icalendar
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.publish.calendar import DueDay, calendar_of
from narrate2report.publish.report_links import Links
from narrate2report.publish.standing import Heading, heading_of
from narrate2report.publish.work_list import Stills, WorkList, work_list
from narrate2report.records.findings import Entry, Findings
from tests.publish import ics
from tests.publish.walk import SEAL, entry, evidence, findings

AT = datetime(2026, 3, 6, 10, 0, 0, 250_000, tzinfo=UTC)
GAS = entry(id="e9", component="range", condition="gas_smell", evidence=(evidence(180),))
WORK = entry(id="e3", kind="follow_up", component="sink", action="repair", party="owner", evidence=(evidence(25),))
DAY = DueDay(
    "itemized_statement", date(2026, 4, 20), "Itemized statement due", "21 days; check the statute.\nAnd the lease."
)


def heading(record: Findings | None = None, at: datetime = AT) -> Heading:
    return heading_of(record or findings(), "draft", at)


def listed(*entries: Entry, base: str | None = None) -> WorkList:
    record = findings(*entries)
    return work_list(record, heading(record), Links({"walk.mp4": "walk.mp4"}, base), Stills())


def written(made: WorkList) -> ics.Part:
    return ics.read(calendar_of(made.heading, made.tasks))


def test_a_to_do_says_what_where_by_whom_and_how_urgent() -> None:
    gas, work = written(listed(GAS, WORK)).inside
    assert (gas.raw("PRIORITY"), work.raw("PRIORITY")) == ("1", "9")
    assert gas.text("SUMMARY") == "DRAFT: Unit 2B, Kitchen, Range: to be decided (gas smell)"
    assert "call the gas utility" in gas.text("DESCRIPTION").splitlines()[0]
    assert work.text("LOCATION") == "Unit 2B, Kitchen"
    assert "By: owner" in work.text("DESCRIPTION").splitlines()
    assert work.text("CATEGORIES") == "3 In turn"
    assert not work.has("DUE"), "nobody named a day"


def test_only_a_whole_address_is_a_link() -> None:
    beside, online = written(listed(WORK)), written(listed(WORK, base="https://films.example/v"))
    assert not beside.inside[0].has("URL")
    assert "walk.mp4#t" not in beside.inside[0].text("DESCRIPTION")
    assert online.inside[0].raw("URL") == "https://films.example/v/walk.mp4#t=25.00,28.00"
    assert "Link: https://films.example/v/walk.mp4#t=25.00,28.00" in online.inside[0].text("DESCRIPTION")


def test_the_stamp_is_the_record_s_own_time_in_utc() -> None:
    west = timezone(timedelta(hours=-5))
    (event,) = ics.read(calendar_of(heading(at=datetime(2026, 3, 6, 23, 30, tzinfo=west)), (), [DAY])).inside
    assert event.raw("DTSTAMP") == "20260307T043000Z"


def test_a_to_do_keeps_its_name_from_draft_to_seal_and_none_shares_it() -> None:
    draft = listed(GAS, WORK)
    sealed_record = findings(GAS, WORK, seal=SEAL)
    sealed = work_list(sealed_record, heading_of(sealed_record, "sealed", AT), Links(), Stills())
    names = [[part.text("UID") for part in written(made).inside] for made in (draft, sealed)]
    assert names[0] == names[1]
    other = findings(GAS, recordings=[{"file": "walk.mp4", "sha256": "b" * 64, "bytes": 9}])
    elsewhere = work_list(other, heading(other), Links(), Stills())
    assert written(elsewhere).inside[0].text("UID") not in names[0]


def test_a_draft_is_marked_on_each_to_do_and_a_seal_is_named() -> None:
    draft = written(listed(GAS, WORK))
    assert draft.text("NAME") == draft.text("X-WR-CALNAME") == "DRAFT: Condition report, unit 2B"
    assert draft.text("DESCRIPTION") == "DRAFT – not fully reviewed"
    assert all(part.text("SUMMARY").startswith("DRAFT: ") for part in draft.inside)
    record = findings(GAS, seal=SEAL)
    sealed = ics.read(calendar_of(heading_of(record, "sealed", AT), (), [DAY]))
    assert f"Sealed, SHA-256 {'5' * 64}" in sealed.inside[0].text("DESCRIPTION")
    assert sealed.inside[0].text("SUMMARY") == "Itemized statement due"


def test_a_legal_day_is_that_whole_day_and_keeps_its_name_when_it_moves() -> None:
    (event,) = ics.read(calendar_of(heading(), (), [DAY])).inside
    assert event.raw("DTSTART") == "20260420"
    assert event.raw("TRANSP") == "TRANSPARENT"
    assert event.text("DESCRIPTION").splitlines()[:2] == ["21 days; check the statute.", "And the lease."]
    later = DueDay(DAY.key, date(2026, 4, 27), DAY.summary, DAY.description)
    other = DueDay("deposit_returned", DAY.day, DAY.summary, DAY.description)
    names = [ics.read(calendar_of(heading(), (), [due])).inside[0].text("UID") for due in (DAY, later, other)]
    assert names[0] == names[1] != names[2]


def test_equal_records_give_equal_bytes() -> None:
    assert calendar_of(heading(), listed(GAS).tasks, [DAY]) == calendar_of(heading(), listed(GAS).tasks, [DAY])


LINES = st.text(st.characters(exclude_categories=["Cc", "Cs", "Cn"]), max_size=200)


@given(st.dates(), LINES, LINES)
def test_any_words_are_read_back_by_the_grammar_and_by_the_library(day: date, summary: str, description: str) -> None:
    raw = calendar_of(heading(), (), [DueDay("a", day, summary, description)])
    (event,) = ics.read(raw).inside
    (same,) = icalendar.Calendar.from_ical(raw).walk("VEVENT")
    assert event.text("SUMMARY") == str(same["SUMMARY"]) == f"DRAFT: {' '.join(summary.split())}"
    assert event.text("DESCRIPTION") == str(same["DESCRIPTION"])
    assert same.decoded("DTSTART") == day
    assert event.raw("DTSTART") == f"{day.year:04d}{day.month:02d}{day.day:02d}"
