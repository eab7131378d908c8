"""Entries as W3C Web Annotations: the shape that the model asks for, and back to the same times and words."""

from __future__ import annotations

import base64
import json
import re
from datetime import UTC, datetime
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.publish.annotations import annotations_of
from narrate2report.publish.standing import heading_of
from narrate2report.records.canonical import readable_bytes
from narrate2report.records.findings import Findings
from tests.publish.walk import SEAL, entry, evidence, findings

AT = datetime(2026, 3, 6, 10, 0, tzinfo=UTC)

MOTIVATIONS = (
    "assessing bookmarking classifying commenting describing editing highlighting identifying linking moderating "
    "questioning replying tagging"
).split()
IRI = {"type": "string", "pattern": r"^[^\s<>\"{}|\\^`]+$"}
MODEL: dict[str, Any] = {
    "$comment": "Web Annotation Data Model, 2017; the section of each rule beside it",
    "type": "object",
    "required": ["@context", "id", "type", "label", "total", "first"],  # 5.1
    "properties": {
        "@context": {"const": "http://www.w3.org/ns/anno.jsonld"},
        "id": IRI,
        "type": {"const": "AnnotationCollection"},
        "label": {"type": "string"},
        "total": {"type": "integer", "minimum": 0},
        "first": {"$ref": "#/$defs/page"},
    },
    "additionalProperties": False,
    "$defs": {
        "page": {  # 5.2
            "required": ["id", "type", "partOf", "startIndex", "items"],
            "properties": {
                "id": IRI,
                "type": {"const": "AnnotationPage"},
                "partOf": IRI,
                "startIndex": {"const": 0},
                "items": {"type": "array", "items": {"$ref": "#/$defs/annotation"}},
            },
            "additionalProperties": False,
        },
        "annotation": {  # 3.1: one id, a type, one or more targets
            "required": ["id", "type", "motivation", "body", "target"],
            "properties": {
                "id": IRI,
                "type": {"const": "Annotation"},
                "motivation": {"enum": MOTIVATIONS},  # 3.3.5
                "creator": {  # 3.3.2
                    "required": ["type", "name"],
                    "properties": {"type": {"const": "Person"}, "name": {"type": "string"}},
                    "additionalProperties": False,
                },
                "created": {"type": "string", "pattern": r"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$"},  # 3.3.1: UTC with Z
                "body": {"type": "array", "minItems": 1, "items": {"$ref": "#/$defs/text"}},
                "target": {"$ref": "#/$defs/specific"},
            },
            "additionalProperties": False,
        },
        "text": {  # 3.2.4: exactly one value; at most one format and one language
            "required": ["type", "value", "format", "purpose"],
            "properties": {
                "type": {"const": "TextualBody"},
                "value": {"type": "string"},
                "format": {"const": "text/plain"},
                "language": {"type": "string"},
                "purpose": {"enum": MOTIVATIONS},
            },
            "additionalProperties": False,
        },
        "specific": {  # 4: exactly one source; 4.2.1: one value, one conformsTo
            "required": ["type", "source", "selector"],
            "properties": {
                "type": {"const": "SpecificResource"},
                "source": {
                    "required": ["id"],
                    "properties": {
                        "id": IRI,
                        "canonical": {"type": "string", "pattern": r"^ni:///sha-256;[A-Za-z0-9_-]{43}$"},  # RFC 6920, 3
                        "type": {"enum": ["Video", "Audio"]},
                        "format": {"type": "string", "pattern": r"^(video|audio)/"},
                    },
                    "additionalProperties": False,
                },
                "selector": {
                    "required": ["type", "conformsTo", "value"],
                    "properties": {
                        "type": {"const": "FragmentSelector"},
                        "conformsTo": {"const": "http://www.w3.org/TR/media-frags/"},
                        "value": {"type": "string", "pattern": r"^t=\d+\.\d\d,\d+\.\d\d$"},  # without the #
                    },
                    "additionalProperties": False,
                },
            },
            "additionalProperties": False,
        },
    },
}
CHECK = jsonschema.Draft202012Validator(MODEL)
FRAGMENT = re.compile(r"t=(\d+(?:\.\d*)?),(\d+(?:\.\d*)?)")
"""Media Fragments URI 1.0, section 4.2.1: seconds from start to end."""


def written(record: Findings, addresses: dict[str, str] | None = None) -> dict[str, Any]:
    """The document as another program reads it."""
    heading = heading_of(record, "sealed" if record.seal else "draft", AT)
    made = annotations_of(record, heading, addresses or {})
    read: dict[str, Any] = json.loads(readable_bytes(made))
    CHECK.validate(read)
    return read


def bodies(annotation: dict[str, Any], purpose: str) -> list[str]:
    return [body["value"] for body in annotation["body"] if body["purpose"] == purpose]


