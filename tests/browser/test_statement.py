"""The deposit statement's page in a real browser: checked for access, fitting a phone, both walks side by side."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from narrate2report.cli import main
from tests.browser.test_access import CHECKER, RULES
from tests.settled import on_disk


@pytest.fixture(scope="module")
def papers(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("walks")
    made = on_disk(folder)
    for reader in ("resident", "office"):
        assert main(["statement", str(made), "--to", str(folder), "--for", reader, "--only", "html", "--quiet"]) == 0
    return folder


@pytest.mark.parametrize("reader", ["resident", "office"])
@pytest.mark.parametrize("width", [1440, 390])
def test_a_checker_finds_nothing_and_a_phone_shows_it_whole(
    browser: Browser, papers: Path, width: int, reader: str
) -> None:
    shown = browser.new_page(viewport={"width": width, "height": 900})
    shown.goto((papers / f"flat.statement.{reader}.html").as_uri())
    shown.evaluate(CHECKER.read_text("utf-8"))
    found = shown.evaluate("(wanted) => axe.run(document, wanted)", {"runOnly": {"type": "tag", "values": RULES}})
    assert found["passes"]
    assert [f"{one['id']}: {one['nodes'][0]['html'][:160]}" for one in found["violations"]] == []
    assert shown.evaluate("document.documentElement.scrollWidth") <= width
    shown.close()


@pytest.mark.parametrize(("width", "beside"), [(1440, True), (390, False)])
def test_the_two_walks_stand_side_by_side_where_there_is_room(
    browser: Browser, papers: Path, width: int, *, beside: bool
) -> None:
    shown = browser.new_page(viewport={"width": width, "height": 900})
    shown.goto((papers / "flat.statement.resident.html").as_uri())
    tops = shown.evaluate(
        "[...document.querySelector('.sides').children].map((one) => one.getBoundingClientRect().top)"
    )
    assert len(tops) == 2
    assert (tops[0] == tops[1]) == beside
    shown.close()


def test_a_number_of_the_account_leads_to_its_charge(browser: Browser, papers: Path) -> None:
    shown = browser.new_page()
    shown.goto((papers / "flat.statement.resident.html").as_uri())
    shown.click("a[href='#charge-3']")
    assert shown.evaluate("document.querySelector(':target').textContent").startswith("3. ")
    shown.close()
