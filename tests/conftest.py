"""No test reads with the words of whoever runs it; the sample walk is drafted once for all that start from it."""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest
from hypothesis import settings

from narrate2report.cli import main
from tests.drafted import SAMPLES, Drafted

# How long one example takes is no matter of a test: on a busy machine it would fail for that alone.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")


MOST_WORKERS = 4
"""Each may hold the speech model and the language model: about a gigabyte."""


def pytest_xdist_auto_num_workers() -> int:
    """How many files of tests run at once with `-n auto`."""
    return min(MOST_WORKERS, os.cpu_count() or 1)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """A file of tests stays together, and so do all that open a browser: one at a time is heavy enough."""
    for one in items:
        group = "browser" if one.path.parent.name == "browser" else str(one.path)
        one.add_marker(pytest.mark.xdist_group(group))


@pytest.fixture(scope="session", autouse=True)
def built_in_words() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("NARRATE2REPORT_VOCAB", "")
        yield


@pytest.fixture(scope="session")
def move_in(tmp_path_factory: pytest.TempPathFactory) -> Drafted:
    """The move-in sample, from sound, with the model that comes with the program."""
    folder = tmp_path_factory.mktemp("move-in")
    drafted = Drafted(
        recording=SAMPLES / "move-in.mp4",
        out=folder / "walk.findings.json",
        transcript=folder / "walk.transcript.json",
        heard=folder / ".walk.heard.jsonl",
    )
    assert main(["draft", str(drafted.recording), "--out", str(drafted.out), "--quiet"]) == 0
    return drafted
