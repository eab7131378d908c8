"""What travels inside the PDF: never more than the copy tells, and read back by another library."""

from __future__ import annotations

import json
from datetime import UTC, datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from narrate2report.intake.webvtt import parse_webvtt
from narrate2report.publish.report_attached import attached_to, extract
from narrate2report.publish.report_pdf import pdf_of
from narrate2report.publish.report_values import Reader
from narrate2report.publish.report_whole import Around, report_of, telling_of
from narrate2report.records.findings import Findings
from narrate2report.records.transcript import Stretch
from tests.publish.injected import SHA, full
from tests.publish.pdf import ReadBack
from tests.publish.walk import entry, evidence, findings

NOON = datetime(2026, 3, 6, 12, tzinfo=UTC)


def inside(record: Findings, reader: Reader, **more: object) -> ReadBack:
    around = Around(missing_stills={SHA: "picture_gone"})
    telling = telling_of(record, reader, around)
    attached = attached_to(telling, "walk", **more)  # type: ignore[arg-type]
    return ReadBack(pdf_of(report_of(telling, "walk", "reviewed", around), {}, NOON, attached=attached))


@pytest.mark.parametrize(
    ("reader", "files"),
    [
        ("resident", {"walk.resident.json": ("/Data", "/application/json"), "walk.vtt": ("/Supplement", "/text/vtt")}),
        ("owner", {"walk.owner.json": ("/Data", "/application/json"), "walk.vtt": ("/Supplement", "/text/vtt")}),
        ("office", {"walk.findings.json": ("/Source", "/application/json"), "walk.vtt": ("/Supplement", "/text/vtt")}),
    ],
)
def test_each_copy_holds_its_record_and_captions_with_their_relationship(
    reader: Reader, files: dict[str, tuple[str, str]]
) -> None:
    read = inside(full(), reader)
    found = read.attachments
    kinds = {
        name: (one["/AFRelationship"], one["/EF"]["/F"].get_object()["/Subtype"]) for name, (one, _) in found.items()
    }
    assert kinds == files
    assert all(str(one["/Desc"]).strip() for one, _ in found.values())
    assert "<pdfaid:part>3<" in read.metadata
    assert "<pdfuaid:part>1<" in read.metadata


def test_a_sealed_record_goes_to_the_office_byte_for_byte() -> None:
    whole = b'{"as": "it lies on disk"}\n'
    assert inside(full(), "office", whole=whole).attachments["walk.findings.json"][1] == whole


def test_what_the_office_keeps_is_not_hidden_in_the_residents_file() -> None:
    record = findings(
        entry(id="a", note="ask Ansel", state="accepted"),
        entry(id="b", kind="follow_up", action="replace", party="owner", evidence=(evidence(5, "owner pays"),)),
        entry(id="c", condition="burn", state="dropped", evidence=(evidence(9, "a burn, no"),)),
    )
    content = b"".join(one.content for one in attached_to(telling_of(record, "resident", Around()), "walk")).decode()
    for kept in ("Ansel", "owner pays", "burn"):
        assert kept not in content
    assert "said so" in content


@given(st.sampled_from(["resident", "owner"]))
@settings(max_examples=4)
def test_an_extract_is_a_record_without_a_seal(reader: Reader) -> None:
    telling = telling_of(full(), reader, Around())
    made = Findings.model_validate(json.loads(attached_to(telling, "walk")[0].content))
    assert made == extract(telling)
    assert made.seal is None
    assert made.unused == ()
    assert all(one.device is None and one.location is None for one in made.recordings)
    assert all(one.decided is None or one.decided.why is None for one in made.entries)


def test_captions_read_back_at_the_times_that_were_said() -> None:
    record = findings(entry(id="a", evidence=(evidence(75.3, "a <b> & chip"),)), entry(id="b", component="sink"))
    (captions,) = attached_to(telling_of(record, "resident", Around()), "walk")[1:]
    cues = parse_webvtt(captions.content.decode().split("\n"))
    assert [(cue.start, cue.end, cue.text) for cue in cues] == [(75.3, 78.3, "a <b> & chip"), (75.3, 78.3, "said so")]


def test_the_office_gets_everything_that_was_heard() -> None:
    heard = (
        Stretch(recording="walk.mp4", start=1, end=2, text="First of all."),
        Stretch(recording="walk.mp4", start=3, end=4, text="Thank you.", doubt="made up"),
    )
    captions = attached_to(telling_of(full(), "office", Around()), "walk", heard=heard)[1].content.decode()
    assert "First of all." in captions
    assert "Thank you." not in captions
