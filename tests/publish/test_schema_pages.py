"""The pages of the JSON Schemas are in step with them: every field, its form, and what it means."""

from __future__ import annotations

import pytest

from narrate2report.cli import main
from narrate2report.commands.guide import schema_topics
from narrate2report.publish.schema_pages import Schema, form_of, schema_page
from narrate2report.records.schema import PUBLISHED, published, schema_of


def parts_of(schema: Schema) -> dict[str, Schema]:
    return {schema["title"]: schema, **schema.get("$defs", {})}


def test_every_schema_has_a_page() -> None:
    assert set(schema_topics().values()) == set(PUBLISHED)


@pytest.mark.parametrize("name", PUBLISHED)
def test_every_field_stands_in_the_section_of_its_kind(name: str) -> None:
    schema = schema_of(name)  # from the records themselves
    sections = dict(part.split("\n", 1) for part in schema_page(published(name)).split("\n## ")[1:])
    assert set(sections) == set(parts_of(schema))
    for kind, part in parts_of(schema).items():
        rows = [line for line in sections[kind].splitlines() if line.startswith("| `")]
        assert [row.split("`")[1] for row in rows] == list(part.get("properties", {}))
        for row, field in zip(rows, part.get("properties", {}).values(), strict=True):
            assert " ".join(field.get("description", "").split()).replace("|", "\\|") in row
            for value in field.get("enum", []):
                assert f"`{value}`" in row


@pytest.mark.parametrize(
    ("part", "words"),
    [
        ({"type": "string"}, "text"),
        ({"const": "a/1"}, "`a/1`"),
        ({"enum": ["a", "b"]}, "`a`, `b`"),
        ({"$ref": "#/$defs/Size"}, "Size"),
        ({"anyOf": [{"$ref": "#/$defs/Size"}, {"type": "null"}]}, "Size or null"),
        ({"type": "array", "items": {"type": "integer"}, "minItems": 1}, "list of whole number, at least 1"),
        ({"type": "number", "minimum": 0, "maximum": 1}, "number, at least 0, at most 1"),
        ({"type": "string", "pattern": "^a$"}, "text, as `^a$`"),
        ({"type": "object", "additionalProperties": {"type": "boolean"}}, "object of names, each with true or false"),
    ],
)
def test_a_form_is_told_in_words(part: Schema, words: str) -> None:
    assert form_of(part) == words


@pytest.mark.parametrize("topic", ["schemas", *schema_topics()])
def test_a_page_can_be_printed(topic: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["guide", topic]) == 0
    assert "narrate2report:" in capsys.readouterr().out


def test_the_list_of_guides_names_the_pages(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["guide"]) == 0
    assert "\nschemas " in capsys.readouterr().out
    assert main(["guide", "schemas"]) == 0
    listed = capsys.readouterr().out
    assert [topic for topic in schema_topics() if topic not in listed] == []
