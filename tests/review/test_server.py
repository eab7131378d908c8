"""The page's server against those who should not get in, and against its own page."""

from __future__ import annotations

import json
import re
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from narrate2report.records.beside import journal_beside
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Findings, Still
from narrate2report.review.choices import Choices
from narrate2report.review.desk import Desk
from narrate2report.review.guard import LARGEST_BODY, Pass
from narrate2report.review.playback import Playing
from narrate2report.review.requests import LONGEST_NAME
from narrate2report.review.server import PAGE, application
from narrate2report.review.walk_site import WalkSite
from tests.review.hand_made import opened, requests, written
from tests.review.walks import walk

PORT = 40_404
HOST = f"http://127.0.0.1:{PORT}"
SOUND = bytes(range(256)) * 40
WRITE = {"Origin": HOST, "Sec-Fetch-Site": "same-origin"}


class Shelf:
    """One recording, whatever the number; no pictures."""

    def __init__(self, file: Path) -> None:
        self.file = file

    def playing(self, number: int) -> Playing:
        return Playing(file=self.file) if number == 0 else Playing()

    def frame(self, number: int, moment: float, steps: int) -> tuple[bytes, float]:
        return b"picture of %d" % number, moment + steps

    def sharpest(self, number: int, start: float, end: float) -> float:
        return (start + end) / 2 + number


