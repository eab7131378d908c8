"""The published JSON Schemas (2020-12) of the files, made from the record types themselves.

`python -m narrate2report.records.schema` writes them to narrate2report/schema/;
a test asks that they are in step.
"""

from __future__ import annotations

import json
from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema

from narrate2report.records.canonical import readable_bytes
from narrate2report.records.comparison import CHANGES_SCHEMA, Comparison
from narrate2report.records.comparison_journal import JUDGING_SCHEMA, JudgingLine
from narrate2report.records.files import write_whole
from narrate2report.records.findings import FINDINGS_SCHEMA, Findings
from narrate2report.records.journal import JOURNAL_SCHEMA, JournalLine
from narrate2report.records.settlement import SETTLEMENT_SCHEMA, Settlement
from narrate2report.records.transcript import TRANSCRIPT_SCHEMA, Transcript
from narrate2report.records.unit import UNIT_SCHEMA, Unit
from narrate2report.shipped import PACKAGE

DIALECT = "https://json-schema.org/draft/2020-12/schema"

PUBLISHED: dict[str, tuple[str, type[BaseModel]]] = {
    "changes.schema.json": (CHANGES_SCHEMA, Comparison),
    "findings.schema.json": (FINDINGS_SCHEMA, Findings),
    "journal-line.schema.json": (JOURNAL_SCHEMA, JournalLine),
    "settlement.schema.json": (SETTLEMENT_SCHEMA, Settlement),
    "judging-line.schema.json": (JUDGING_SCHEMA, JudgingLine),
    "transcript.schema.json": (TRANSCRIPT_SCHEMA, Transcript),
    "unit.schema.json": (UNIT_SCHEMA, Unit),
}
"""File name: the value of the file's `schema` field, and the type that it is made from."""

BY_HAND = frozenset({"unit.schema.json"})
"""Files that a person writes as YAML: they name no schema, and what stands at its default may be left out."""


class _AsWritten(GenerateJsonSchema):
    """A file holds every field, also those at their default; a field's name needs no second title."""

    def field_is_required(self, *_: object, **__: object) -> bool:
        return True

    def field_title_should_be_set(self, *_: object, **__: object) -> bool:
        return False


def schema_of(name: str) -> dict[str, Any]:
    """The JSON Schema of one kind of file, as it stands on disk, where every field is written out."""
    identity, kind = PUBLISHED[name]
    if name in BY_HAND:
        made = kind.model_json_schema(by_alias=True, mode="validation")
    else:
        made = kind.model_json_schema(by_alias=True, schema_generator=_AsWritten, mode="serialization")
    return {"$schema": DIALECT, "$id": "urn:" + identity.replace("/", ":"), **made}


def published(name: str) -> dict[str, Any]:
    """The JSON Schema that travels with the package."""
    schema: dict[str, Any] = json.loads((PACKAGE / "schema" / name).read_text(encoding="utf-8"))
    return schema


def publish() -> None:
    """Write every schema to its file in the package's source."""
    for name in PUBLISHED:
        write_whole(PACKAGE / "schema" / name, readable_bytes(schema_of(name)))


if __name__ == "__main__":
    publish()
