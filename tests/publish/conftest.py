"""What several tests of papers start from."""

from __future__ import annotations

import pytest

from tests.settled import Settled, settled


@pytest.fixture(scope="session")
def flat(tmp_path_factory: pytest.TempPathFactory) -> Settled:
    """The sample deposit, settled. Nobody changes it: `with_fields` gives another one."""
    return settled(tmp_path_factory.mktemp("flat"))
