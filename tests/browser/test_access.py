"""What an automated checker finds against WCAG 2.2 A and AA, in every state of the page; what it cannot find is said
in the guide. Keys are tested in test_review_page.py."""

from __future__ import annotations

from collections.abc import Callable
from importlib import resources
from pathlib import Path
from typing import Any

import pytest

from tests.browser.conftest import Opened

Open = Callable[..., Opened]
CHECKER = resources.files("axe_playwright_python") / "axe.min.js"
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
STATES = {
    "as it opens": (),
    "changing an entry": ("e",),
    "choosing a picture": ("t",),
    "gaps": ("c",),
    "sound entries together": ("g",),
    "withdrawing": ("w",),
    "keys": ("?",),
    "after decisions": ("a", "x", "j"),
}


def faults(opened: Opened) -> list[str]:
    """What the checker finds, each with the first place where it does."""
    # Handed over by the debugger's way in: the page's own policy lets no other script run.
    opened.page.evaluate(CHECKER.read_text("utf-8"))
    # A card scrolled half under the stage, or a line out of sight whose size is only guessed so far, would count as
    # too small to hit: both are shown whole.
    for rule in (".stage { position: static !important; }", ".line { content-visibility: visible !important; }"):
        opened.page.evaluate(
            "(rule) => document.styleSheets[0].insertRule(rule, document.styleSheets[0].cssRules.length)", rule
        )
    wanted = {"runOnly": {"type": "tag", "values": RULES}}
    found: dict[str, Any] = opened.page.evaluate("(wanted) => axe.run(document, wanted)", wanted)
    assert found["passes"], "the checker ran"
    return [f"{one['id']}: {one['help']} at {one['nodes'][0]['html'][:160]}" for one in found["violations"]]


@pytest.mark.parametrize("width", [1440, 390])
def test_a_checker_finds_nothing(open_walk: Open, sample: Path, width: int) -> None:
    opened = open_walk(sample, width, 900)
    found = {}
    for state, keys in STATES.items():
        opened.press(*keys)
        found[state] = faults(opened)
        opened.press("Escape")
    assert found == {state: [] for state in STATES}


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_contrast_is_enough_by_day_and_by_night(open_walk: Open, sample: Path, scheme: str) -> None:
    opened = open_walk(sample)
    opened.page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
    opened.press("a", "x")
    opened.page.evaluate("document.querySelector('#player').currentTime = 45")
    assert faults(opened) == []
    opened.look(f"review-{scheme}")


def test_single_keys_can_be_switched_off(open_walk: Open, sample: Path) -> None:
    """WCAG 2.1, success criterion 2.1.4: who speaks to the computer must not set off single keys."""
    opened = open_walk(sample)
    opened.press("?")
    opened.page.get_by_label("Single keys act").uncheck()
    opened.press("Escape", "a")
    assert all(entry.state == "proposed" for entry in opened.record.entries)
    opened.page.get_by_role("button", name="Accept").click()
    opened.page.wait_for_selector("#notice:has-text('Kept')")
    assert opened.record.entries[0].state == "accepted"


def test_everything_can_be_reached_and_done_with_tab_and_enter(open_walk: Open, sample: Path) -> None:
    opened = open_walk(sample)
    for _ in range(40):
        opened.press("Tab")
        if opened.page.evaluate("document.activeElement.innerText?.startsWith('Accept')"):
            break
    else:
        pytest.fail("Tab never came to Accept")
    outline = opened.page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
    assert outline != "none", "where the keyboard is can be seen"
    opened.press("Enter")
    opened.page.wait_for_selector("#notice:has-text('Kept')")
    assert opened.record.entries[0].state == "accepted"


def test_the_keyboard_keeps_its_place(open_walk: Open, sample: Path) -> None:
    """After a decision by its button the next one is at hand; after one by key the new entry's heading is told."""
    opened = open_walk(sample)
    whole = len(opened.record.entries)
    opened.page.get_by_role("button", name="Accept").focus()
    opened.press("Enter")
    opened.page.wait_for_selector(f"#left:has-text('{whole - 1} of')")
    assert opened.page.evaluate("document.activeElement.dataset.act") == "accept"
    opened.press("Enter")
    opened.page.wait_for_selector(f"#left:has-text('{whole - 2} of')")
    opened.page.locator(".card").nth(4).click()
    opened.press("a")
    assert opened.page.evaluate("document.activeElement.tagName") == "H2"
    opened.press("e", "Escape")
    assert opened.page.evaluate("document.querySelector('#desk').contains(document.activeElement)")


def test_what_there_is_to_press_can_be_seen_at_200_percent(open_walk: Open, sample: Path) -> None:
    """WCAG 2.2, success criterion 1.4.4: a window of 1440 by 900 at 200 % has 720 by 450 px."""
    opened = open_walk(sample, 720, 450)
    for name in ("Accept", "Change", "Leave out", "Split"):
        opened.page.get_by_role("button", name=name).scroll_into_view_if_needed()
        box = opened.page.get_by_role("button", name=name).bounding_box()
        assert box is not None
        assert 0 <= box["y"] <= 450 - box["height"]
        desk = opened.page.locator("#desk").bounding_box()
        assert desk is not None
        assert box["y"] + box["height"] <= desk["y"] + desk["height"] + 1
