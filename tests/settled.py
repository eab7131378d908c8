"""A deposit settled between two small records made by hand, as it lies on disk, and told to a reader."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from narrate2report.commands.settle import WantedSettlement, settle_deposit
from narrate2report.publish.report_links import Links
from narrate2report.publish.statement_evidence import Pair, Walked
from narrate2report.publish.statement_values import Reader, Statement
from narrate2report.publish.statement_whole import Files, statement_of
from narrate2report.records.base import Value
from narrate2report.records.comparison import Comparison
from narrate2report.records.files import read_record
from narrate2report.records.findings import Findings
from narrate2report.records.settlement import Settlement
from tests.drafted import SAMPLES
from tests.publish.injected import put, texts
from tests.settle import hand_made

TODAY = date(2026, 5, 20)
HASH = "c" * 64
CLIP = "walk.mp4"


class Settled:
    """A settlement with its comparison and records. `with_fields` gives the same with other facts."""

    def __init__(self, settlement: Settlement, comparison: Comparison, before: Findings, after: Findings) -> None:
        self.settlement, self.comparison, self.before, self.after = settlement, comparison, before, after
        self.missing: dict[str, str] = {}

    def with_fields(self, **fields: Any) -> Settled:
        made = self.settlement.model_copy(update=fields)
        return Settled(made, self.comparison, self.before, self.after)

    def told(self, reader: Reader = "resident", *, compared: bool = True) -> Statement:
        """The statement, the comparison lying beside the settlement or not."""
        names = self.settlement.comparison
        before = Walked(names.before, self.before, HASH, Links({CLIP: "in.mp4"}), self.missing)
        after = Walked(names.after, self.after, HASH, Links({CLIP: "out.mp4"}), self.missing)
        changes = self.comparison.changes if compared else ()
        files = Files("flat", "flat.json", HASH, HASH if compared else None, changes)
        return statement_of(self.settlement, Pair(before, after, reader), files)


def on_disk(folder: Path, pair: hand_made.Pair | None = None) -> Path:
    """The settlement file of a pair, with the comparison and both records beside it."""
    changes = (pair or hand_made.sample()).written(folder)
    out = folder / "flat.settlement.json"
    settle_deposit(WantedSettlement(changes, SAMPLES / "unit.yaml", out, today=TODAY, quiet=True))
    return out


def settled(folder: Path, pair: hand_made.Pair | None = None) -> Settled:
    """The same as values."""
    made = read_record(on_disk(folder, pair), Settlement)
    before, after = (read_record(folder / name, Findings) for name in (hand_made.BEFORE, hand_made.AFTER))
    return Settled(made, read_record(folder / "changes.json", Comparison), before, after)


KEPT = frozenset({"schema", "before", "after", "change", "changes", "currency", "code"})
"""Fields whose texts are names of other things, by which these are found."""


def injected(made: Settled, text: str) -> tuple[Settled, int]:
    """The same with the text in every field of the settlement and its records that can hold it, and how many do."""
    altered, fields = _filled(made.settlement, text)
    changed = made.with_fields()
    changed.settlement = altered
    for side in ("before", "after"):
        record, more = _filled(getattr(made, side), text, frozenset({"id"}))
        setattr(changed, side, record)
        fields += more
    comparison = made.comparison.model_dump(mode="json", by_alias=True)
    for change in comparison["changes"]:
        change["because"] = [text]
    changed.comparison = Comparison.model_validate(comparison)
    return changed, fields


def _filled(record: Value, text: str, kept: frozenset[str] = frozenset()) -> tuple[Any, int]:
    whole = record.model_dump(mode="json", by_alias=True)
    places = [place for place in texts(whole, blank=True) if not {*place} & (KEPT | kept)]
    fields = 0
    for place in places:
        before = put(whole, place, text)
        try:
            type(record).model_validate(whole)
            fields += 1
        except ValidationError:
            put(whole, place, before)
    return type(record).model_validate(whole), fields
