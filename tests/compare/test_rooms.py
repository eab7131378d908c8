"""Rooms are brought together by what they are; where that is not clear, nothing is taken to be the same."""

from __future__ import annotations

from tests.compare.walks import became, told

TWO_BEFORE = """[bedroom.2]
1 wall hole @by the window@ | Hole by the window.
2 carpet good | Carpet's good.
[bedroom.3]
3 door dent @near the knob@ | Dent near the knob.
4 carpet good | Carpet's good."""


def same(before: str, after: str) -> dict[str, str]:
    return {room.before: room.after for room in told(before, after).rooms}


def test_the_only_room_of_a_kind_is_the_same_under_any_name() -> None:
    assert same("[bathroom.hall]\n1 sink good | Good.", "[bathroom]\n1 sink good | Good.") == {
        "bathroom.hall": "bathroom"
    }


def test_kinds_that_people_name_for_each_other_may_be_one() -> None:
    assert same("[entry]\n1 wall good | Good.", "[hallway]\n1 wall good | Good.") == {"entry": "hallway"}
    assert same("[kitchen]\n1 wall good | Good.", "[bathroom]\n1 wall good | Good.") == {}


def test_names_that_exclude_each_other_are_never_brought_together() -> None:
    for before, after in (("bedroom.front", "bedroom.back"), ("bedroom.2", "bedroom.3"), ("bedroom.main", "bedroom.2")):
        assert same(f"[{before}]\n1 wall good | Good.", f"[{after}]\n1 wall good | Good.") == {}


def test_names_that_say_the_same_go_together() -> None:
    before = "[bedroom.primary]\n1 wall good | Good.\n[bedroom.2]\n2 wall good | Good."
    after = "[bedroom.kids]\n1 wall good | Good.\n[bedroom.master]\n2 wall good | Good."
    assert same(before, after) == {"bedroom.primary": "bedroom.master", "bedroom.2": "bedroom.kids"}


def test_what_was_said_tells_rooms_apart() -> None:
    after = """[bedroom.left]
    1 door dent @by the knob@ | Dent by the knob.
    [bedroom.right]
    2 wall hole @by the window@ | Hole by the window."""
    assert same(TWO_BEFORE, after) == {"bedroom.2": "bedroom.right", "bedroom.3": "bedroom.left"}
    assert became(TWO_BEFORE, after) == ["unchanged 1>2", "unchanged 3>1"]


def test_where_nothing_tells_a_person_is_asked_and_nothing_is_forced() -> None:
    after = "[bedroom.left]\n1 wall stain @by the door@ | Stain by the door.\n[bedroom.right]\n2 carpet stain | Stain."
    comparison = told(TWO_BEFORE, after)
    assert comparison.rooms == ()
    assert [(room.after, room.candidates) for room in comparison.unclear_rooms] == [
        ("bedroom.left", ("bedroom.2", "bedroom.3")),
        ("bedroom.right", ("bedroom.2", "bedroom.3")),
    ]
    assert {change.outcome for change in comparison.changes} == {"no_baseline", "not_mentioned"}


def test_a_person_has_the_last_word() -> None:
    after = "[bedroom.2]\n1 door dent @near the knob@ | Dent near the knob."
    assert became(TWO_BEFORE, after, {"bedroom.3": "bedroom.2"}) == ["not_mentioned 1>", "unchanged 3>1"]
    assert became(TWO_BEFORE, after, {"bedroom.2": "none"}) == [
        "no_baseline >1",
        "not_mentioned 1>",
        "not_mentioned 3>",
    ]
