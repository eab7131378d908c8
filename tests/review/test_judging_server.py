"""The server of the page on which changes are judged: guarded as the review of a draft is, and by the same guard."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from narrate2report.records.compared import read_comparison
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Findings, Still
from narrate2report.review.guard import Pass
from narrate2report.review.judging_site import JudgingSite
from narrate2report.review.playback import Playing
from narrate2report.review.server import application
from tests.review.compared import draft, opened, requests, written
from tests.review.test_server import HOST, PORT, SOUND, WRITE, emptied


class Shelf:
    """Two recordings: the earlier one is missing, the later one can be played."""

    def __init__(self, later: Path) -> None:
        self.later = later

    def playing(self, number: int) -> Playing:
        return Playing(file=self.later) if number == 1 else Playing(why="in.mp4 is not there")


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return written(tmp_path)


@pytest.fixture
def entry() -> Pass:
    return Pass(PORT)


@pytest.fixture
def outside(file: Path, entry: Pass) -> Iterator[TestClient]:
    recording = file.with_name("sound.wav")
    recording.write_bytes(SOUND)
    app = application(JudgingSite(opened(file), Shelf(recording)), entry)
    with TestClient(app, base_url=HOST + entry.folder, follow_redirects=False) as client:
        yield client


@pytest.fixture
def inside(outside: TestClient, entry: Pass) -> TestClient:
    assert outside.get(entry.address).status_code == 303
    return outside


def judged(verdict: str, seen: int = 0) -> dict[str, object]:
    return {"request": {"action": "judge", "changes": ["c1"], "verdict": verdict}, "by": "Ida Pell", "seen": seen}


@pytest.mark.parametrize("path", ["/", "/api/changes", "/api/since/0", "/api/pairable/c1", "/recording/1", "/still/x"])
def test_nothing_is_answered_without_the_session(outside: TestClient, path: str) -> None:
    assert outside.get(path).status_code == 403


@pytest.mark.parametrize(
    "headers", [{}, {"Origin": "http://attacker.example"}, {**WRITE, "Sec-Fetch-Site": "cross-site"}]
)
def test_a_judgement_forged_by_another_page_is_refused(inside: TestClient, file: Path, headers: dict[str, str]) -> None:
    assert inside.post("/api/decide", json=judged("ordinary_wear"), headers=headers).status_code == 403
    assert not file.with_name("changes.journal.jsonl").exists()


def test_a_judgement_is_on_disk_before_it_is_answered(inside: TestClient, file: Path) -> None:
    answer = inside.post("/api/decide", json=judged("ordinary_wear"), headers=WRITE)
    assert answer.status_code == 200
    assert answer.json()["changes"]["c1"]["judgement"]["verdict"] == "ordinary_wear"
    found = read_comparison(file).changes[0].judgement
    assert found is not None
    assert found.by == "Ida Pell"


def test_a_second_window_is_told_what_the_first_one_judged(inside: TestClient) -> None:
    inside.post("/api/decide", json=judged("ordinary_wear"), headers=WRITE)
    late = inside.post("/api/decide", json=judged("beyond_ordinary_wear"), headers=WRITE)
    assert late.status_code == 409
    assert late.json()["changes"]["c1"]["judgement"]["verdict"] == "ordinary_wear"
    again = inside.post("/api/decide", json=judged("beyond_ordinary_wear", late.json()["head"]), headers=WRITE)
    assert again.json()["changes"]["c1"]["judgement"]["verdict"] == "beyond_ordinary_wear"


def test_recordings_are_counted_through_both_walks(inside: TestClient) -> None:
    assert inside.get("/api/playing/0").json() == {"ready": False, "progress": None, "why": "in.mp4 is not there"}
    assert inside.get("/recording/1").content == SOUND
    assert inside.get("/recording/1", headers={"Range": "bytes=5-9"}).content == SOUND[5:10]
    for path in ("/recording/2", "/recording/-1", "/recording/..%2Fchanges.json", "/api/pairable/c404", "/api/walk"):
        assert inside.get(path).status_code == 404


def test_what_can_be_paired_stands_nearest_first(inside: TestClient) -> None:
    found = inside.get("/api/pairable/c7").json()["entries"]
    assert found == [["after", name] for name in ("a1", "a2", "a3", "a4", "a0")], "those of the same room first"


@pytest.mark.parametrize(
    ("named", "status"), [("in.stills/one.jpg", 200), ("../one.jpg", 422), ("in.stills/no.jpg", 404)]
)
def test_pictures_of_both_records_are_shown_and_no_name_leads_out(
    tmp_path: Path, entry: Pass, named: str, status: int
) -> None:
    place = written(tmp_path)
    (tmp_path / "in.stills").mkdir()
    (tmp_path / "in.stills" / "one.jpg").write_bytes(b"a picture")
    findings = tmp_path / "in.findings.json"
    record = read_record(findings, Findings)
    still = Still(file=named, recording="in.mp4", time=4.0, sha256="1" * 64)
    first = record.entries[0].model_copy(update={"stills": (still,)})
    write_record(findings, record.model_copy(update={"entries": (first, *record.entries[1:])}))
    app = application(JudgingSite(opened(place), Shelf(place)), entry)
    with TestClient(app, base_url=HOST + entry.folder, follow_redirects=False) as client:
        client.get(entry.address)
        assert client.get(f"/still/{still.sha256}").status_code == status


@settings(max_examples=100)
@given(st.data())
def test_whatever_is_null_in_a_request_it_is_answered_in_one_line(data: st.DataObject) -> None:
    with TemporaryDirectory() as folder:
        desk, entry = opened(written(Path(folder))), Pass(PORT)
        app = application(JudgingSite(desk, Shelf(desk.path)), entry)
        with TestClient(app, base_url=HOST + entry.folder, raise_server_exceptions=False) as client:
            client.get(entry.address)
            for _ in range(3):
                wanted = data.draw(requests(desk)).model_dump(mode="json", exclude_unset=data.draw(st.booleans()))
                told = {"request": {"action": "undo", **wanted}, "by": "Ida Pell", "seen": len(desk.lines)}
                raw = json.dumps(emptied(told, data.draw))
                answer = client.post("/api/decide", content=raw, headers={**WRITE, "Content-Type": "application/json"})
                assert answer.status_code in {200, 409, 422}, answer.text
                assert answer.status_code == 200 or "\n" not in answer.json()["error"].strip()


def test_opening_the_page_changes_nothing(inside: TestClient, file: Path) -> None:
    inside.get("/api/changes")
    assert read_comparison(file) == draft()
    assert not file.with_name("changes.journal.jsonl").exists()
