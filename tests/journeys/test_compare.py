"""`compare`: two walks in, what became of every flaw out; bad input is one line, and nothing is written."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from narrate2report.cli import main
from narrate2report.records.files import record_json, write_record
from narrate2report.records.schema import published
from tests.compare.pair_files import HERE, load_pair
from tests.compare.walks import walk

PAIR = load_pair(HERE / "a2_upstairs_rooms.txt")
CHANGES = Draft202012Validator(published("changes.schema.json"))


def written(folder: Path, name: str, content: dict[str, Any]) -> str:
    path = folder / name
    path.write_text(json.dumps(content), encoding="utf-8")
    return str(path)


@pytest.fixture
def before(tmp_path: Path) -> str:
    return written(tmp_path, "in.findings.json", PAIR.before)


@pytest.fixture
def after(tmp_path: Path) -> str:
    return written(tmp_path, "out.findings.json", PAIR.after)


@pytest.fixture
def out(tmp_path: Path) -> Path:
    return tmp_path / "changes.json"


def refused(capsys: pytest.CaptureFixture[str], out: Path, *arguments: str) -> str:
    assert main(["compare", *arguments, "--out", str(out)]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.startswith("narrate2report: ")
    assert told.err.count("\n") == 1
    assert not out.exists()
    return told.err


def test_the_file_is_of_the_published_form_and_the_same_each_time(before: str, after: str, out: Path) -> None:
    assert main(["compare", before, after, "--out", str(out), "--quiet"]) == 0
    first = out.read_bytes()
    content = json.loads(first)
    CHANGES.validate(content)
    assert (content["before"]["file"], content["before"]["seal"]) == ("in.findings.json", None)
    assert content["after"]["unit"] == "12 Alder Row"
    assert main(["compare", before, after, "--out", str(out), "--quiet"]) == 0
    assert out.read_bytes() == first


def test_records_of_our_own_give_the_same_changes(before: str, after: str, out: Path, tmp_path: Path) -> None:
    own = [tmp_path / "own-in.findings.json", tmp_path / "own-out.findings.json"]
    for path, content in zip(own, (PAIR.before, PAIR.after), strict=True):
        write_record(path, walk(content))
    assert main(["compare", before, after, "--out", str(out), "--quiet"]) == 0
    assert main(["compare", *map(str, own), "--out", str(tmp_path / "own.json"), "--quiet"]) == 0
    changes = [json.loads(path.read_text(encoding="utf-8"))["changes"] for path in (out, tmp_path / "own.json")]
    assert changes[0] == changes[1]


def test_the_page_shows_both_quotes_both_links_and_that_nothing_is_sealed(
    before: str, after: str, out: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["compare", before, after, "--out", str(out)]) == 0
    page = " ".join(capsys.readouterr().out.split())
    assert page.count("MIND: ") == 2
    assert "NOT SEALED" in page
    assert "“A little swelling at the bottom of the vanity.”" in page
    assert "“Vanity is swollen really badly along the bottom.”" in page
    assert "in.mp4#t=" in page
    assert "out.mp4#t=" in page
    assert "Bedroom 2 (bedroom.2) then is Right bedroom (bedroom.right) now" in page
    assert "17 flaws: " in page


def test_a_comparison_written_away_from_its_records_says_what_that_hinders(
    before: str, after: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "elsewhere").mkdir()
    for out, is_told in ((tmp_path / "elsewhere" / "changes.json", True), (tmp_path / "changes.json", False)):
        assert main(["compare", before, after, "--out", str(out), "--json"]) == 0
        marks = json.loads(capsys.readouterr().out)["marks"]
        assert any("write it beside them" in mark for mark in marks) is is_told


def test_the_summary_for_machines_counts_the_same(
    before: str, after: str, out: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["compare", before, after, "--out", str(out), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    changes = json.loads(out.read_text(encoding="utf-8"))["changes"]
    assert told["changes"] == len(changes) == sum(told["outcomes"].values())
    assert told["outcomes"]["new"] == sum(change["outcome"] == "new" for change in changes)
    assert told["sealed"] == {"before": False, "after": False}


def test_dropped_and_merged_entries_do_not_count(before: str, tmp_path: Path, out: Path) -> None:
    entries = [dict(entry) for entry in PAIR.after["entries"]]
    entries[0] |= {"state": "dropped"}
    entries[1] |= {"merged_into": "f-0003"}
    after = written(tmp_path, "fewer.findings.json", PAIR.after | {"entries": entries})
    assert main(["compare", before, after, "--out", str(out), "--quiet"]) == 0
    told = {one for change in json.loads(out.read_text(encoding="utf-8"))["changes"] for one in change["after"]}
    assert not {"f-0001", "f-0002"} & told


def unclear(folder: Path) -> tuple[str, str]:
    """Two walks with two bedrooms each that nothing tells apart."""
    sides = []
    for name, content, rooms in (("a", PAIR.before, ("2", "3")), ("b", PAIR.after, ("left", "right"))):
        entries = [
            dict(content["entries"][0]) | {"id": f"f-{number}", "room": f"bedroom.{room}", "condition": "hole"}
            for number, room in enumerate(rooms)
        ]
        facts = {"entries": entries, "rooms": []}
        sides.append(written(folder, f"{name}.json", content | facts))
    return sides[0], sides[1]


def test_rooms_that_are_not_clear_are_asked_and_answered_in_a_file(
    tmp_path: Path, out: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before, after = unclear(tmp_path)
    assert main(["compare", before, after, "--out", str(out)]) == 0
    page = capsys.readouterr().out
    assert "bedroom.2: bedroom.left" in page
    assert "--rooms" in page
    rooms = tmp_path / "rooms.yaml"
    rooms.write_text("bedroom.2: bedroom.left\nbedroom.3: bedroom.right\n", encoding="utf-8")
    assert main(["compare", before, after, "--out", str(out), "--rooms", str(rooms), "--quiet"]) == 0
    content = json.loads(out.read_text(encoding="utf-8"))
    assert [room["given"] for room in content["rooms"]] == [True, True]
    assert {change["outcome"] for change in content["changes"]} == {"unchanged"}


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ("bedroom.9: bedroom.left", "rooms.yaml:1: bedroom.9: no such room in the earlier record"),
        ("bedroom.2: attic", "rooms.yaml:1: attic: no such room in the later record"),
        ("bedroom.2: bedroom.left\nbedroom.3: bedroom.left", "is named for two rooms"),
        ("bedroom.2: [bedroom.left]", "one room of the later record is wanted"),
        ("- bedroom.2", "a list of rooms is wanted"),
        ("bedroom.2: [", "not YAML"),
    ],
)
def test_a_mistake_in_the_file_of_rooms_is_told_with_its_line(
    lines: str, told: str, tmp_path: Path, out: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rooms = tmp_path / "rooms.yaml"
    rooms.write_text(lines, encoding="utf-8")
    assert told in refused(capsys, out, *unclear(tmp_path), "--rooms", str(rooms))


def test_one_file_twice_is_refused(before: str, out: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "is named twice" in refused(capsys, out, before, before)


def test_one_walk_in_two_files_is_refused(
    before: str, tmp_path: Path, out: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    copy = written(tmp_path, "copy.json", PAIR.before)
    assert "are the same walk" in refused(capsys, out, before, copy)


def test_the_wrong_order_is_refused_by_date_and_without_one_by_kind(
    before: str, after: str, tmp_path: Path, out: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert "the order is swapped" in refused(capsys, out, after, before)
    undated = [
        written(tmp_path, f"{kind}.json", content | {"walkthrough": {"kind": kind, "unit": "12 Alder Row"}})
        for kind, content in (("move_out", PAIR.after), ("move_in", PAIR.before))
    ]
    assert "a move-out walk" in refused(capsys, out, *undated)


@pytest.mark.parametrize(
    ("earlier", "later", "told"),
    [
        ({}, {}, "nothing shows which walk was first"),
        ({"kind": "move_in"}, {"kind": "move_in"}, "nothing shows which walk was first"),
        ({"date": "2025-03-06"}, {"kind": "move_out"}, "nothing shows which walk was first"),
        ({"kind": "move_in"}, {"kind": "move_out"}, None),
        ({"date": "last spring"}, {"date": "2026-05-07"}, "the date of in.json is no day ('last spring')"),
        ({"kind": "move_in", "date": "x"}, {"kind": "move_out", "date": "2026-05-07"}, "the date of in.json is no day"),
        ({"date": "2026-05-07"}, {"date": "2026-05-07"}, "both walks are of 2026-05-07"),
        ({"date": "2025-03-06"}, {"date": "2026-05-07"}, None),
    ],
)
def test_an_order_that_cannot_be_checked_is_said_loudly(
    earlier: dict[str, str],
    later: dict[str, str],
    told: str | None,
    tmp_path: Path,
    out: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    walks = [
        written(tmp_path, name, content | {"walkthrough": {"unit": "12 Alder Row"} | facts})
        for name, content, facts in (("in.json", PAIR.before, earlier), ("out.json", PAIR.after, later))
    ]
    assert main(["compare", *walks, "--out", str(out), "--json"]) == 0
    marks = json.loads(capsys.readouterr().out)["marks"]
    about = [mark for mark in marks if "not sealed" not in mark]
    assert any(told in mark for mark in about) if told else about == []


@pytest.mark.parametrize("content", ["", "# nothing but a remark\n", "---\n"])
def test_a_rooms_file_that_says_nothing_is_refused(
    content: str, before: str, after: str, tmp_path: Path, out: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rooms = tmp_path / "rooms.yaml"
    rooms.write_text(content, encoding="utf-8")
    assert "a list of rooms is wanted" in refused(capsys, out, before, after, "--rooms", str(rooms))


def test_a_film_in_the_place_of_a_record_is_told_so(
    after: str, tmp_path: Path, out: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    film = tmp_path / "walk.mp4"
    film.write_bytes(b"\x00\x00\x00\x20ftypisom\xff\xf8")
    assert "walk.mp4: is no findings file" in refused(capsys, out, str(film), after)


@pytest.mark.parametrize("number", [10**30, 1e30, -(10**30), 2**53])
@pytest.mark.parametrize("own", [False, True])
def test_a_count_that_no_reader_could_keep_is_refused(
    number: float, own: bool, after: str, tmp_path: Path, out: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    content: dict[str, Any] = record_json(walk(PAIR.before)) if own else PAIR.before
    entries = [dict(content["entries"][0]) | {"quantity": number}, *content["entries"][1:]]
    before = written(tmp_path, "odd.json", content | {"entries": entries})
    assert "holds a number that is too large" in refused(capsys, out, before, after)


def test_two_units_are_refused_and_two_spellings_of_one_are_not(
    before: str, tmp_path: Path, out: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    def later(unit: str) -> str:
        return written(tmp_path, "later.json", PAIR.after | {"walkthrough": PAIR.after["walkthrough"] | {"unit": unit}})

    told = refused(capsys, out, before, later("14 Alder Row"))
    assert "12 Alder Row" in told
    assert "14 Alder Row" in told
    assert main(["compare", before, later("Unit 12, alder row"), "--out", str(out), "--quiet"]) == 0


def test_a_unit_told_in_part_is_marked_and_not_refused(
    before: str, tmp_path: Path, out: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    later = written(
        tmp_path, "later.json", PAIR.after | {"walkthrough": PAIR.after["walkthrough"] | {"unit": "12 Alder Row B"}}
    )
    assert main(["compare", before, later, "--out", str(out), "--json"]) == 0
    assert any("make sure that it is the same unit" in mark for mark in json.loads(capsys.readouterr().out)["marks"])


@pytest.mark.parametrize(
    ("field", "name", "told"),
    [
        ("component", "walll", "the component 'walll', which is not known; did you mean wall?"),
        ("condition", "scuf", "the condition 'scuf', which is not known; did you mean scuff?"),
        ("room", "spaceport", "the room 'spaceport', which is not known. Correct the entry"),
    ],
)
def test_what_no_vocabulary_knows_is_refused(
    field: str, name: str, told: str, after: str, tmp_path: Path, out: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    entries = [PAIR.before["entries"][0] | {field: name}]
    before = written(tmp_path, "odd.json", PAIR.before | {"entries": entries})
    assert told in refused(capsys, out, before, after)


def test_an_entry_that_stands_twice_in_a_record_is_refused(
    after: str, tmp_path: Path, out: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    entries = [*PAIR.before["entries"], PAIR.before["entries"][0]]
    twice = written(tmp_path, "twice.json", PAIR.before | {"entries": entries})
    assert "twice.json: the entry f-0001 stands in it twice" in refused(capsys, out, twice, after)


def test_a_sealed_record_that_was_changed_is_refused(
    after: str, tmp_path: Path, out: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "sealed.findings.json"
    seal = {"sha256": "0" * 64, "sealed_at": "x", "sealed_by": "x", "statement": "x", "files": ()}
    write_record(path, walk(PAIR.before).model_copy(update={"seal": _seal(seal)}))
    assert "does not match its seal" in refused(capsys, out, str(path), after)


def _seal(facts: dict[str, Any]) -> Any:
    from narrate2report.records.findings import Seal

    return Seal.model_validate(facts)


def test_only_a_comparison_that_nobody_has_judged_is_written_over(
    before: str, after: str, tmp_path: Path, out: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    other = tmp_path / "letter.txt"
    other.write_text("Dear resident", encoding="utf-8")
    assert main(["compare", before, after, "--out", str(other)]) == 2
    assert "holds no comparison" in capsys.readouterr().err
    assert other.read_text(encoding="utf-8") == "Dear resident"
    assert main(["compare", before, after, "--out", str(out), "--quiet"]) == 0
    content = json.loads(out.read_text(encoding="utf-8"))
    content["changes"][0]["confirmed"] = True
    out.write_text(json.dumps(content), encoding="utf-8")
    assert main(["compare", before, after, "--out", str(out)]) == 2
    assert "what a person has judged" in capsys.readouterr().err
    assert json.loads(out.read_text(encoding="utf-8")) == content
