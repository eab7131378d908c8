"""Each decision as a person sees it: what becomes of the entry, and the line that says why it cannot be."""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate2report.errors import CannotDecide
from narrate2report.records.findings import Entry
from narrate2report.review import requests as ask
from narrate2report.review.decisions import keeper_before
from narrate2report.review.desk import Desk
from narrate2report.wording import said
from tests.review.hand_made import NOW, WHO, draft, opened, written

FLOOR, MIRROR = (ask.Gap(room=room, component=part) for room, part in (("kitchen", "floor"), ("bathroom", "mirror")))


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return opened(written(tmp_path))


def decide(desk: Desk, *wanted: ask.Request) -> None:
    for one in wanted:
        desk.decide(one, WHO, len(desk.lines))


def entry(desk: Desk, name: str) -> Entry:
    return next(one for one in desk.findings.entries if one.id == name)


def change(name: str, **facts: object) -> ask.Change:
    return ask.Change(entry=name, facts=ask.Facts.model_validate(facts))


def made(desk: Desk) -> Entry:
    """The one entry that is not of the draft."""
    (found,) = [one for one in desk.findings.entries if one.id not in {drafted.id for drafted in draft().entries}]
    return found


def unused(desk: Desk) -> list[str]:
    return [sentence.id for sentence in desk.findings.unused]


def test_accepted_is_as_it_was_read(desk: Desk) -> None:
    before = entry(desk, "e1")
    decide(desk, ask.Accept(entries=("e1", "e3")))
    after = entry(desk, "e1")
    assert (after.state, entry(desk, "e3").state) == ("accepted", "accepted")
    assert after.model_copy(update={"state": "proposed", "decided": None}) == before
    assert len([line for line in desk.lines if line.action == "accept"]) == 1


def test_changed_says_something_else_and_keeps_the_words_that_were_said(desk: Desk) -> None:
    facts = {"condition": "stain", "where": "by the stove", "severity": "slight", "quantity": 2, "note": "seen twice"}
    decide(desk, change("e1", **facts))
    after = entry(desk, "e1")
    assert said(after) == "stain ×2, slight, by the stove"
    assert (after.state, after.note) == ("changed", "seen twice")
    assert after.evidence == draft().entries[0].evidence


@pytest.mark.parametrize(
    "between",
    [
        [ask.Reopen(entries=("e1",))],
        [ask.Drop(entries=("e1",))],
        [ask.Withdraw(entry="e1", why="it was the other one"), ask.Reopen(entries=("e1",))],
    ],
    ids=["reopened", "left out", "withdrawn and reopened"],
)
def test_what_a_person_has_changed_is_never_called_as_it_was_read(desk: Desk, between: list[ask.Request]) -> None:
    decide(desk, change("e1", condition="stain"), *between, ask.Accept(entries=("e1",)))
    assert entry(desk, "e1").state == "changed"


def test_what_was_changed_back_to_what_was_read_is_accepted_as_read(desk: Desk) -> None:
    decide(desk, change("e1", condition="stain"), change("e1", condition="chip"))
    decide(desk, ask.Reopen(entries=("e1",)), ask.Accept(entries=("e1",)))
    assert entry(desk, "e1").state == "accepted"


def test_left_out_stays_in_the_record_with_its_reason(desk: Desk) -> None:
    decide(desk, ask.Drop(entries=("e1",)))
    decide(desk, ask.Withdraw(entry="e1", why="it was a crumb"))
    after = entry(desk, "e1")
    assert after.state == "dropped"
    assert after.decided is not None
    assert (after.decided.by, after.decided.at, after.decided.why) == (WHO, NOW, "withdrawn: it was a crumb")


def test_reopened_is_to_decide_again(desk: Desk) -> None:
    decide(desk, ask.Drop(entries=("e5",)), ask.Reopen(entries=("e5",)))
    after = entry(desk, "e5")
    assert (after.state, after.decided) == ("proposed", None)