@pytest.fixture(scope="module")
def drafted(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return walk(tmp_path_factory.mktemp("walk"))


@pytest.fixture
def file(drafted: Path, tmp_path: Path) -> Path:
    place = tmp_path / drafted.name
    place.write_bytes(drafted.read_bytes())
    return place


@pytest.fixture
def entry() -> Pass:
    return Pass(PORT)


@pytest.fixture
def outside(file: Path, entry: Pass) -> Iterator[TestClient]:
    """A client that has not been let in."""
    recording = file.with_name("sound.wav")
    recording.write_bytes(SOUND)
    site = WalkSite(Desk(file), Choices(), Shelf(recording))
    with TestClient(application(site, entry), base_url=HOST + entry.folder, follow_redirects=False) as client:
        yield client


@pytest.fixture
def inside(outside: TestClient, entry: Pass) -> TestClient:
    """The browser that the person opened the address in."""
    assert outside.get(entry.address).status_code == 303
    return outside


def decision(entry_id: str, seen: int = 0) -> dict[str, object]:
    return {"request": {"action": "accept", "entries": [entry_id]}, "by": "Ida Pell", "seen": seen}


def first_entry(file: Path) -> str:
    return Findings.model_validate_json(file.read_bytes()).entries[0].id


def test_the_address_lets_in_one_browser_once(outside: TestClient, entry: Pass) -> None:
    answer = outside.get(entry.address)
    assert answer.status_code == 303
    cookie = answer.headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=strict" in cookie
    assert outside.get("/").status_code == 200
    assert outside.get(entry.address).headers["location"] == f"{entry.folder}/", "the same browser may open it again"
    outside.cookies.clear()
    assert outside.get(entry.address).status_code == 403
    assert outside.get("/").status_code == 403


def test_a_browser_shows_the_session_to_no_other_server_of_this_machine(inside: TestClient, entry: Pass) -> None:
    """Cookies are kept apart by path and not by port; another server knows its own paths only."""

    def shown(address: str) -> str | None:
        request = urllib.request.Request(address)  # never sent
        inside.cookies.jar.add_cookie_header(request)
        return request.get_header("Cookie")

    assert shown(f"{HOST}{entry.folder}/api/walk")
    for port in (PORT, PORT + 1):
        for path in ("/", "/api/walk", "/open/x", f"{entry.folder}x/", f"/x{entry.folder}/"):
            assert shown(f"http://127.0.0.1:{port}{path}") is None


@pytest.mark.parametrize("path", ["/", "/api/walk", "/page/main.js", "//", "/open/x", "/guessed/api/walk"])
def test_nothing_is_answered_outside_the_folder_even_with_the_session(
    inside: TestClient, entry: Pass, path: str
) -> None:
    stolen = "; ".join(f"{name}={value}" for name, value in inside.cookies.items())
    assert inside.get(f"{HOST}{entry.folder}/api/walk", headers={"Cookie": stolen}).status_code == 200
    assert inside.get(HOST + path, headers={"Cookie": stolen}).status_code == 403


def test_a_cookie_of_our_name_that_another_server_set_does_not_shut_the_page(inside: TestClient) -> None:
    inside.cookies.set(f"narrate2report_{PORT}", "tossed", domain="127.0.0.1", path="/")
    assert inside.get("/api/walk").status_code == 200


def test_a_name_is_as_long_as_a_name_can_be_and_no_longer(inside: TestClient, file: Path) -> None:
    wanted = decision(first_entry(file))
    refused = inside.post("/api/decide", json=wanted | {"by": "I" * (LONGEST_NAME + 1)}, headers=WRITE)
    assert (refused.status_code, refused.json()["error"]) == (422, "by: String should have at most 200 characters")
    assert not journal_beside(file).exists()
    assert inside.post("/api/decide", json=wanted | {"by": "I" * LONGEST_NAME}, headers=WRITE).status_code == 200


def test_the_page_is_addressed_from_its_own_place_on(inside: TestClient) -> None:
    """An address from the root would lie outside the folder."""
    for path in ("/", *(f"/page/{file.name}" for file in PAGE.glob("*.js"))):
        assert not re.search(r"""["'`(]/(page|api|recording|frame|still)/""", inside.get(path).text), path


@pytest.mark.parametrize("path", ["/", "/api/walk", "/api/since/0", "/recording/0", "/frame/0?at=1", "/page/main.js"])
def test_nothing_is_answered_without_the_session(outside: TestClient, path: str) -> None:
    assert outside.get(path).status_code == 403
    outside.cookies.set(f"narrate2report_{PORT}", "guessed")
    assert outside.get(path).status_code == 403


@pytest.mark.parametrize("token", ["", "guess", "%00", "a" * 500, "é"])
def test_a_guessed_address_does_not_let_in(outside: TestClient, entry: Pass, token: str) -> None:
    assert outside.get(f"/open/{token}").status_code == 403
    assert outside.get(entry.address).status_code == 303, "a wrong guess does not spend the right one"


@pytest.mark.parametrize(
    "host", ["attacker.example", f"attacker.example:{PORT}", "127.0.0.1", f"127.0.0.1:{PORT + 1}", ""]
)
def test_another_host_name_is_not_answered(inside: TestClient, host: str) -> None:
    assert inside.get("/api/walk", headers={"Host": host}).status_code == 421


@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"Origin": "http://attacker.example"},
        {"Origin": "null"},
        {"Origin": f"http://127.0.0.1:{PORT + 1}"},
        {"Origin": f"https://127.0.0.1:{PORT}"},
        {"Origin": HOST, "Sec-Fetch-Site": "cross-site"},
        {"Origin": HOST, "Sec-Fetch-Site": "same-site"},
    ],
)
def test_a_decision_forged_by_another_page_is_refused(inside: TestClient, file: Path, headers: dict[str, str]) -> None:
    answer = inside.post("/api/decide", json=decision(first_entry(file)), headers=headers)
    assert answer.status_code == 403
    assert not file.with_name("walk.journal.jsonl").exists()


def test_a_form_of_another_page_cannot_decide(inside: TestClient, file: Path) -> None:
    raw = json.dumps(decision(first_entry(file)))
    for kind in ("text/plain", "application/x-www-form-urlencoded", "multipart/form-data"):
        answer = inside.post("/api/decide", content=raw, headers={**WRITE, "Content-Type": kind})
        assert answer.status_code == 415
    assert not file.with_name("walk.journal.jsonl").exists()


