"""`guide [TOPIC]`: the guides that come with the program, and its JSON Schemas as pages."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from rich.console import Console
from rich.markdown import Markdown

from narrate2report.errors import BadInput
from narrate2report.shipped import shipped

SCHEMAS = "schemas"
_ENDING = ".schema.json"


def topics() -> dict[str, Path]:
    """Each guide with its file, by name."""
    return {path.stem: path for path in sorted(shipped("guide").glob("*.md"))}


def schema_topics() -> dict[str, str]:
    """The topic of each JSON Schema with the name of its file: `schema-findings`."""
    names = sorted(path.name for path in shipped("schema").glob(f"*{_ENDING}"))
    return {f"schema-{name.removesuffix(_ENDING)}": name for name in names}


def guide(topic: str | None) -> None:
    """Print a guide, or the list of topics with their titles. Raises BadInput for an unknown topic."""
    console = Console(highlight=False, markup=False)
    if topic is None:
        for name, title in _titles():
            console.print(f"{name:12} {title}")
        return
    console.print(Markdown(_text(topic)))


def _text(topic: str) -> str:
    if topic in topics():
        return topics()[topic].read_text(encoding="utf-8")
    if topic == SCHEMAS:
        return _schema_list()
    if topic in schema_topics():
        from narrate2report.publish.schema_pages import schema_page
        from narrate2report.records.schema import published

        return schema_page(published(schema_topics()[topic]))
    raise BadInput(f"no guide on {topic!r}; there are: {', '.join(name for name, _ in _titles())}")


def _schema_list() -> str:
    """The kinds of files with their topics and what they hold."""
    from narrate2report.records.schema import published

    rows = ["| guide | schema | what it describes |", "| --- | --- | --- |"]
    for topic, name in schema_topics().items():
        schema = published(name)
        rows.append(f"| `{topic}` | `{schema['$id']}` | {' '.join(schema.get('description', '').split())} |")
    told = "Every file of a walk follows one of these JSON Schemas (2020-12), which lie in the package beside its code."
    return "\n".join(["# The files, field by field", "", told, "", *rows])


def _titles() -> Iterator[tuple[str, str]]:
    for name, path in topics().items():
        yield name, path.read_text(encoding="utf-8").partition("\n")[0].lstrip("# ")
    yield SCHEMAS, "The files, field by field: JSON Schemas as pages"
