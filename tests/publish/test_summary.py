"""The printed summary: rooms in walk order, nothing left out, nothing made better than it is."""

from __future__ import annotations

import io

from rich.console import Console, RenderableType

from narrate2report.publish.detail import detail
from narrate2report.publish.summary import by_room, first_to_look_at, numbers, summary
from tests.publish.walk import entry, evidence, findings


def printed(page: RenderableType, width: int = 140) -> str:
    paper = io.StringIO()
    Console(file=paper, width=width, highlight=False).print(page)
    return paper.getvalue()


def visit(room: str, start: float) -> dict[str, object]:
    return {"room": room, "recording": "walk.mp4", "start": start, "end": start + 10}


def test_rooms_stand_in_the_order_walked_and_entries_in_the_order_said() -> None:
    record = findings(
        entry(id="e1", room="kitchen", evidence=(evidence(50),)),
        entry(id="e2", room="entry", evidence=(evidence(70),)),
        entry(id="e3", room="kitchen", evidence=(evidence(20),)),
        entry(id="e4", room="whole_unit", evidence=(evidence(90),)),
        rooms=[visit("entry", 0), visit("kitchen", 10), visit("hallway", 15), visit("entry", 60)],
    )
    order = [(room, [one.id for one in entries]) for room, entries in by_room(record)]
    assert order == [("entry", ["e2"]), ("kitchen", ["e3", "e1"]), ("whole_unit", ["e4"])]


def test_clips_follow_each_other_whatever_their_own_clocks_say() -> None:
    clips = [{"file": name, "sha256": "a" * 64, "bytes": 1} for name in ("z.mp4", "a.mp4")]
    record = findings(
        entry(id="e1", room="bedroom", evidence=(evidence(5, clip="a.mp4"),)),
        entry(id="e2", room="kitchen", evidence=(evidence(100, clip="z.mp4"),)),
        recordings=clips,
    )
    assert [room for room, _ in by_room(record)] == ["kitchen", "bedroom"]
    assert "z.mp4 1:40" in printed(summary(record))


def test_a_row_tells_time_component_words_state_and_id() -> None:
    page = printed(summary(findings(entry(where="by the stove"))))
    (row,) = [line for line in page.splitlines() if "countertop" in line]
    assert row.split() == ["1:15", "countertop", "chip,", "by", "the", "stove", "proposed", "e1"]


def test_what_is_wrong_is_told_apart_from_what_is_not() -> None:
    assert entry().is_adverse
    assert entry(assertion="possible").is_adverse
    assert entry(kind="check", outcome="fails").is_adverse
    for fine in (
        entry(assertion="absent"),
        entry(condition="good"),
        entry(condition="repaired"),
        entry(kind="check", outcome="works"),
        entry(kind="check", outcome="not_tested"),
        entry(kind="advice"),
    ):
        assert not fine.is_adverse


def test_the_first_flaw_of_the_walk_is_the_one_to_look_at() -> None:
    record = findings(
        entry(id="e1", evidence=(evidence(50),)),
        entry(id="e2", assertion="absent", evidence=(evidence(10),)),
        entry(id="e3", evidence=(evidence(20),)),
    )
    first = first_to_look_at(record)
    assert first is not None
    assert first.id == "e3"
    assert first_to_look_at(findings()) is None


def test_silence_doubt_and_clashes_are_printed() -> None:
    page = printed(
        summary(
            findings(
                entry(),
                walkthrough={"clashes": ["unit: 2B (given), 2D (spoken at 0:06)"]},
                coverage=[
                    {"room": "kitchen", "component": "oven", "status": "not_noted"},
                    {"room": "kitchen", "component": "range_hood", "status": "not_noted"},
                    {"room": "kitchen", "component": "countertop", "status": "noted"},
                ],
                unused=[
                    {
                        "id": f"s{number}",
                        "recording": "walk.mp4",
                        "start": 1,
                        "end": 2,
                        "text": "mumble",
                        "reason": reason,
                        "because": "no rule fits",
                    }
                    for number, reason in enumerate(("unclear", "unclear", "talk"))
                ],
            )
        )
    )
    assert "1 entry, 1 of them about something wrong." in page
    assert "3 sentences gave no entry: 1 talk, 2 unclear." in page
    assert "Unclear, for you to check: 0:01, 0:01." in page
    assert "no person has decided" in page
    assert "Not spoken of in Kitchen: oven, range hood." in page
    assert "Sources disagree on unit: 2B (given), 2D (spoken at 0:06)." in page


