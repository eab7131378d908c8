"""Names of vocabulary ids in one language, as `vocab/labels_en.yaml` holds them."""

from __future__ import annotations

from typing import Final

from narrate2report.records.base import Value

LANGUAGES: Final = ("en", "es")
"""Languages (BCP 47) in which a report can be printed."""


class Labels(Value):
    """How each id is called inside a sentence; an id that is missing is called by itself, in plain words."""

    rooms: dict[str, str] = {}
    suffixes: dict[str, str] = {}
    components: dict[str, str] = {}
    conditions: dict[str, str] = {}
    actions: dict[str, str] = {}
