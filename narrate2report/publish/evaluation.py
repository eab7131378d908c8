"""How well walks were read, as a table: found, missed, not there, and shares with their 95 % intervals."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from narrate2report.records.evaluation import Evaluation, Share
from narrate2report.records.moments import clock

_LEGEND = (
    "right: of what was read, how much is so (precision). read: of what was said, how much was read (recall).\n"
    "In brackets 95 % intervals, each entry taken for itself; those of one sentence go wrong together, so read them "
    "as a little wider."
)


def evaluation_page(told: Evaluation, with_errors: bool = False) -> RenderableType:
    """The rates by kind, then those that matter most, then each error where asked for."""
    table = Table(box=None, pad_edge=False, header_style="bold")
    table.add_column("")
    for heading in ("found", "missed", "not there", "right", "read", "F1"):
        table.add_column(heading, justify="right", no_wrap=True)
    for rates in (*told.kinds, told.observations):
        counts = [str(count) for count in (rates.found, rates.missed, rates.extra)]
        shares = [_share(rates.precision), _share(rates.recall), "" if rates.f1 is None else f"{rates.f1:.3f}"]
        table.add_row(rates.of.replace("_", " "), *counts, *shares, style="bold" if rates is told.observations else "")
    return Group(
        table,
        Text(),
        Text(f"Flaws and failed checks that were read: {_share(told.adverse_recall)}"),
        Text(f"Flaws drafted where none was told: {told.false_alarms} in {told.lines} lines"),
        Text(_LEGEND, style="dim"),
        Text("\n".join(_errors(told)) if with_errors else ""),
    )


def _errors(told: Evaluation) -> Iterator[str]:
    for file, wrong in groupby(told.wrong, key=lambda one: one.file):
        yield f"\n{file}"
        yield from (f"  {clock(one.start):>8}  {one.what:<9}  {one.told}" for one in wrong)


def _share(share: Share) -> str:
    if share.value is None:
        return "nothing to tell"
    return f"{share.value:.0%} ({100 * (share.low or 0):.0f}–{100 * (share.high or 0):.0f})"
