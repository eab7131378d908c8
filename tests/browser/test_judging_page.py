"""The page on which changes between two walks are judged, in a real browser, on the sample walks."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from narrate2report.records.compared import read_comparison
from narrate2report.records.comparison import Comparison, FlawChange
from narrate2report.records.files import read_record
from narrate2report.records.findings import Findings
from tests.browser.conftest import Opened
from tests.browser.test_access import faults
from tests.review.compared import MARKUP, draft, written

Open = Callable[..., Opened]
BEFORE, AFTER = "#before video", "#after video"


def stands(opened: Opened) -> Comparison:
    return read_comparison(opened.file)


def change(opened: Opened, name: str) -> FlawChange:
    return next(one for one in stands(opened).changes if one.id == name)


def choose(opened: Opened, name: str) -> None:
    opened.page.locator(f"#change-{name}").click()


def paired(opened: Opened) -> FlawChange:
    """A change with an entry in both records."""
    return next(one for one in stands(opened).changes if one.before and one.after)


def playing(player: str) -> str:
    return f"!document.querySelector('{player}').paused"


def test_both_recordings_play_at_the_right_second_one_after_the_other(open_walk: Open, changes: Path) -> None:
    opened = open_walk(changes)
    one = paired(opened)
    choose(opened, one.id)
    pieces = {}
    for player, file, ids in ((BEFORE, "move-in", one.before), (AFTER, "move-out", one.after)):
        record = read_record(changes.with_name(f"{file}.findings.json"), Findings)
        pieces[player] = next(entry for entry in record.entries if entry.id == ids[0]).evidence[0]
        opened.until(f"Math.abs(document.querySelector('{player}').currentTime - {pieces[player].start}) < 0.1")
    opened.press("p")
    opened.until(playing(BEFORE))
    opened.until(playing(AFTER))
    assert opened.page.evaluate(f"document.querySelector('{BEFORE}').paused"), "one at a time"
    assert opened.moment(BEFORE) == pytest.approx(pieces[BEFORE].end, abs=0.25)
    assert pieces[AFTER].start - 0.01 <= opened.moment(AFTER) <= pieces[AFTER].start + 1.5
    opened.until(f"document.querySelector('{AFTER}').paused")
    assert opened.moment(AFTER) == pytest.approx(pieces[AFTER].end, abs=0.25)
    opened.look("judging-1440")


def test_a_time_beside_a_quote_plays_the_recording_that_it_is_of(open_walk: Open, changes: Path) -> None:
    opened = open_walk(changes)
    opened.page.locator(".line.change .half:nth-child(2) .at").first.click()
    opened.until(playing(AFTER))
    assert opened.page.evaluate(f"document.querySelector('{BEFORE}').paused")


def test_nothing_is_chosen_for_the_person(open_walk: Open, tmp_path: Path) -> None:
    opened = open_walk(written(tmp_path))
    for key in "wetm":
        opened.press(key)
        opened.page.wait_for_selector("#dialog[open] input[type=radio]")
        assert opened.page.locator("#dialog input:checked").count() == 0
        opened.page.locator("#dialog button[type=submit]").click()
        assert opened.page.locator("#dialog[open]").count() == 1, "it waits for a choice"
        opened.press("Escape")
    assert stands(opened) == draft()


def test_from_start_to_end_with_keys_alone(open_walk: Open, changes: Path) -> None:
    """Every change is agreed to or judged; the reason of one is typed."""
    opened = open_walk(changes)
    count = len(stands(opened).changes)
    assert opened.page.inner_text("#left").startswith(f"{count} of {count} to confirm")
    opened.press("w")
    opened.page.keyboard.press("ArrowDown")
    opened.page.keyboard.press("Tab")
    opened.page.keyboard.type("larger than it was")
    opened.press("Tab", "Enter")
    opened.page.wait_for_selector("#notice:has-text('Kept')")
    first = next(one for one in stands(opened).changes if one.judgement)
    assert first.judgement is not None
    assert (first.judgement.verdict, first.judgement.why) == ("beyond_ordinary_wear", "larger than it was")
    for _ in range(count):
        waits = opened.page.inner_text(".card.chosen .state")
        if "judged" in waits or "to" not in waits:
            break
        opened.press("1" if "to judge" in waits else "a")
    assert opened.page.inner_text("#left") == "all confirmed · none to judge"
    assert not any(one.is_open for one in stands(opened).changes)
    assert {one.decided.by for one in stands(opened).changes if one.decided} == {"Ida Pell"}


def test_guidance_stands_beside_the_change_with_its_source_and_decides_nothing(open_walk: Open, tmp_path: Path) -> None:
    opened = open_walk(written(tmp_path))
    choose(opened, "c3")
    told = opened.page.inner_text(".published")
    for part in (
        "faded or thinned by walking",
        "holes, burns or extensive stains",
        "HUD Special Claims",
        "Confidence: high",
    ):
        assert part in told
    assert stands(opened) == draft()
    opened.press("g")
    assert "C.R.S. 38-12-102(4)" in opened.page.inner_text("#dialog-body")


def test_pairing_otherwise_and_taking_it_back(open_walk: Open, tmp_path: Path) -> None:
    opened = open_walk(written(tmp_path))
    choose(opened, "c7")
    opened.press("t")
    opened.page.wait_for_selector("#dialog[open] input[type=radio]")
    opened.page.get_by_label("The blinds are bent").check()
    opened.page.locator("select[name=became]").select_option("worse")
    opened.page.get_by_role("button", name="Pair", exact=True).click()
    opened.page.wait_for_selector("#notice:has-text('paired otherwise')")
    found = change(opened, "c7")
    assert (found.before, found.after, found.outcome, found.confirmed) == (("b5",), ("a4",), "worse", True)
    assert opened.page.locator("#change-c6").count() == 0
    opened.press("u")
    assert stands(opened) == draft()
    opened.press("r")
    assert change(opened, "c7") == found


def test_splitting_and_joining(open_walk: Open, tmp_path: Path) -> None:
    opened = open_walk(written(tmp_path))
    choose(opened, "c3")
    opened.press("s")
    opened.page.get_by_label("A burn in the carpet").check()
    opened.page.get_by_role("button", name="Split", exact=True).click()
    opened.page.wait_for_selector("#notice:has-text('split')")
    assert change(opened, "c3").after == ("a1",)
    own = next(one for one in stands(opened).changes if one.after == ("a2",))
    assert (own.outcome, own.confirmed) == ("no_baseline", False)
    opened.look("judging-split")
    opened.press("m")
    opened.page.locator(f"#dialog input[value='{own.id}']").check()
    opened.page.get_by_role("button", name="Join", exact=True).click()
    opened.page.wait_for_selector("#notice:has-text('joined')")
    assert change(opened, "c3").after == ("a1", "a2")


def test_an_outcome_is_corrected_from_those_that_fit(open_walk: Open, tmp_path: Path) -> None:
    opened = open_walk(written(tmp_path))
    opened.press("e")
    assert opened.page.locator("#dialog input[type=radio]").count() == 3
    opened.page.get_by_label("better").check()
    opened.page.get_by_role("button", name="Keep").click()
    opened.page.wait_for_selector("#notice:has-text('better')")
    assert (change(opened, "c1").outcome, change(opened, "c1").confirmed) == ("better", True)


def test_what_needs_no_judgement_is_agreed_to_together(open_walk: Open, tmp_path: Path) -> None:
    opened = open_walk(written(tmp_path))
    choose(opened, "c3")
    opened.press("A")
    assert opened.page.locator("#dialog li").count() == 2
    opened.page.keyboard.press("Enter")
    opened.page.wait_for_selector("#notice:has-text('2 together')")
    assert [one.id for one in stands(opened).changes if one.confirmed] == ["c3", "c7"]


def test_markup_that_was_spoken_is_shown_as_words(open_walk: Open, tmp_path: Path) -> None:
    opened = open_walk(written(tmp_path))
    choose(opened, "c5")
    for place in ("#after .said", "#spine"):
        assert MARKUP in opened.page.inner_text(place)
    assert opened.page.title().startswith("Changes: ")
    assert opened.page.locator("#spine script").count() == 0


def test_a_recording_that_is_missing_is_said_in_its_place(open_walk: Open, tmp_path: Path) -> None:
    opened = open_walk(written(tmp_path))
    assert "in.mp4" in opened.page.inner_text("#before .screen-note")
    assert "out.mp4" in opened.page.inner_text("#after .screen-note")
    assert "is not sealed" in opened.page.inner_text("#warnings")
    opened.press("p", "1")
    assert change(opened, "c1").judgement is not None, "it can be judged all the same"


def test_two_windows_cannot_overwrite_each_other(open_walk: Open, tmp_path: Path) -> None:
    place = written(tmp_path)
    one, other = open_walk(place), open_walk(place)
    one.press("1")
    other.press("2")
    other.page.wait_for_selector("#alert:has-text('decided in another window')")
    assert "ordinary wear" in other.page.inner_text(".card.chosen")
    judgement = change(one, "c1").judgement
    assert judgement is not None
    assert judgement.verdict == "ordinary_wear"
    other.press("2")
    judgement = change(one, "c1").judgement
    assert judgement is not None
    assert judgement.verdict == "beyond_ordinary_wear", "having seen it, the second may decide again"
    assert [error for error in other.errors if "409" in error]
    other.errors.clear()


STATES = {
    "as it opens": (),
    "correcting": ("e",),
    "a reason": ("w",),
    "pairing": ("t",),
    "joining": ("m",),
    "guidance": ("g",),
    "the room": ("A",),
    "keys": ("?",),
    "after decisions": ("1", "a", "0", "j"),
}


@pytest.mark.parametrize("width", [1440, 390])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_checker_finds_nothing(open_walk: Open, changes: Path, width: int, scheme: str) -> None:
    opened = open_walk(changes, width, 900)
    opened.page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
    choose(opened, paired(opened).id)
    found = {}
    for state, keys in STATES.items():
        opened.press(*keys)
        opened.look(f"judging-{width}-{scheme}-{state.replace(' ', '-')}")
        found[state] = faults(opened)
        opened.press("Escape")
    assert found == {state: [] for state in STATES}


def test_a_narrow_window_does_not_scroll_sideways(open_walk: Open, changes: Path) -> None:
    opened = open_walk(changes, 390, 844)
    assert opened.page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
    stage = opened.page.locator(".stage").bounding_box()
    assert stage is not None
    assert stage["height"] < 844 * 0.72, "the changes stay in view below"