def test_a_sentence_that_gave_nothing_becomes_an_entry_and_is_not_unused_any_more(desk: Desk) -> None:
    decide(desk, ask.Add(sentences=("s0003",), facts=ask.Facts(component="floor", condition="burn")))
    after = made(desk)
    assert said(after) == "burn"
    assert (after.room, after.state) == ("kitchen", "accepted")
    assert after.evidence[0].quote == "What was said as number 3."
    assert unused(desk) == ["s0008", "s0009"]
    decide(desk, ask.Undo())
    assert unused(desk) == ["s0003", "s0008", "s0009"]


def test_a_clip_in_which_no_room_was_entered_goes_on_in_the_last_room_of_the_clip_before(desk: Desk) -> None:
    decide(desk, ask.Add(sentences=("s0008",), facts=ask.Facts(component="floor", condition="burn")))
    assert made(desk).room == "bathroom"


def test_an_added_entry_stands_where_it_was_said_also_after_its_time_was_moved(desk: Desk) -> None:
    decide(desk, ask.Add(sentences=("s0003",), facts=ask.Facts(component="floor", condition="burn")))
    order = [one.component for one in desk.findings.entries]
    assert order == ["countertop", "sink", "floor", "oven", "tub", "tub", "key"]
    decide(desk, change(made(desk).id, start=25, end=28))
    order = [one.component for one in desk.findings.entries]
    assert order == ["countertop", "sink", "oven", "floor", "tub", "tub", "key"]
    assert [one.component for one in opened(desk.path).findings.entries] == order


def test_a_stretch_in_which_nothing_was_understood_can_be_made_an_entry(desk: Desk) -> None:
    stretch = ask.Stretch(recording="two.mp4", start=40, end=44)
    decide(desk, ask.Add(stretch=stretch, facts=ask.Facts(component="door", condition="dent", room="hallway")))
    after = made(desk)
    assert (after.room, after.evidence[0].link, after.evidence[0].quote) == ("hallway", "two.mp4#t=40.00,44.00", "")


def test_a_merge_takes_over_what_the_others_rest_on(desk: Desk) -> None:
    decide(desk, ask.TakeStill(entry="e5"), ask.Merge(entries=("e5", "e4")))
    first, other = entry(desk, "e5"), entry(desk, "e4")
    assert [piece.quote for piece in first.evidence] == ["The tub is chipped.", "That chip in the tub."]
    assert len(first.stills) == 1
    assert (first.state, other.state, other.merged_into) == ("changed", "dropped", "e5")


@pytest.mark.parametrize(
    "wanted",
    [
        ask.Accept(entries=("e1", "e5")),
        ask.Reopen(entries=("e5",)),
        ask.Drop(entries=("e5",), why="read wrong"),
        ask.Withdraw(entry="e5", why="it was the other one"),
        change("e5", condition="crack"),
        ask.Merge(entries=("e5", "e4")),
    ],
    ids=lambda wanted: wanted.action,
)
def test_what_was_merged_away_does_not_come_back_beside_the_one_that_took_it_over(
    desk: Desk, wanted: ask.Request
) -> None:
    decide(desk, ask.Merge(entries=("e4", "e5")))
    merged = desk.findings
    with pytest.raises(CannotDecide, match="merged into Bathroom, tub: chip; undo that, or split the one"):
        decide(desk, wanted)
    assert desk.findings == merged
    decide(desk, ask.Undo(), ask.Accept(entries=("e5",)))
    assert entry(desk, "e5").state == "accepted"


@pytest.mark.parametrize(
    ("facts", "what"),
    [
        ({"room": "bathroom.2"}, "room"),
        ({"component": "tile"}, "component"),
        ({"condition": "crack"}, "condition"),
        ({"assertion": "absent"}, "assertion"),
        ({"kind": "check", "outcome": "fails"}, "kind"),
    ],
)
def test_a_merge_lets_no_statement_vanish(desk: Desk, facts: dict[str, object], what: str) -> None:
    decide(desk, change("e5", **facts))
    before = desk.findings
    for entries in (("e4", "e5"), ("e5", "e4")):
        with pytest.raises(CannotDecide, match=rf"say different things \({what}\): .*Bathroom.* and .*Bathroom"):
            decide(desk, ask.Merge(entries=entries))
    assert desk.findings == before


