"""Short walks set beside each other, as tests read them."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from typing import Any

from narrate2report.commands.known_terms import terms_of
from narrate2report.compare.comparing import compare
from narrate2report.compare.terms import Terms
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.records.comparison import Compared, Comparison
from narrate2report.records.contract_form import completed
from narrate2report.records.files import parse_record
from narrate2report.records.findings import Findings
from tests.compare.pair_files import walk_of


@cache
def terms() -> Terms:
    """The built-in words as comparing needs them."""
    return terms_of(load_vocabulary())


def walk(content: Mapping[str, Any]) -> Findings:
    """A record from the contract's plain form."""
    return parse_record(json.dumps(completed(content)), Findings)


def compared(before: Findings, after: Findings, rooms: Mapping[str, str] | None = None) -> Comparison:
    return compare(
        (Compared(file="in.findings.json"), before), (Compared(file="out.findings.json"), after), rooms or {}, terms()
    )


def told(before: str, after: str, rooms: Mapping[str, str] | None = None) -> Comparison:
    """What became of the flaws of two walks, each in the lines of `pair_files`."""
    return compared(walk(walk_of("Unit 1", "move_in 2020-01-01", before, "in.mp4")), _later(after), rooms)


def _later(lines: str) -> Findings:
    return walk(walk_of("Unit 1", "move_out 2021-01-01", lines, "out.mp4"))


def became(before: str, after: str, rooms: Mapping[str, str] | None = None) -> list[str]:
    """`worse 2>1`: each outcome with the numbers of its entries, sorted."""
    return sorted(
        f"{change.outcome} {_numbers(change.before)}>{_numbers(change.after)}"
        for change in told(before, after, rooms).changes
    )


def _numbers(ids: tuple[str, ...]) -> str:
    return "+".join(one.removeprefix("f-").lstrip("0") for one in ids)
