"""A walk that is decided, and one that is sealed."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from narrate2report.records.files import write_record
from narrate2report.seal.decided import Decided
from narrate2report.seal.sealing import STATEMENT, Sealer, sealed
from tests.seal.walk import lay_out, on_disk

NOON = datetime(2026, 3, 6, 12, tzinfo=UTC)


@pytest.fixture
def ready(tmp_path: Path) -> Path:
    return lay_out(tmp_path)


@pytest.fixture
def closed(ready: Path) -> Path:
    write_record(ready, sealed(Decided(on_disk(ready)), ready, Sealer("Ida Pell", STATEMENT), NOON))
    return ready