def test_a_split_gives_a_second_entry_on_the_same_words_to_be_decided_on_its_own(desk: Desk) -> None:
    decide(desk, ask.Accept(entries=("e1",)), ask.Split(entry="e1"))
    second = made(desk)
    assert (second.state, second.split_from, second.evidence) == ("proposed", "e1", entry(desk, "e1").evidence)
    places = [one.id for one in desk.findings.entries]
    assert places.index(second.id) == places.index("e1") + 1


def test_pictures_stand_in_the_order_of_their_moments_and_can_be_taken_off(desk: Desk) -> None:
    decide(desk, ask.TakeStill(entry="e1", at=6), ask.TakeStill(entry="e1"))
    first, second = entry(desk, "e1").stills
    assert (first.time, second.time) == (4.5, 6.0)
    assert entry(desk, "e1").state == "proposed"
    decide(desk, ask.RemoveStill(entry="e1", sha256=first.sha256))
    assert entry(desk, "e1").stills == (second,)


def test_what_was_not_spoken_of_is_settled_by_a_person_and_stays_not_noted(desk: Desk) -> None:
    decide(desk, ask.Acknowledge(gaps=(FLOOR,), looked="looked_at_since", note="clean, no burns"))
    decide(desk, ask.Acknowledge(gaps=(MIRROR,), looked="not_looked_at"))
    gaps = [row for row in desk.findings.coverage if row.status == "not_noted"]
    assert [(gap.component, gap.acknowledged.looked, gap.acknowledged.note) for gap in gaps if gap.acknowledged] == [
        ("floor", "looked_at_since", "clean, no burns"),
        ("mirror", "not_looked_at", None),
    ]


def test_a_kind_keeps_only_its_own_facts(desk: Desk) -> None:
    decide(desk, change("e1", kind="check", outcome="fails"))
    after = entry(desk, "e1")
    assert (after.condition, after.assertion, said(after)) == (None, None, "does not work")
    decide(desk, change("e1", kind="description", attribute="material", value="oak"))
    assert said(entry(desk, "e1")) == "material: oak"


def test_a_moved_time_moves_the_link(desk: Desk) -> None:
    decide(desk, change("e1", start=3.5, end=8.25))
    assert entry(desk, "e1").evidence[0].link == "one.mp4#t=3.50,8.25"


def test_a_statement_moved_step_by_step_stays_near_its_words(desk: Desk) -> None:
    decide(desk, change("e3", start=40, end=43), ask.Reopen(entries=("e3",)))
    with pytest.raises(CannotDecide, match="0:20 to 0:23"):
        decide(desk, change("e3", start=60, end=63))
    decide(desk, change("e3", start=50, end=53))
    assert entry(desk, "e3").evidence[0].link == "one.mp4#t=50.00,53.00"


def test_a_description_is_not_emptied(desk: Desk) -> None:
    decide(desk, change("e1", kind="description", attribute="material", value="oak"))
    for empty in ("", None, "\u200b"):
        with pytest.raises(CannotDecide, match="a description needs its value"):
            decide(desk, change("e1", value=empty))
    decide(desk, change("e1", kind="condition", condition="chip", attribute=None, value=None))
    assert said(entry(desk, "e1")) == "chip"