def test_words_in_brackets_are_printed_and_not_taken_for_styling() -> None:
    record = findings(entry(where="[red]left[/red] side", evidence=(evidence(1, "[bold]x"),)))
    assert "[red]left[/red] side" in printed(summary(record))
    assert "[bold]x" in printed(detail(record.entries[0], record))


def test_a_record_with_a_decision_is_not_said_to_be_undecided() -> None:
    decided = {"by": "Ida Pell", "at": "2026-03-31T10:00:00Z"}
    record = findings(entry(id="e1"), entry(id="e2", state="accepted", decided=decided))
    assert "no person has decided" not in printed(summary(record))


def test_repetitions_stand_below_each_other() -> None:
    again = entry(evidence=(evidence(75.3), evidence(160)))
    first, second = [line for line in printed(summary(findings(again))).splitlines() if ":" in line[:6]]
    assert first.split()[:2] == ["1:15", "countertop"]
    assert second.split() == ["2:40"]


def test_rows_are_whole_on_a_narrow_page() -> None:
    page = printed(summary(findings(entry(component="refrigerator_shelf", id="e12345678"))), width=80)
    (row,) = [line for line in page.splitlines() if "1:15" in line]
    assert "refrigerator shelf" in row
    assert row.split()[-2:] == ["proposed", "e12345678"]


def test_an_empty_record_says_so() -> None:
    assert "No entry" in printed(summary(findings()))


def test_the_summary_for_machines_counts_the_same() -> None:
    told = numbers(findings(entry(id="e1"), entry(id="e2", kind="check", outcome="works")))
    assert told["entries"] == 2
    assert told["adverse"] == 1
    assert told["kinds"] == {"check": 1, "condition": 1}
    assert told["states"] == {"proposed": 2}
    assert told["rooms"] == ["kitchen"]


def test_one_entry_shows_its_words_its_link_and_where_to_open_it() -> None:
    one = entry(heard=({"heard": "cock", "read": "caulk", "why": "sounds alike", "sureness": 0.9},))
    page = printed(detail(one, findings(one)))
    assert "walk.mp4#t=75.30,78.30" in page
    assert "open walk.mp4 at 1:15" in page
    assert "“said so”" in page
    assert "“cock” read as “caulk” (sounds alike)" in page
    assert "'chip' said of the countertop" in page


def test_a_link_to_a_recording_at_hand_is_an_address_on_one_line() -> None:
    one = entry()
    folder = "file:///home/" + "a/long/way/down/" * 8
    page = io.StringIO()
    paper = Console(file=page, width=60, highlight=False)
    paper.print(detail(one, findings(one), {"walk.mp4": folder + "walk.mp4"}), crop=False)
    assert f"link      {folder}walk.mp4#t=75.30,78.30\n" in page.getvalue()


def test_a_transcript_is_read_at_its_line_and_not_opened() -> None:
    notes = [{"file": "walk.mp4", "sha256": "a" * 64, "bytes": 9, "media": False}]
    one = entry()
    assert "read walk.mp4 at 1:15" in printed(detail(one, findings(one, recordings=notes)))


def test_what_a_person_added_stands_with_the_entry() -> None:
    one = entry(
        state="dropped",
        note="seen from the hallway",
        decided={"by": "Ida Pell", "at": "2026-03-06T10:00:00Z", "why": "it was a crumb"},
        stills=[{"file": "walk.stills/ab.jpg", "recording": "walk.mp4", "time": 76.5, "sha256": "a" * 64}],
    )
    page = printed(detail(one, findings(one)))
    for part in (
        "dropped by Ida Pell",
        "it was a crumb",
        "seen from the hallway",
        "walk.stills/ab.jpg (walk.mp4 at 1:16)",
    ):
        assert part in page
