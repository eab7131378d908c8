"""A unit as the text of a unit file: what is known, in the order in which one reads it, with a word on each part."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import yaml

from narrate2report.records.unit import Unit

HEAD = """\
# A unit file of narrate2report. What each line means: narrate2report guide settling
# Days are written 2026-05-07, sums 480.00 in the one currency named below.
"""
NOTES = {
    "dates": "The law counts from some of these days: fill in what is known, leave out what is not.",
    "deposit": "What is held. Interest, where it is due: amount or rate_percent and since, with the basis.",
    "sums": "Rent and other sums that you answer for, each with its basis.",
    "components": "How old each thing is, how long it lasts and what putting it right costs, with the receipts.",
    "rooms": "Which rooms and components a walk is expected to speak of.",
}


class _Plain(yaml.SafeDumper):
    """Sums are written as they are typed: `480.00`."""

    def increase_indent(self, flow: bool = False, indentless: bool = False) -> None:  # noqa: ARG002
        """Lists stand further in than the name above them."""
        super().increase_indent(flow, False)


def _sum(dumper: yaml.SafeDumper, amount: Decimal) -> yaml.ScalarNode:
    return dumper.represent_scalar("tag:yaml.org,2002:float", f"{amount:f}")


_Plain.add_representer(Decimal, _sum)


def unit_text(unit: Unit) -> str:
    """The unit file, read back as the same unit; what is not known or stands at its default is left out."""
    facts: dict[str, Any] = unit.model_dump(exclude_none=True, exclude_defaults=True)
    parts = [HEAD]
    for name, value in facts.items():
        note = f"\n# {NOTES[name]}\n" if name in NOTES else ""
        parts.append(note + yaml.dump({name: value}, Dumper=_Plain, sort_keys=False, allow_unicode=True, width=110))
    return "".join(parts)
