"""A JSON Schema as a page for people: each kind of value in it with its fields, their form and what they mean.

Made from the schema each time it is asked for, so that it cannot fall behind.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

Schema = dict[str, Any]

_DEFINED = "#/$defs/"
_BOUNDS = (("minimum", "at least"), ("exclusiveMinimum", "more than"), ("maximum", "at most"))
_TYPES = {
    "string": "text",
    "number": "number",
    "integer": "whole number",
    "boolean": "true or false",
    "null": "null",
    "object": "object",
    "array": "list",
}


def schema_page(schema: Schema) -> str:
    """The page in Markdown: the whole file first, then every kind of value in the order in which it is met."""
    parts = [f"# {schema['title']}: `{schema['$id']}`", f"JSON Schema {schema['$schema']}"]
    for name, part in _in_order(schema):
        parts += [f"## {name}", *_told(part)]
    return "\n\n".join(parts) + "\n"


def form_of(part: Schema) -> str:
    """The form of a field in words: `list of Evidence, at least 1`, `text or null`."""
    if "$ref" in part:
        return str(part["$ref"]).removeprefix(_DEFINED)
    if "const" in part:
        return f"`{part['const']}`"
    if "enum" in part:
        return ", ".join(f"`{value}`" for value in part["enum"])
    for several in ("anyOf", "oneOf"):
        if several in part:
            return " or ".join(dict.fromkeys(map(form_of, part[several])))
    if part.get("type") == "array":
        least = f", at least {part['minItems']}" if "minItems" in part else ""
        return f"list of {form_of(part['items'])}{least}" if "items" in part else "list"
    if isinstance(part.get("additionalProperties"), dict):
        return f"object of names, each with {form_of(part['additionalProperties'])}"
    return ", ".join([_TYPES.get(part.get("type", ""), "anything"), *_limits(part)])


def _limits(part: Schema) -> Iterator[str]:
    for name, words in _BOUNDS:
        if name in part:
            yield f"{words} {part[name]:g}"
    if "pattern" in part:
        yield f"as `{part['pattern']}`"
    if "format" in part:
        yield str(part["format"])


def _told(part: Schema) -> Iterator[str]:
    if "description" in part:
        yield " ".join(str(part["description"]).split())
    if "properties" not in part:
        yield form_of(part)
        return
    rows = ["| field | form | meaning |", "| --- | --- | --- |"]
    needed = part.get("required", [])
    for name, field in part["properties"].items():
        may_miss = "" if name in needed else " (may be missing)"
        meaning = " ".join(str(field.get("description", "")).split())
        rows.append("| " + " | ".join(map(_cell, (f"`{name}`", form_of(field) + may_miss, meaning))) + " |")
    yield "\n".join(rows)


def _in_order(schema: Schema) -> Iterator[tuple[str, Schema]]:
    """The whole, then each definition after the one that first names it."""
    defined: dict[str, Schema] = schema.get("$defs", {})
    yield schema["title"], schema
    waiting, met = list(_named({key: value for key, value in schema.items() if key != "$defs"})), set[str]()
    while waiting:
        name = waiting.pop(0)
        if name not in met:
            met.add(name)
            yield name, defined[name]
            waiting += _named(defined[name])


def _named(part: object) -> Iterator[str]:
    """The definitions that a part of a schema names, in order."""
    if isinstance(part, dict):
        if isinstance(part.get("$ref"), str):
            yield part["$ref"].removeprefix(_DEFINED)
        for value in part.values():
            yield from _named(value)
    elif isinstance(part, list):
        for value in part:
            yield from _named(value)


def _cell(words: str) -> str:
    return words.replace("|", "\\|")
