"""What was heard is on disk as soon as it is known, and survives whatever happens to the program."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from narrate2report.errors import BadInput
from narrate2report.listen.store import Store, result_key


def test_a_result_is_found_again_by_the_next_run(tmp_path: Path) -> None:
    path = tmp_path / "walk.heard.jsonl"
    with Store(path) as store:
        store.put("a", {"words": ["sink", "é"]})
        # Not closed yet: another reader already sees it.
        with Store(path) as other:
            assert other.get("a") == {"words": ["sink", "é"]}
    with Store(path) as store:
        assert store.get("a") == {"words": ["sink", "é"]}
        assert store.get("b") is None


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(at=st.integers(0, 10_000))
def test_wherever_a_crash_cuts_the_file_the_whole_lines_remain(tmp_path: Path, at: int) -> None:
    path = tmp_path / "walk.heard.jsonl"
    path.unlink(missing_ok=True)
    with Store(path) as store:
        for number in range(5):
            store.put(str(number), {"n": number})
    raw = path.read_bytes()
    kept = raw[: at % (len(raw) + 1)]
    path.write_bytes(kept)
    whole = kept.count(b"\n")
    with Store(path) as store:
        assert [number for number in range(5) if store.get(str(number))] == list(range(whole))
        store.put("later", {"n": 9})
    with Store(path) as store:
        assert store.get("later") == {"n": 9}
    assert path.read_bytes().count(b"\n") == whole + 1


def test_another_kind_of_file_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "notes.txt"
    path.write_bytes(b"my only copy")
    with pytest.raises(BadInput, match="left alone"):
        Store(path)
    assert path.read_bytes() == b"my only copy"


def test_a_place_that_cannot_be_written_is_said_so(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="cannot be kept"):
        Store(tmp_path / "nowhere" / "walk.heard.jsonl")


def test_a_key_tells_all_that_a_result_depends_on() -> None:
    keys = {
        result_key(sound="a", model="m", settings={"beam": 5}),
        result_key(sound="b", model="m", settings={"beam": 5}),
        result_key(sound="a", model="n", settings={"beam": 5}),
        result_key(sound="a", model="m", settings={"beam": 1}),
    }
    assert len(keys) == 4
    assert result_key(a=1, b=2) == result_key(b=2, a=1)
