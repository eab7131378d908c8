"""No test reads with the words that the person who runs it keeps at home, nor do the programs it starts."""

from __future__ import annotations

from collections.abc import Iterator

import pytest


@pytest.fixture(scope="session", autouse=True)
def built_in_words() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("NARRATE2REPORT_VOCAB", "")
        yield