def test_a_request_that_is_too_large_is_refused(inside: TestClient) -> None:
    raw = b'{"request": "' + b"x" * LARGEST_BODY + b'"}'
    answer = inside.post("/api/decide", content=raw, headers={**WRITE, "Content-Type": "application/json"})
    assert answer.status_code == 413


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"{",
        b"[]",
        b'{"request": {"action": "explode"}, "by": "Ida", "seen": 0}',
        b'{"request": {"action": "accept", "entries": []}, "by": "Ida", "seen": 0}',
        b'{"request": {"action": "undo"}, "by": "", "seen": 0}',
        b'{"request": {"action": "undo"}, "by": "Ida", "seen": -1}',
        b'{"request": {"action": "undo"}, "by": "Ida\\u0007", "seen": 0}',
        b'{"request": {"action": "undo"}, "by": "\\u200b\\ufeff", "seen": 0}',
        b'{"request": {"action": "withdraw", "entry": "nosuch", "why": "\\u2060"}, "by": "Ida", "seen": 0}',
        b'{"request": {"action": "accept", "entries": ["nosuch"]}, "by": "Ida", "seen": 0}',
    ],
)
def test_a_request_that_makes_no_sense_is_told_why_and_changes_nothing(
    inside: TestClient, file: Path, body: bytes
) -> None:
    answer = inside.post("/api/decide", content=body, headers={**WRITE, "Content-Type": "application/json"})
    assert answer.status_code == 422
    assert answer.json()["error"]
    assert not file.with_name("walk.journal.jsonl").exists()


@pytest.mark.parametrize("path", ["/", "/api/walk", "/page/main.js", "/recording/0", "/no/such/page", "/open/x"])
def test_every_answer_forbids_what_the_page_does_not_need(inside: TestClient, path: str) -> None:
    headers = inside.get(path).headers
    policy = headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert "frame-ancestors 'none'" in policy
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "no-referrer"


def test_a_decision_is_on_disk_before_it_is_answered(inside: TestClient, file: Path) -> None:
    chosen = first_entry(file)
    answer = inside.post("/api/decide", json=decision(chosen), headers=WRITE)
    assert answer.status_code == 200
    assert answer.json()["entries"][chosen]["state"] == "accepted"
    assert chosen in file.with_name("walk.journal.jsonl").read_text("utf-8")


def test_a_second_window_is_told_what_the_first_one_decided(inside: TestClient, file: Path) -> None:
    chosen = first_entry(file)
    first = inside.post("/api/decide", json=decision(chosen), headers=WRITE).json()
    late = inside.post(
        "/api/decide",
        json={**decision(chosen), "request": {"action": "drop", "entries": [chosen]}},
        headers=WRITE,
    )
    assert late.status_code == 409
    assert "another window" in late.json()["error"]
    assert late.json()["entries"][chosen]["state"] == "accepted"
    again = {"request": {"action": "drop", "entries": [chosen]}, "by": "Ida Pell", "seen": first["head"]}
    assert inside.post("/api/decide", json=again, headers=WRITE).json()["entries"][chosen]["state"] == "dropped"


@pytest.mark.parametrize(
    ("wanted", "first", "last"),
    [
        ("bytes=0-0", 0, 0),
        ("bytes=100-199", 100, 199),
        ("bytes=10000-", 10_000, 10_239),
        ("bytes=-7", 10_233, 10_239),
        ("bytes=-99999", 0, 10_239),
        ("bytes=10200-99999", 10_200, 10_239),
    ],
)
def test_a_recording_is_answered_by_range(inside: TestClient, wanted: str, first: int, last: int) -> None:
    """RFC 9110, sections 14.1.2 and 14.4: single, open and suffix ranges, cut at the end."""
    answer = inside.get("/recording/0", headers={"Range": wanted})
    assert answer.status_code == 206
    assert answer.headers["content-range"] == f"bytes {first}-{last}/10240"
    assert answer.content == SOUND[first : last + 1]


@pytest.mark.parametrize("wanted", [None, "bytes=5-2", "lines=1-2"])
def test_a_recording_is_answered_whole_where_no_range_is_asked_for(inside: TestClient, wanted: str | None) -> None:
    """RFC 9110, section 14.2: a range that cannot be understood may be passed over, or refused."""
    answer = inside.get("/recording/0", headers={"Range": wanted} if wanted else {})
    assert answer.status_code == 200 if wanted is None else answer.status_code in {200, 400, 416}
    assert answer.content == SOUND or answer.status_code != 200
    assert wanted is not None or answer.headers["accept-ranges"] == "bytes"