def told(annotation: dict[str, Any]) -> tuple[str, str, float, float, list[str]]:
    """What an annotation says, by the model alone: which entry, of which recording, from when to when, which words."""
    found = FRAGMENT.fullmatch(annotation["target"]["selector"]["value"])
    assert found
    start, end = float(found[1]), float(found[2])
    assert end > start, "else a reader passes the fragment over"
    (name,) = bodies(annotation, "identifying")
    return name, annotation["target"]["source"]["id"], start, end, bodies(annotation, "highlighting")


MOMENT = st.integers(0, 10_000_000).map(lambda hundredths: hundredths / 100)
QUOTE = st.text(st.characters(exclude_categories=["Cs"]), max_size=40)


@st.composite
def walks(draw: st.DrawFn) -> Findings:
    entries = []
    for number in range(draw(st.integers(0, 5))):
        pieces = [
            evidence(draw(MOMENT)).model_copy(update={"quote": draw(QUOTE)}) for _ in range(draw(st.integers(1, 3)))
        ]
        state = draw(st.sampled_from(["proposed", "accepted", "dropped"]))
        entries.append(entry(id=f"e{number}", evidence=tuple(pieces), state=state))
    return findings(*entries)


@given(walks())
def test_times_and_words_come_back_as_they_are_in_the_record(record: Findings) -> None:
    wanted = [
        (one.id, piece.recording, piece.start, max(piece.end, piece.start + 0.01), [piece.quote] if piece.quote else [])
        for one in record.entries
        if one.state != "dropped"
        for piece in one.evidence
    ]
    made = written(record)
    assert sorted(map(told, made["first"]["items"])) == sorted(wanted)
    assert made["total"] == len(wanted)
    names = [one["id"] for one in made["first"]["items"]]
    assert len(set(names)) == len(names)


def test_what_is_said_is_told_in_words() -> None:
    (one,) = written(findings(entry(evidence=(evidence(75.3, "There's a chip."),))))["first"]["items"]
    assert bodies(one, "describing") == ["Kitchen, countertop: chip"]
    assert bodies(one, "highlighting") == ["There's a chip."]
    assert bodies(one, "tagging") == ["Kitchen", "countertop"]
    assert bodies(one, "classifying") == ["condition"]
    assert one["motivation"] == "assessing"


def test_a_moment_without_length_still_is_a_fragment() -> None:
    piece = evidence(75.3).model_copy(update={"end": 75.3})
    (one,) = written(findings(entry(evidence=(piece,))))["first"]["items"]
    assert one["target"]["selector"]["value"] == "t=75.30,75.31"


def test_the_recording_is_known_by_its_contents_wherever_it_lies() -> None:
    (one,) = written(findings(entry()), {"walk.mp4": "https://films.example/walk.mp4"})["first"]["items"]
    source = one["target"]["source"]
    assert source["id"] == "https://films.example/walk.mp4"
    digits = source["canonical"].removeprefix("ni:///sha-256;")
    assert base64.urlsafe_b64decode(digits + "=").hex() == "a" * 64
    assert (source["type"], source["format"]) == ("Video", "video/mp4")


def test_what_was_read_from_a_transcript_is_no_film() -> None:
    record = findings(entry(), recordings=[{"file": "walk.mp4", "sha256": "a" * 64, "bytes": 9, "media": False}])
    (one,) = written(record)["first"]["items"]
    assert "type" not in one["target"]["source"]


def test_a_draft_says_so_and_a_seal_is_named_in_each_annotation() -> None:
    draft = written(findings(entry()))
    assert draft["label"] == "Condition report, unit 2B: DRAFT – not fully reviewed"
    assert bodies(draft["first"]["items"][0], "moderating") == ["NOT REVIEWED", "DRAFT – not fully reviewed"]
    sealed = written(
        findings(entry(state="accepted", decided={"by": "Ida Pell", "at": "2026-03-06T23:30:00-05:00"}), seal=SEAL)
    )
    (one,) = sealed["first"]["items"]
    assert bodies(one, "moderating") == ["accepted", f"Sealed, SHA-256 {'5' * 64}"]
    assert one["creator"] == {"type": "Person", "name": "Ida Pell"}
    assert one["created"] == "2026-03-07T04:30:00Z"


def test_names_stay_from_draft_to_seal() -> None:
    draft, sealed = written(findings(entry())), written(findings(entry(), seal=SEAL))
    assert draft["id"] == sealed["id"]
    assert [one["id"] for one in draft["first"]["items"]] == [one["id"] for one in sealed["first"]["items"]]


@pytest.mark.parametrize("broken", ["t=5.00", "#t=1.00,2.00", "t=1.00,2.00,3.00"])
def test_the_check_of_the_shape_finds_what_is_wrong(broken: str) -> None:
    read = written(findings(entry()))
    read["first"]["items"][0]["target"]["selector"]["value"] = broken
    with pytest.raises(jsonschema.ValidationError):
        CHECK.validate(read)
