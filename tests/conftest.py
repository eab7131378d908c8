"""No test reads with the words of whoever runs it; the sample walk is drafted once for all that start from it."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator

import pytest
from filelock import FileLock
from hypothesis import settings
from xdist.scheduler import LoadFileScheduling

from narrate2report.cli import main
from tests.drafted import SAMPLES, Drafted

# How long one example takes is no matter of a test: on a busy machine it would fail for that alone.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")


MOST_WORKERS = 4
"""Each may hold the speech model and the language model: about a gigabyte."""

BROWSER_TESTS = "tests/browser/"


def pytest_xdist_auto_num_workers() -> int:
    """How many files of tests run at once with `-n auto`."""
    return min(MOST_WORKERS, os.cpu_count() or 1)


LONGEST = ("tests/read/test_metamorphic.py", BROWSER_TESTS, "tests/listen/", "tests/batch/", "tests/docs/")
"""What takes longest, with few tests in a file: it begins first, so that no worker is left alone with it at the end."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The longest first; `--no-loadscope-reorder` keeps the order, which would be by number of tests in a file."""
    items.sort(
        key=lambda item: next((at for at, file in enumerate(LONGEST) if item.nodeid.startswith(file)), len(LONGEST))
    )


class _FilesTogether(LoadFileScheduling):  # type: ignore[misc]  # the library tells no types
    """A file of tests stays together, and so do all that open a browser: one at a time is heavy enough."""

    def _split_scope(self, nodeid: str) -> str:
        file: str = super()._split_scope(nodeid)
        return BROWSER_TESTS if file.startswith(BROWSER_TESTS) else file


def pytest_xdist_make_scheduler(config: pytest.Config, log: object) -> _FilesTogether | None:
    """Who gets which tests; marks of groups are no way to say it: pytest 9.2 ignores how xdist 3.8 passes them on."""
    return _FilesTogether(config, log) if config.getoption("dist") == "loadfile" else None


@pytest.fixture(scope="session", autouse=True)
def programs_hear_ctrl_c() -> None:
    """What a shell starts in the background ignores Ctrl-C, and so do its children: a test would wait for ever."""
    signal.signal(signal.SIGINT, signal.default_int_handler)


@pytest.fixture(scope="session", autouse=True)
def built_in_words() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("NARRATE2REPORT_VOCAB", "")
        yield


@pytest.fixture(scope="session")
def move_in(tmp_path_factory: pytest.TempPathFactory) -> Drafted:
    """The move-in sample, from sound, with the model that comes with the program."""
    return _drafted_once("move-in", tmp_path_factory)


@pytest.fixture(scope="session")
def move_out(tmp_path_factory: pytest.TempPathFactory) -> Drafted:
    """The move-out sample in the same way."""
    return _drafted_once("move-out", tmp_path_factory)


def _drafted_once(name: str, factory: pytest.TempPathFactory) -> Drafted:
    """A sample film is listened to once for all tests, on however many processors they run."""
    base = factory.getbasetemp()
    folder = (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / f"drafted-{name}"
    drafted = Drafted(
        recording=SAMPLES / f"{name}.mp4",
        out=folder / "walk.findings.json",
        transcript=folder / "walk.transcript.json",
        heard=folder / ".walk.heard.jsonl",
    )
    with FileLock(folder.with_suffix(".lock")):
        folder.mkdir(exist_ok=True)
        if not drafted.out.exists():
            assert main(["draft", str(drafted.recording), "--out", str(drafted.out), "--quiet"]) == 0
    return drafted
