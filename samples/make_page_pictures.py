"""Take the pictures of the README that a browser shows: the review page and the report of the sample walk.

    python samples/make_page_pictures.py MOVE_IN.findings.json samples

The findings file lies beside its film, as `narrate2report demo` leaves both. It is copied first: nothing is decided
about it.
Needs Chromium (CHROMIUM names it, if it is elsewhere than /usr/bin/chromium).
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

CHROMIUM = os.environ.get("CHROMIUM", "/usr/bin/chromium")
WIDTH, HEIGHT = 1200, 800


def main(findings: Path, to: Path) -> None:
    """Write `review-page.png` and `report.png` into the folder `to`."""
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        folder = Path(name)
        for file in (findings, *findings.parent.glob("move-in.*")):
            if not (folder / file.name).exists() and ".journal." not in file.name:
                shutil.copy(file, folder)
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": WIDTH, "height": HEIGHT})
        review(page, folder / findings.name, to / "review-page.png")
        report(page, folder / findings.name, to / "report.png")
        browser.close()


def review(page: Page, findings: Path, picture: Path) -> None:
    """The page as it stands after three decisions, a flaw at hand."""
    command = [
        sys.executable,
        "-m",
        "narrate2report",
        "review",
        str(findings),
        "--no-browser",
        "--by",
        "Garrett Dunmoss",
    ]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True) as program:
        assert program.stdout is not None
        page.goto(program.stdout.readline().strip())
        page.wait_for_selector("body[data-busy=no]")
        for _ in range(3):
            page.keyboard.press("a")
            page.wait_for_selector("body[data-busy=no]")
        page.wait_for_timeout(1500)
        page.screenshot(path=picture)
        program.terminate()


def report(page: Page, findings: Path, picture: Path) -> None:
    """The report for the resident, where it goes room by room."""
    command = [sys.executable, "-m", "narrate2report", "report", str(findings), "--to", str(findings.parent), "--quiet"]
    subprocess.run([*command, "--only", "html"], check=True)
    page.goto(next(findings.parent.glob("*.resident.html")).as_uri())
    page.get_by_role("heading", name="Room by room").evaluate("heading => heading.scrollIntoView()")
    page.screenshot(path=picture)


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