REFUSED = [
    (ask.Accept(entries=("e404",)), "no entry 'e404' in this record"),
    (ask.Reopen(entries=("e1",)), "that is how it stands already"),
    (change("e1", condition="chip"), "that is how it stands already"),
    (change("e1", condition=None), "a condition needs its condition"),
    (change("e1", kind="check"), "a check needs its outcome"),
    (change("e1", kind="follow_up"), "a follow up needs its action"),
    (change("e1", kind="description", attribute="material"), "a description needs its value"),
    (change("e1", kind="description"), "a description needs its attribute"),
    (change("e3", start=60, end=63), r"within 30 s of its words \(0:20 to 0:23\)"),
    (change("e3", end=53.5), "within 30 s of its words"),
    (
        ask.Add(sentences=("s0003",), facts=ask.Facts(component="floor", condition="burn", start=60, end=62)),
        "within 30 s of its words",
    ),
    (change("e1", kind=None), "the kind is missing"),
    (change("e1", room=None), "the room is missing"),
    (change("e1", component=None), "the component is missing"),
    (change("e1", start=9.0), "must end after it starts"),
    (change("e1", end=95.0), "inside its recording"),
    (ask.Add(facts=ask.Facts(component="floor", condition="burn")), "must rest on a sentence or a stretch"),
    (ask.Add(sentences=("s0404",), facts=ask.Facts(component="floor", condition="burn")), "no such sentence"),
    (ask.Add(sentences=("s0003",), facts=ask.Facts(condition="burn")), "the component is missing"),
    (
        ask.Add(stretch=ask.Stretch(recording="three.mp4", start=1, end=2), facts=ask.Facts(component="floor")),
        "no recording 'three.mp4'",
    ),
    (
        ask.Add(stretch=ask.Stretch(recording="one.mp4", start=89, end=91), facts=ask.Facts(component="floor")),
        "inside its recording",
    ),
    (ask.Merge(entries=("e1", "e1")), "cannot be merged with itself"),
    (ask.Merge(entries=("e1", "e3")), "say different things"),
    (ask.Split(entry="e404"), "no entry 'e404'"),
    (ask.TakeStill(entry="e1", at=85.0), "no picture at that moment"),
    (ask.RemoveStill(entry="e1", sha256="0" * 64), "not there any more"),
    (ask.Acknowledge(gaps=(ask.Gap(room="kitchen", component="sink"),), looked="not_looked_at"), "is no gap"),
    (ask.Acknowledge(gaps=(FLOOR,), looked="looked_at_since"), "what was seen when you looked"),
    (ask.Undo(), "no decision to take back"),
    (ask.Redo(), "nothing was taken back"),
]


@pytest.mark.parametrize(("wanted", "line"), REFUSED, ids=[line for _, line in REFUSED])
def test_what_cannot_be_is_refused_in_one_line_and_nothing_is_written(
    desk: Desk, wanted: ask.Request, line: str
) -> None:
    with pytest.raises(Exception, match=line) as told:
        decide(desk, wanted)
    assert "\n" not in str(told.value)
    assert desk.findings == draft()
    assert desk.lines == ()


TWICE: list[ask.Decide] = [
    ask.Accept(entries=("e1",)),
    ask.Drop(entries=("e1",)),
    ask.Withdraw(entry="e1", why="a crumb"),
    ask.TakeStill(entry="e1"),
    ask.Acknowledge(gaps=(FLOOR,), looked="not_looked_at"),
]


@pytest.mark.parametrize("wanted", TWICE, ids=[one.action for one in TWICE])
def test_the_same_decision_twice_is_kept_once(desk: Desk, wanted: ask.Request) -> None:
    decide(desk, wanted)
    with pytest.raises(CannotDecide):
        decide(desk, wanted)


def test_a_merge_brings_back_nothing_that_was_left_out(desk: Desk) -> None:
    decide(desk, ask.Drop(entries=("e4",)))
    for entries in (("e4", "e5"), ("e5", "e4")):
        with pytest.raises(CannotDecide, match="was left out"):
            decide(desk, ask.Merge(entries=entries))


def test_a_merge_is_offered_with_the_nearest_entry_before_that_says_the_same() -> None:
    record = draft()
    first, *between, last = (record.entries[number] for number in (3, 0, 1, 4))
    mixed = record.model_copy(update={"entries": (first, *between, last)})
    keeper = keeper_before(mixed, last)
    assert keeper is not None
    assert keeper.id == first.id
    gone = first.model_copy(update={"state": "dropped"})
    after = keeper_before(mixed.model_copy(update={"entries": (gone, *between, last)}), last)
    assert after is not None
    assert after.id == between[-1].id, "one that says another thing is refused in words"
    assert keeper_before(mixed, first) is None
