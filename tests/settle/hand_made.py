"""A comparison with both of its records, made by hand: what a person has judged between two walks of one unit."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from narrate2report.records.comparison import Comparison
from narrate2report.records.files import write_record
from narrate2report.records.findings import Entry, Findings
from tests.publish import walk

BEFORE, AFTER = "in.findings.json", "out.findings.json"
BEYOND = "beyond_ordinary_wear"
DECIDED = {"state": "accepted", "decided": {"by": "Ida Pell", "at": "2026-05-09T09:00:00.000Z"}}


def judged(verdict: str = BEYOND, why: str | None = None) -> dict[str, Any]:
    return {"verdict": verdict, "by": "Ida Pell", "at": "2026-05-10T09:00:00.000Z", "why": why}


class Pair:
    """Two records and the comparison of them, grown one change at a time."""

    def __init__(self) -> None:
        self.before: list[Entry] = []
        self.after: list[Entry] = []
        self.changes: list[dict[str, Any]] = []
        self.parts: dict[str, Any] = {}

    def change(
        self,
        outcome: str = "new",
        room: str = "kitchen",
        component: str = "countertop",
        condition: str = "burn",
        judgement: dict[str, Any] | None = None,
        confirmed: bool = True,
        fields: dict[str, Any] | None = None,
        **more: Any,
    ) -> str:
        """Add a change with its entries; a judgement of None is one that nobody has made. Gives the change's id."""
        number = len(self.changes) + 1
        told = {"room": room, "component": component, "condition": condition} | DECIDED | more | (fields or {})
        ids: dict[str, tuple[str, ...]] = {"before": (), "after": ()}
        if outcome not in {"new", "no_baseline"}:
            ids["before"] = (f"b{number}",)
            self.before.append(walk.entry(id=f"b{number}", **told))
        if outcome not in {"gone", "not_mentioned"}:
            ids["after"] = (f"a{number}",)
            self.after.append(walk.entry(id=f"a{number}", **told))
        name = f"c{number}"
        made = {"id": name, "outcome": outcome, "because": ("made by hand",), "confirmed": confirmed, **ids}
        self.changes.append(made | {"judgement": judgement})
        return name

    def comparison(self) -> Comparison:
        whole: dict[str, Any] = {
            "before": {"file": BEFORE, "unit": "2B", "kind": "move_in", "date": "2025-03-06"},
            "after": {"file": AFTER, "unit": "2B", "kind": "move_out", "date": "2026-05-07"},
            "changes": self.changes,
        }
        return Comparison.model_validate(whole | self.parts)

    def records(self) -> tuple[Findings, Findings]:
        return walk.findings(*self.before), walk.findings(*self.after)

    def written(self, folder: Path) -> Path:
        """The comparison's file, with both records beside it."""
        before, after = self.records()
        write_record(folder / BEFORE, before)
        write_record(folder / AFTER, after)
        write_record(folder / "changes.json", self.comparison())
        return folder / "changes.json"


def sample() -> Pair:
    """What was judged between the two sample walks."""
    pair = Pair()
    pair.change("unchanged", "entry", "baseboard", "scuff")
    pair.change("new", "entry", "door", "dent", judged(), where="down low")
    pair.change("new", "living_room", "wall", "nail_hole", judged("ordinary_wear", "small holes"), quantity=6)
    pair.change("new", "living_room", "floor", "gouge", judged(), severity="severe")
    pair.change("worse", "kitchen", "countertop", "chip", judged())
    pair.change("new", "kitchen", "countertop", "burn", judged())
    pair.change("new", "kitchen", "oven", "grease", judged())
    pair.change("no_baseline", "kitchen", "hood_filter", "dirty", judged())
    pair.change("new", "bathroom", "bathtub", "chip", judged())
    pair.change("new", "bathroom", "grout", "mold", judged("owners_matter"))
    pair.change("worse", "bedroom", "blinds", "broken", judged(), quantity=4)
    pair.change("new", "bedroom", "carpet", "stain", judged(), where="by the window")
    pair.change("new", "exterior", "fob", "missing", judged())
    pair.change("gone", "living_room", "window_screen", "tear")
    return pair
