"""The review page in a real browser, on the sample walk."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from pathlib import Path

import av
import numpy as np
import pytest

from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Findings
from narrate2report.records.transcript import Gap
from narrate2report.seal.verifying import verify
from tests.browser.conftest import Opened
from tests.clock import read_clock
from tests.review.walks import walk

Open = Callable[..., Opened]


def test_a_key_plays_an_entry_from_its_start_to_its_end(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    piece = opened.record.entries[0].evidence[0]
    assert opened.moment() == pytest.approx(piece.start, abs=0.1), "the picture shows where the entry was said"
    opened.press("p")
    opened.until("!document.querySelector('#player').paused")
    assert piece.start - 0.01 <= opened.moment() <= piece.start + 1.5
    opened.until("document.querySelector('#player').paused")
    assert opened.moment() == pytest.approx(piece.end, abs=0.25)


def test_the_sentence_being_spoken_is_marked(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    opened.page.evaluate("document.querySelector('#player').currentTime = 43.2")
    opened.until("document.querySelector('.line.now')?.innerText.includes('Smoke alarm')")


def test_accepting_goes_on_to_the_next_and_counts_down(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    number = len(opened.record.entries)
    opened.press("a", "a", "x")
    assert [entry.state for entry in opened.record.entries[:3]] == ["accepted", "accepted", "dropped"]
    assert {entry.decided.by for entry in opened.record.entries[:3] if entry.decided} == {"Ida Pell"}
    assert opened.page.inner_text("#left").startswith(f"{number - 3} of {number} to decide")
    opened.look("review-1440")


def test_a_change_is_kept_taken_back_and_stands_again(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    before = opened.record.entries[0]
    opened.press("e")
    opened.page.fill("form.facts [name=condition]", "scratch")
    opened.page.fill("form.facts [name=where]", "beside the lock")
    opened.page.fill("form.facts [name=size]", "2 inches")
    opened.press("Enter")
    after = opened.record.entries[0]
    assert (after.condition, after.where, after.state) == ("scratch", "beside the lock", "changed")
    assert after.size is not None
    assert after.size.text == "2 inches"
    opened.press("u")
    assert opened.record.entries[0] == before
    opened.press("r")
    assert opened.record.entries[0] == after
    assert "beside the lock" in opened.page.inner_text(f"#entry-{before.id}")


def test_a_word_that_the_vocabulary_does_not_know_is_not_let_in(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    opened.press("e")
    opened.page.fill("form.facts [name=component]", "flux capacitor")
    opened.press("Enter")
    assert opened.page.evaluate("document.querySelector('[name=component]').validationMessage").startswith(
        "Not a known"
    )
    opened.press("Escape")
    assert all(entry.state == "proposed" for entry in opened.record.entries)


def test_a_picture_shows_the_moment_that_it_says(open_walk: Open, sample: Path) -> None:
    """The clock in the kept picture is read back by comparing it with the digits as they were drawn."""
    opened = open_walk(sample)
    opened.press("t")
    opened.page.wait_for_selector(".strip img[src^='blob:']")
    opened.press("]", "]", "[", "Enter")
    opened.page.wait_for_selector(".stills img")
    (still,) = opened.record.entries[0].stills
    kept = sample.parent / still.file
    assert hashlib.sha256(kept.read_bytes()).hexdigest() == still.sha256
    with av.open(str(kept)) as container:
        picture = next(container.decode(video=0)).to_ndarray(format="rgb24").astype(np.uint8)
    assert picture.shape == (540, 960, 3), "full resolution"
    assert read_clock(picture) == pytest.approx(still.time, abs=0.06)
    piece = opened.record.entries[0].evidence[0]
    assert piece.start - 0.1 <= still.time <= piece.end + 0.1
    opened.look("review-picture-1440")


def test_a_sentence_without_an_entry_becomes_one(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    unused = opened.record.unused[-1]
    opened.page.click(f"[data-add='{unused.id}']")
    opened.page.fill("form.facts [name=component]", "ceiling")
    opened.page.fill("form.facts [name=condition]", "stain")
    opened.press("Enter")
    assert unused.id not in {one.id for one in opened.record.unused}
    (made,) = [entry for entry in opened.record.entries if unused.id in entry.evidence[0].sentences]
    assert (made.component, made.condition, made.state) == ("ceiling", "stain", "accepted")
    assert made.evidence[0].quote == unused.text
    opened.press("u")
    assert unused.id in {one.id for one in opened.record.unused}


def test_a_stretch_that_was_not_understood_is_listened_to_and_becomes_an_entry(open_walk: Open, sample: Path) -> None:
    record = read_record(sample, Findings)
    gap = Gap(recording="move-in.mp4", start=100.0, end=104.0)
    facts = record.transcript.model_copy(update={"gaps": (gap,)})
    write_record(sample, record.model_copy(update={"transcript": facts}))
    opened = open_walk(sample)
    opened.page.click("[data-add='gap-0']")
    opened.until("!document.querySelector('#player').paused && document.querySelector('#player').currentTime >= 100")
    opened.page.fill("form.facts [name=component]", "ceiling")
    opened.page.fill("form.facts [name=condition]", "stain")
    opened.press("Enter")
    (made,) = [entry for entry in opened.record.entries if not entry.evidence[0].quote]
    assert (made.component, made.evidence[0].link) == ("ceiling", "move-in.mp4#t=100.00,104.00")
    assert opened.page.locator(f"#entry-{made.id}").is_visible()


def test_splitting_and_merging_what_says_the_same(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    first, second = opened.record.entries[:2]
    opened.press("s")
    split = next(entry for entry in opened.record.entries if entry.split_from == first.id)
    opened.press("m")
    merged = {entry.id: entry for entry in opened.record.entries}
    assert (merged[split.id].state, merged[split.id].merged_into) == ("dropped", first.id)
    opened.page.locator(f"#entry-{second.id}").click()
    opened.press("k", "j", "m")
    assert opened.page.locator("#alert").is_visible(), "two entries that say different things are not merged"
    assert {entry.id: entry.state for entry in opened.record.entries}[second.id] == "proposed"
    opened.errors.clear()


def test_the_sound_entries_of_a_room_are_accepted_together_after_a_look(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    room = opened.record.entries[0].room
    opened.press("g")
    listed = opened.page.locator("dialog li").all_inner_texts()
    assert len(listed) > 1
    opened.press("Enter")
    accepted = [entry for entry in opened.record.entries if entry.state == "accepted"]
    assert len(accepted) == len(listed)
    assert {entry.room for entry in accepted} == {room}


def test_a_gap_is_settled_and_says_how(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    opened.press("c")
    row = opened.page.locator("dialog .row").first
    row.get_by_role("button", name="Not looked at").click()
    opened.page.wait_for_selector("dialog .row >> text=: not looked at")
    opened.page.locator("dialog .row input").nth(1).fill("rang it, works")
    opened.page.locator("dialog .row").nth(1).get_by_role("button", name="Looked at since").click()
    opened.page.wait_for_selector("dialog .row >> text=: looked at since")
    known = [row.acknowledged for row in opened.record.coverage if row.acknowledged]
    assert [(one.looked, one.note) for one in known] == [("not_looked_at", None), ("looked_at_since", "rang it, works")]
    opened.look("review-gaps-1440")


def test_another_window_shows_what_this_one_decided_and_is_told_of_clashes(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    other = Opened(opened.page.context.new_page(), sample, opened.errors)
    other.page.goto(opened.page.url)
    other.rest()
    opened.press("a")
    other.page.bring_to_front()
    other.press("x")
    assert "another window" in other.page.inner_text("#alert")
    assert opened.record.entries[0].state == "accepted"
    other.errors.clear()


def test_words_of_a_recording_are_shown_and_never_obeyed(open_walk: Open, tmp_path: Path) -> None:
    opened = open_walk(walk(tmp_path))
    assert "<script>document.title" in opened.page.inner_text("#spine")
    assert opened.page.title().startswith("Review")
    opened.press("e")
    opened.page.fill("form.facts [name=note]", "<img src=x onerror=document.title='taken'>")
    opened.press("Enter")
    opened.press("k")
    assert "<img src=x" in opened.page.inner_text("#desk")
    assert opened.page.locator("#desk img").count() == 0
    assert opened.page.title().startswith("Review")


def test_the_page_stays_usable_on_a_phone(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample, 390, 844)
    wide = opened.page.evaluate("document.documentElement.scrollWidth")
    assert wide <= 390, "nothing sticks out to the side"
    opened.page.get_by_role("button", name="Accept").click()
    opened.until("document.querySelector('#notice').innerText.startsWith('Kept')")
    assert opened.record.entries[0].state == "accepted"
    opened.look("review-390")


def test_the_whole_walk_is_decided_and_sealed_with_keys_alone(open_walk: Open, sample: Path) -> None:
    """From the first entry to a seal that verifies; the number of keys is part of the promise."""
    opened = open_walk(sample)
    number, keys, asked = len(opened.record.entries), 0, set()
    while not opened.page.inner_text("#left").startswith("all decided"):
        room = opened.page.inner_text("#desk h2").partition(":")[0]
        pressed = ("A",) if room in asked else ("g", "Enter")
        opened.press(*pressed)
        asked.add(room)
        keys += len(pressed)
    opened.press("c", "L", "Escape", "z", "Enter")
    opened.page.wait_for_selector("dialog >> text=The record is sealed")
    keys += 5
    opened.look("review-sealed-1440")
    record = read_record(sample, Findings)
    assert all(entry.state == "accepted" for entry in record.entries)
    assert record.seal is not None
    assert record.seal.sealed_by == "Ida Pell"
    assert record.seal.sha256 in opened.page.inner_text("dialog")
    assert verify(sample).mismatches == ()
    assert keys <= number, f"{keys} keys for {number} entries"
    opened.press("Escape", "x")
    assert "sealed" in opened.page.inner_text("#alert")
    opened.errors.clear()


def test_a_reason_goes_to_the_entry_that_the_dialog_names(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    first, second = opened.record.entries[:2]
    opened.page.keyboard.press("a")
    opened.page.keyboard.press("w")  # too early: the decision before is still on its way to the disk
    opened.rest()
    if not opened.page.locator("dialog[open]").count():
        opened.press("w")
    named = opened.page.inner_text("#dialog-title")
    opened.page.keyboard.type("said in jest")
    opened.press("Enter")
    assert opened.record.entries[0].state == "accepted"
    assert second.component in named
    withdrawn = opened.record.entries[1]
    assert withdrawn.decided is not None
    assert (withdrawn.id, withdrawn.decided.why) == (second.id, "withdrawn: said in jest")
    assert opened.record.entries[0].id == first.id


def test_a_key_that_is_held_down_decides_once(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    for _ in range(6):
        opened.page.keyboard.down("x")
        opened.page.wait_for_timeout(60)
    opened.page.keyboard.up("x")
    opened.rest()
    assert sum(entry.state == "dropped" for entry in opened.record.entries) == 1


def test_keys_beside_an_open_form_do_nothing(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    opened.press("e")
    opened.page.fill("form.facts [name=note]", "half written")
    opened.page.click("#desk h2")
    opened.press("x", "a", "n")
    opened.page.locator(".card").nth(3).click()
    assert opened.page.input_value("form.facts [name=note]") == "half written"
    assert all(entry.state == "proposed" for entry in opened.record.entries)


def test_what_was_typed_survives_a_refusal(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    other = Opened(opened.page.context.new_page(), sample, opened.errors)
    other.page.goto(opened.page.url)
    other.rest()
    opened.press("e")
    opened.page.fill("form.facts [name=note]", "a long remark")
    other.page.bring_to_front()
    other.press("a")
    opened.page.bring_to_front()
    opened.page.focus("form.facts [name=note]")
    opened.press("Enter")
    assert "another window" in opened.page.inner_text("#alert")
    assert opened.page.input_value("form.facts [name=note]") == "a long remark"
    opened.press("Enter")
    assert opened.record.entries[0].note == "a long remark"
    opened.errors.clear()


def test_a_test_that_nobody_made_is_not_filled_in(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    opened.press("e")
    opened.page.select_option("form.facts [name=kind]", "check")
    assert opened.page.input_value("form.facts [name=outcome]") == ""
    opened.page.get_by_role("button", name="Keep the change").click()
    opened.rest()
    assert opened.record.entries[0].kind == "condition"
    opened.page.select_option("form.facts [name=outcome]", "not_tested")
    opened.page.get_by_role("button", name="Keep the change").click()
    opened.page.wait_for_selector("#notice:has-text('Kept')")
    assert (opened.record.entries[0].kind, opened.record.entries[0].outcome) == ("check", "not_tested")


def test_notes_on_other_gaps_stay_while_one_is_settled(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    opened.press("c")
    notes = opened.page.locator("dialog .row input")
    notes.nth(0).fill("turned it")
    notes.nth(1).fill("rang it")
    opened.page.locator("dialog .row").nth(0).get_by_role("button", name="Looked at since").click()
    opened.page.wait_for_selector("dialog .row >> text=: looked at since")
    assert notes.nth(1).input_value() == "rang it"
    opened.page.locator("dialog .row").nth(2).get_by_role("button", name="Looked at since").click()
    opened.page.wait_for_selector("#dialog-alert:has-text('note')")
    assert notes.nth(1).input_value() == "rang it"
    opened.errors.clear()


def test_the_start_of_a_statement_is_dragged(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    before = opened.record.entries[0].evidence[0]
    opened.press("e")
    opened.page.get_by_label("From (seconds), to drag").fill(f"{before.start + 0.5:.2f}")
    opened.page.get_by_role("button", name="Keep the change").click()
    opened.page.wait_for_selector("#notice:has-text('Kept')")
    after = opened.record.entries[0].evidence[0]
    assert after.start == pytest.approx(before.start + 0.5, abs=0.05)
    assert f"t={after.start:.2f}," in after.link
