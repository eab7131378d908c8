"""The published schemas are those of the types, are schemas, and tell a record from what is none."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from jsonschema import Draft202012Validator
from pydantic import BaseModel

from narrate2report.records.files import record_json
from narrate2report.records.findings import Findings
from narrate2report.records.schema import PUBLISHED, published, schema_of
from narrate2report.records.transcript import Transcript
from tests.records import makers

FINDINGS = Draft202012Validator(published("findings.schema.json"))
TRANSCRIPT = Draft202012Validator(published("transcript.schema.json"))


@pytest.mark.parametrize("name", sorted(PUBLISHED))
def test_the_published_file_is_what_the_types_give(name: str) -> None:
    """Where this fails: python -m narrate2report.records.schema"""
    assert published(name) == schema_of(name)


@pytest.mark.parametrize("name", sorted(PUBLISHED))
def test_each_is_a_valid_schema_with_a_name_of_its_own(name: str) -> None:
    schema = published(name)
    Draft202012Validator.check_schema(schema)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert schema["$id"].startswith("urn:narrate2report:")


@given(makers.records)
def test_every_findings_record_validates(record: Findings) -> None:
    FINDINGS.validate(_as_in_file(record))


@given(makers.transcripts)
def test_every_transcript_validates(record: Transcript) -> None:
    TRANSCRIPT.validate(_as_in_file(record))


@given(makers.records)
def test_a_record_that_lacks_any_field_is_refused(record: Findings) -> None:
    whole = _as_in_file(record)
    for field in whole:
        lacking = {name: value for name, value in whole.items() if name != field}
        assert not FINDINGS.is_valid(lacking), field


BROKEN: dict[str, dict[str, Any]] = {
    "an unknown field": {"grade": "B"},
    "another schema": {"schema": "narrate2report/findings/2"},
    "an entry without evidence": {"entries": [{"id": "e1", "kind": "condition"}]},
    "a reason that is none": {"unused": [{"id": "s1", "reason": "boring"}]},
    "a seal without a hash": {"seal": {"sealed_at": "2026-01-01", "sealed_by": "Ida"}},
}


@pytest.mark.parametrize("change", BROKEN.values(), ids=BROKEN.keys())
def test_what_is_no_findings_file_is_refused(change: dict[str, Any]) -> None:
    good = _as_in_file(_smallest())
    FINDINGS.validate(good)
    assert not FINDINGS.is_valid(good | change)


def _as_in_file(record: BaseModel) -> Any:
    return json.loads(json.dumps(record_json(record)))


def _smallest() -> Findings:
    return Findings.model_validate(
        {
            "schema": "narrate2report/findings/1",
            "walkthrough": {},
            "recordings": [],
            "transcript": {
                "engine": "given",
                "model": None,
                "model_sha256": None,
                "language": "en",
                "vocabulary_version": "0" * 64,
                "time_precision": "line",
            },
            "entries": [],
            "rooms": [],
            "coverage": [],
            "unused": [],
        }
    )
