"""Folders and records that are links: what is written into one can be opened by its own name and by the link's."""

from __future__ import annotations

import json
import os
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest

from narrate2report.cli import main
from narrate2report.commands.at_hand import address
from narrate2report.records.comparison import Comparison
from narrate2report.records.files import read_record
from tests.compare.pair_files import HERE, load_pair


def opened(link: str, page_folder: Path) -> Path:
    """Where a browser goes that shows a page of this folder: by the names alone, then by what lies there."""
    if link.startswith("file:"):
        return Path(unquote(urlsplit(link).path)).resolve()
    return Path(os.path.normpath(page_folder / unquote(link))).resolve()


@pytest.fixture
def film(tmp_path: Path) -> Path:
    film = tmp_path / "walks" / "a walk.mp4"
    film.parent.mkdir()
    film.write_bytes(b"film")
    return film


def test_a_film_is_found_from_a_linked_folder_by_both_of_its_names(film: Path, tmp_path: Path) -> None:
    real, link = tmp_path / "disk" / "deep" / "papers", tmp_path / "papers"
    real.mkdir(parents=True)
    link.symlink_to(real)
    for named in (link, real):
        assert opened(address(film, named), named) == film.resolve()
    assert opened(address(film, link), real) == film.resolve()


def test_what_lies_together_is_linked_relatively_even_where_both_are_reached_by_a_link(
    film: Path, tmp_path: Path
) -> None:
    link = tmp_path / "elsewhere" / "walks"
    link.parent.mkdir()
    link.symlink_to(film.parent)
    assert address(link / film.name, link) == "a%20walk.mp4"
    assert address(link / film.name, link / "papers") == "../a%20walk.mp4"
    assert address(film, link) in {"../walks/a%20walk.mp4", film.resolve().as_uri()}
    assert opened(address(film, link), link) == film.resolve()


def test_records_that_are_links_beside_the_comparison_are_named_as_they_lie_there(tmp_path: Path) -> None:
    pair = load_pair(HERE / "a2_upstairs_rooms.txt")
    kept, flat = tmp_path / "archive", tmp_path / "flat"
    kept.mkdir()
    flat.mkdir()
    for name, content in (("in", pair.before), ("out", pair.after)):
        (kept / f"{name}.findings.json").write_text(json.dumps(content), "utf-8")
        (flat / f"{name}.findings.json").symlink_to(kept / f"{name}.findings.json")
    records = [str(flat / f"{name}.findings.json") for name in ("in", "out")]
    assert main(["compare", *records, "--out", str(flat / "changes.json"), "--quiet"]) == 0
    made = read_record(flat / "changes.json", Comparison)
    assert (made.before.file, made.after.file) == ("in.findings.json", "out.findings.json")
