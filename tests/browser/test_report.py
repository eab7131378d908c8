"""The report's page in a real browser: checked for access, fitting a phone, its times opening the recording."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from narrate2report.cli import main
from narrate2report.records.beside import walk_name
from tests.browser.test_access import CHECKER, RULES


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize(("width", "drawing"), [(1440, "wide-screen"), (390, "narrow"), (360, "narrow")])
def test_a_checker_finds_nothing_and_a_phone_shows_it_whole(
    browser: Browser, sample: Path, width: int, drawing: str, language: str
) -> None:
    command = ["report", str(sample), "--to", str(sample.parent), "--only", "html", "--quiet", "--language", language]
    assert main(command) == 0
    shown = browser.new_page(viewport={"width": width, "height": 800})
    name = "resident" if language == "en" else f"resident.{language}"
    shown.goto(sample.with_name(f"{walk_name(sample)}.{name}.html").as_uri())
    (seen,) = [one for one in shown.query_selector_all(".timeline") if one.is_visible()]
    assert drawing in str(seen.get_attribute("class"))
    assert min(box["height"] for one in seen.query_selector_all("text") if (box := one.bounding_box())) >= 10
    shown.evaluate(CHECKER.read_text("utf-8"))
    found = shown.evaluate("(wanted) => axe.run(document, wanted)", {"runOnly": {"type": "tag", "values": RULES}})
    assert found["passes"]
    assert [f"{one['id']}: {one['nodes'][0]['html'][:160]}" for one in found["violations"]] == []
    assert shown.evaluate("document.documentElement.scrollWidth") <= width
    shown.close()


def test_a_time_opens_the_recording_beside_it(browser: Browser, sample: Path) -> None:
    assert main(["report", str(sample), "--to", str(sample.parent), "--only", "html", "--quiet"]) == 0
    shown = browser.new_page()
    shown.goto(sample.with_name(f"{walk_name(sample)}.resident.html").as_uri())
    shown.click("a[href^='move-in.mp4#t=']")
    shown.wait_for_url("**/move-in.mp4#t=*")
    started = float(shown.url.partition("#t=")[2].partition(",")[0])
    shown.wait_for_selector("video")
    for _ in range(50):
        if shown.evaluate("document.querySelector('video').currentTime") >= started - 0.5:
            break
        shown.wait_for_timeout(100)
    assert shown.evaluate("document.querySelector('video').currentTime") >= started - 0.5
    shown.close()
