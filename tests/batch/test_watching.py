"""A file that is still being written waits until it lies still."""

from __future__ import annotations

from pathlib import Path

from narrate2report.batch.places import look
from narrate2report.batch.watching import Still, only_still, rounds


class Clock:
    now = 0.0

    def __call__(self) -> float:
        return self.now


def test_a_file_that_grows_waits_and_those_beside_it_do_not(tmp_path: Path) -> None:
    clock = Clock()
    still = Still(5.0, clock)
    seen = []
    (tmp_path / "whole.mp4").write_bytes(b"w")
    with (tmp_path / "growing.mp4").open("wb", buffering=0) as growing:
        for second in range(20):
            clock.now = float(second)
            if second < 10:
                growing.write(b"more")
            (here,) = only_still(look([str(tmp_path)]), still)
            seen.append({Path(lying.place).stem for lying in here.recordings})
            assert still.waiting == (len(seen[-1]) < 2)
    assert seen[4] == set()
    assert seen[5] == seen[13] == {"whole"}
    assert seen[14] == {"whole", "growing"}


def test_what_comes_into_a_folder_is_noticed(tmp_path: Path) -> None:
    told = rounds([str(tmp_path)])
    assert next(told)
    assert not next(told)
    (tmp_path / "walk.mp4").write_bytes(b"1")
    assert any(next(told) for _ in range(5))
    told.close()  # type: ignore[attr-defined]