@pytest.mark.parametrize("wanted", ["bytes=10240-", "bytes=99999-100000"])
def test_a_range_that_lies_outside_is_refused_with_the_length(inside: TestClient, wanted: str) -> None:
    """RFC 9110, section 15.5.17."""
    answer = inside.get("/recording/0", headers={"Range": wanted})
    assert answer.status_code == 416
    assert answer.headers["content-range"] == "bytes */10240"


@pytest.mark.parametrize(
    "path",
    [
        "/recording/1",
        "/recording/" + "1" * 5000,
        "/recording/²",
        "/api/playing/" + "9" * 5000,
        "/api/since/" + "9" * 5000,
        "/frame/" + "9" * 5000 + "?at=1",
        "/recording/-1",
        "/recording/..%2Fwalk.findings.json",
        "/recording/../walk.findings.json",
        "/page/../review/guard.py",
        "/page/..%2f..%2fcli.py",
        "/page/%2e%2e/cli.py",
        "/still/..%2Fwalk.findings.json",
        "/still/walk.findings.json",
        "/walk.findings.json",
        "/frame/9?at=1",
        "/frame/0?at=nan",
        "/frame/0?at=-1",
        "/frame/0?at=1&steps=999999",
    ],
)
def test_nothing_is_reached_but_what_the_walk_holds(inside: TestClient, path: str) -> None:
    answer = inside.get(path)
    assert answer.status_code in {404, 405}
    assert b"narrate2report/findings" not in answer.content
    assert b"import" not in answer.content


def emptied(told: object, draw: Callable[[st.SearchStrategy[int]], int]) -> object:
    """JSON of the same shape in which some values are null."""
    if draw(st.integers(0, 9)) == 0:
        return None
    if isinstance(told, dict):
        return {name: emptied(value, draw) for name, value in told.items()}
    return [emptied(value, draw) for value in told] if isinstance(told, list) else told


@settings(max_examples=120)
@given(st.data())
def test_whatever_is_null_in_a_request_it_is_answered_in_one_line(data: st.DataObject) -> None:
    with TemporaryDirectory() as folder:
        desk, entry = opened(written(Path(folder))), Pass(PORT)
        app = application(WalkSite(desk, Choices(), Shelf(desk.path)), entry)
        with TestClient(app, base_url=HOST + entry.folder, raise_server_exceptions=False) as client:
            client.get(entry.address)
            for _ in range(3):
                wanted = data.draw(requests(desk)).model_dump(mode="json", exclude_unset=data.draw(st.booleans()))
                told = {"request": {"action": "undo", **wanted}, "by": "Ida Pell", "seen": len(desk.lines)}
                raw = json.dumps(emptied(told, data.draw))
                headers = {**WRITE, "Content-Type": "application/json"}
                answer = client.post("/api/decide", content=raw, headers=headers)
                assert answer.status_code in {200, 409, 422}, answer.text
                assert answer.status_code == 200 or "\n" not in answer.json()["error"].strip()


@pytest.mark.parametrize(
    ("named", "status"), [("walk.stills/one.jpg", 200), ("../one.jpg", 422), ("walk.stills/none.jpg", 404)]
)
def test_an_addendum_shows_the_pictures_of_the_record_that_it_adds_to(
    file: Path, entry: Pass, named: str, status: int
) -> None:
    """They keep their names and their folder, and no name leads out of that of the record."""
    stills = file.with_name("walk.stills")
    stills.mkdir()
    (stills / "one.jpg").write_bytes(b"a picture")
    still = Still(file=named, recording="walk.txt", time=4.0, sha256="1" * 64)
    record = read_record(file, Findings)
    first = record.entries[0].model_copy(update={"stills": (still,)})
    addendum = file.with_name("walk.addendum-1.findings.json")
    write_record(addendum, record.model_copy(update={"entries": (first, *record.entries[1:])}))
    site = WalkSite(Desk(addendum), Choices(), Shelf(file))
    with TestClient(application(site, entry), base_url=HOST + entry.folder, follow_redirects=False) as client:
        client.get(entry.address)
        answer = client.get(f"/still/{still.sha256}")
    assert answer.status_code == status
    assert (answer.content == b"a picture") is (status == 200)
