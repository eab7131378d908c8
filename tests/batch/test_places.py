"""What lies where, here and at addresses: both are listed alike."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import fsspec
import pytest

from narrate2report.batch import remote
from narrate2report.batch.places import beside, digest_place, folder_of, look, name_of
from narrate2report.errors import BadInput

FILES = {
    "a/one.mp4": b"1",
    "a/one.findings.json": b"{}",
    "a/.hidden.mp4": b"h",
    "a/one.chapters.mp4": b"1 with chapters",
    "a/notes.txt": b"text",
    "a/said.vtt": b"WEBVTT",
    "b/deep/two.MOV": b"22",
}


@pytest.fixture(params=["here", "at an address"])
def base(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    if request.param == "here":
        for name, content in FILES.items():
            (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
            (tmp_path / name).write_bytes(content)
        yield str(tmp_path)
    else:
        files = fsspec.filesystem("memory")
        for name, content in FILES.items():
            files.pipe_file(f"/walks/{name}", content)
        yield "memory://walks"
        files.rm("/walks", recursive=True)


def listed(*wanted: str) -> list[tuple[str, int]]:
    return [(name_of(lying.place), lying.bytes) for here in look(wanted) for lying in here.recordings]


def test_recordings_below_a_folder_are_found_with_the_records_beside_them(base: str) -> None:
    assert listed(base) == [("one.mp4", 1), ("two.MOV", 2)]
    (first, second) = look([base])
    assert [name_of(record.place) for record in first.records] == ["one.findings.json"]
    assert second.records == ()
    assert folder_of(first.recordings[0].place) == first.folder
    assert digest_place(beside(first.recordings[0].place, "one.mp4")) == digest_place(first.recordings[0].place)


def test_patterns_find_recordings_and_transcripts_only_where_they_ask_for_them(base: str) -> None:
    assert listed(f"{base}/a/*") == [("one.mp4", 1)]
    assert listed(f"{base}/a/*.vtt", f"{base}/a/one.mp4") == [("one.mp4", 1), ("said.vtt", 6)]
    assert listed(f"{base}/**/*.MOV") == [("two.MOV", 2)]


@pytest.mark.parametrize("ask", ["none", "a/*.mkv", "a/one.findings.json"])
def test_what_is_not_there_or_no_recording_is_told(base: str, ask: str) -> None:
    with pytest.raises(BadInput, match=r".+: .+"):
        look([f"{base}/{ask}"])


@pytest.mark.parametrize("do", [look, lambda places: remote.read(places[0])], ids=["listing", "reading"])
def test_an_address_that_nothing_answers_at_is_one_line(do: Callable[[list[str]], object]) -> None:
    with pytest.raises(BadInput, match="cannot be reached"):
        do(["nowhere://walks/a.mp4"])


def test_a_file_that_is_sent_appears_whole_and_leaves_nothing_beside_it(tmp_path: Path) -> None:
    (tmp_path / "x").write_bytes(b"whole")
    remote.send(tmp_path / "x", "memory://sent/x.json")
    assert remote.read("memory://sent/x.json") == b"whole"
    assert fsspec.filesystem("memory").ls("/sent", detail=False) == ["/sent/x.json"]
    assert remote.fetch("memory://sent/none.json", tmp_path / "y") is False


def test_links_are_passed_over_below_a_folder_and_taken_where_they_are_named(tmp_path: Path) -> None:
    (tmp_path / "walks").mkdir()
    (tmp_path / "walk.mp4").write_bytes(b"1")
    (tmp_path / "walks" / "link.mp4").symlink_to(tmp_path / "walk.mp4")
    assert listed(str(tmp_path / "walks")) == []
    assert listed(str(tmp_path / "walks" / "link.mp4")) == [("link.mp4", 1)]
