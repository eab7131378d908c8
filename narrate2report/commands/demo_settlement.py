"""The second half of the demo: the sample flat walked again, compared, judged, settled and put on paper.

The program decides nothing, here neither: what is judged was judged by an invented manager, in samples/judged.yaml.
"""

from __future__ import annotations

from collections import Counter
from datetime import date
from pathlib import Path
from typing import Any

from rich.console import Console

from narrate2report.commands.compare import WantedComparison, compare
from narrate2report.commands.draft import Wanted, draft
from narrate2report.commands.settle import WantedSettlement, settle_deposit
from narrate2report.commands.statement import WantedStatement, statement
from narrate2report.commands.typed import command
from narrate2report.errors import BadInput
from narrate2report.publish.settlement_summary import PROVISIONAL, sums
from narrate2report.records.compared import read_comparison
from narrate2report.records.comparison import FlawChange
from narrate2report.records.findings import Entry
from narrate2report.records.yaml_lines import FileKind, LinedYaml
from narrate2report.review.judging_desk import JudgingDesk
from narrate2report.review.judging_requests import Confirm, Judge
from narrate2report.wording import plain

TODAY = date(2026, 5, 20)
"""The day on which the sample deposit is settled: thirteen days after its keys came back."""

JUDGED = FileKind("judged sample", BadInput, "install narrate2report again")


def settle_sample(folder: Path, console: Console) -> tuple[tuple[Path, str], ...]:
    """From the second film to the statement, in the sample's folder. Gives the files made, each with what it is."""
    before, after = folder / "move-in.findings.json", folder / "move-out.findings.json"
    changes, settlement = folder / "changes.json", folder / "flat.settlement.json"
    film, unit = folder / "move-out.mp4", folder / "unit.yaml"

    _step(console, "Fourteen months later it is walked again.", command("draft", film, "--out", after))
    second = draft(Wanted(inputs=(film,), out=after, quiet=True))
    console.print(f"{len(second.entries)} entries.")

    _step(console, "What became of each flaw?", command("compare", before, after, "--out", changes))
    if changes.exists():
        console.print("It was compared and judged in this folder before, which stands.")
    else:
        compare(WantedComparison(before, after, changes, quiet=True))
        _judge(changes, folder / "judged.yaml")
    judged = read_comparison(changes)
    counts = Counter(change.outcome for change in judged.changes)
    console.print(", ".join(f"{count} {plain(outcome)}" for outcome, count in counts.most_common()) + ".")

    who = sorted({change.judgement.by for change in judged.changes if change.judgement})
    _step(console, f"A person judges each change: here {', '.join(who)}, who is invented.", command("review", changes))

    _step(console, "What does that come to?", command("settle", changes, "--unit", unit, "--out", settlement))
    settled = settle_deposit(WantedSettlement(changes, unit, settlement, today=TODAY, quiet=True))
    for line in sums(settled):
        console.print(line, soft_wrap=True)
    if settled.provisional:
        console.print(PROVISIONAL, soft_wrap=True)
        for reason in settled.provisional_because:
            console.print(reason, soft_wrap=True)
    console.print(settled.cautions[0], soft_wrap=True)
    papers = statement(WantedStatement(settlement, folder, quiet=True))
    return (
        (changes, "what became of each flaw, and what was judged"),
        (settlement, "the deposit, line by line"),
        *((paper, "the statement for the resident" if paper.suffix != ".txt" else "a letter") for paper in papers),
    )


def _step(console: Console, told: str, typed: str) -> None:
    console.print(f"\n{told}", style="bold")
    console.print(f"$ {typed}", soft_wrap=True)


def _judge(changes: Path, judged: Path) -> None:
    """Take the decisions of the sample's manager, as a review would; what he says nothing of is confirmed."""
    told: dict[str, Any] = LinedYaml(judged, JUDGED).data
    desk = JudgingDesk(changes)
    for change in desk.comparison.changes:
        fields = _fields(change, desk)
        rule = next((rule for rule in told["judged"] if _is_of(rule, fields)), None)
        wanted = Judge(changes=(change.id,), verdict=rule["verdict"], why=rule["why"]) if rule else None
        desk.decide(wanted or Confirm(changes=(change.id,)), told["by"], len(desk.lines))
    desk.put_down()


def _fields(change: FlawChange, desk: JudgingDesk) -> dict[str, str | None]:
    side, names = ("after", change.after) if change.after else ("before", change.before)
    entry: Entry = desk.records[side].entries[names[0]]  # type: ignore[index] # one of the two sides
    told = {"room": entry.room, "component": entry.component, "condition": entry.condition, "outcome": change.outcome}
    return told if change.outcome in {"new", "worse", "no_baseline"} else {}


def _is_of(rule: dict[str, str], fields: dict[str, str | None]) -> bool:
    asked = {name: value for name, value in rule.items() if name in ("room", "component", "condition", "outcome")}
    if "outcome" not in asked and fields.get("outcome") == "no_baseline":
        return False
    return bool(fields) and all(fields[name] == value for name, value in asked.items())
