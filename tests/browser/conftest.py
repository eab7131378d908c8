"""A real browser and the real program: the review page as a person opens it."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, ConsoleMessage, Error, Page, sync_playwright

from narrate2report.cli import main
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Findings
from narrate2report.review.desk import Desk
from tests.drafted import SAMPLES, Drafted
from tests.review.compared import naively_compared

ROOT = Path(__file__).parents[2]
PICTURES = ROOT / "build" / "screenshots"
NAMES = ("chromium", "chromium-browser", "google-chrome", "chrome")


@dataclass
class Opened:
    """The page of a walk, and the walk's file."""

    page: Page
    file: Path
    errors: list[str]

    @property
    def record(self) -> Findings:
        return Desk(self.file).findings

    def press(self, *keys: str) -> None:
        """Keys as a person presses them: each waits until the one before has done its work."""
        for key in keys:
            self.page.keyboard.press(key)
            self.rest()

    def rest(self) -> None:
        """Wait until the page has done its work."""
        self.page.wait_for_selector("body[data-busy=no]")

    def until(self, true: str, patience_s: float = 15.0) -> None:
        """Wait until a script says so. The page's own policy forbids what Playwright would use for it."""
        ends = time.monotonic() + patience_s
        while not self.page.evaluate(true):
            assert time.monotonic() < ends, f"never came true: {true}"
            self.page.wait_for_timeout(50)

    def told(self) -> str:
        return self.page.inner_text("#notice")

    def moment(self, player: str = "#player") -> float:
        return float(self.page.evaluate(f"document.querySelector('{player}').currentTime"))

    def look(self, name: str) -> None:
        """Keep a screenshot."""
        PICTURES.mkdir(parents=True, exist_ok=True)
        self.page.screenshot(path=PICTURES / f"{name}.png")


@pytest.fixture(scope="session")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    if "PYTEST_XDIST_WORKER" in os.environ:
        # The folder that all workers of a run share: a second one that opens a browser fails here.
        (tmp_path_factory.getbasetemp().parent / "browser").mkdir()
    found = next(filter(None, map(shutil.which, NAMES)), None)
    if found is None:
        if os.environ.get("BROWSER_TESTS") == "must":
            pytest.fail("no Chromium on this machine, though the browser tests must run")
        pytest.skip("no Chromium on this machine; install one to run the browser tests")
    with sync_playwright() as playwright:
        made = playwright.chromium.launch(
            executable_path=found,
            args=["--no-sandbox", "--disable-gpu", "--autoplay-policy=no-user-gesture-required", "--mute-audio"],
        )
        yield made
        made.close()


@contextmanager
def served(file: Path) -> Iterator[str]:
    """The program serving the review of a walk; gives its address, ends it with Ctrl-C as a person does."""
    program = subprocess.Popen(
        [sys.executable, "-m", "narrate2report", "review", str(file), "--no-browser", "--by", "Ida Pell"],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        cwd=ROOT,
    )
    try:
        assert program.stdout is not None
        yield program.stdout.readline().strip()
    finally:
        program.send_signal(signal.SIGINT)
        with program:
            assert program.wait(timeout=30) == 0


@pytest.fixture
def open_walk(browser: Browser) -> Iterator[Callable[[Path], Opened]]:
    """Opens the review of a findings file; whatever the page complains of fails the test."""
    ending: list[Callable[[], object]] = []
    pages: list[Opened] = []

    def open_it(file: Path, width: int = 1440, height: int = 900) -> Opened:
        serving = served(file)
        address = serving.__enter__()
        ending.append(lambda: serving.__exit__(None, None, None))
        context = browser.new_context(viewport={"width": width, "height": height})
        ending.append(context.close)
        opened = Opened(context.new_page(), file, [])
        _listen(opened)
        opened.page.goto(address)
        opened.rest()
        pages.append(opened)
        return opened

    yield open_it
    for end in reversed(ending):
        end()
    assert [error for opened in pages for error in opened.errors] == []


def _listen(opened: Opened) -> None:
    """Note whatever goes wrong in the page."""

    def on_console(told: ConsoleMessage) -> None:
        if told.type == "error":
            opened.errors.append(told.text)

    def on_error(error: Error) -> None:
        opened.errors.append(str(error))

    opened.page.on("console", on_console)
    opened.page.on("pageerror", on_error)


@pytest.fixture
def sample(move_in: Drafted, tmp_path: Path) -> Path:
    """The sample walk with its recording beside it, ready to be reviewed."""
    for made in (move_in.out, move_in.transcript):
        shutil.copy(made, tmp_path)
    shutil.copy(SAMPLES / "move-in.mp4", tmp_path)
    return tmp_path / move_in.out.name


@pytest.fixture(scope="session")
def both_drafted(move_in: Drafted, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with both sample walks drafted, their recordings, and a comparison of them."""
    folder = tmp_path_factory.mktemp("both")
    shutil.copy(move_in.out, folder / "move-in.findings.json")
    after = folder / "move-out.findings.json"
    assert main(["draft", str(SAMPLES / "move-out.mp4"), "--out", str(after), "--quiet"]) == 0
    for name in ("move-in.mp4", "move-out.mp4"):
        shutil.copy(SAMPLES / name, folder)
    records = read_record(folder / "move-in.findings.json", Findings), read_record(after, Findings)
    write_record(folder / "changes.json", naively_compared(*records, ("move-in.findings.json", after.name)))
    return folder


@pytest.fixture
def changes(both_drafted: Path, tmp_path: Path) -> Path:
    """The comparison of the sample walks, ready to be judged."""
    shutil.copytree(both_drafted, tmp_path, dirs_exist_ok=True)
    return tmp_path / "changes.json"
