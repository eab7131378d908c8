"""What the review of a comparison in the terminal prints: the change at hand with both quotes, lists, the keys."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import partial

from rich.console import Group, RenderableType
from rich.text import Text

from narrate2report.commands.terminal_pages import rows
from narrate2report.publish.detail import address_of, named_rows, open_at
from narrate2report.records.comparison import SIDES, TO_JUDGE, Comparison, FlawChange, Side
from narrate2report.records.findings import Entry
from narrate2report.records.moments import clock
from narrate2report.review.guidance import Guidance, definitions, guidance_for, published
from narrate2report.review.judging import tally
from narrate2report.review.judging_desk import JudgingDesk
from narrate2report.review.judging_view import MEANS, called, components_of, heads, warning
from narrate2report.review.pairable import flaws_of
from narrate2report.wording import BECAME, VERDICTS, counted, named, room_name

KEYS = (
    ("n", "next change that is to confirm or to judge"),
    ("j  k", "next change, change before; a change's id goes to that change"),
    ("a", "agree: paired rightly, and that became of it"),
    ("A", "agree to all of this room that need no judgement: listed first"),
    ("e [OUTCOME]", "correct what became of it, such as: e worse"),
    ("1 2 3 [WHY]", "judge: ordinary wear, beyond ordinary wear, the owner's matter; that agrees to it as well"),
    ("0 [WHY]", "leave the judgement open"),
    ("g", "what was published about this, with its sources, and how laws word it"),
    ("t [NUMBER [OUTCOME]]", "pair it with another entry: lists them; with a number, takes that one"),
    ("m CHANGE [OUTCOME]", "join another change to this one"),
    ("s [NUMBERS]", "split: move-in apart from move-out; or these of its entries into a change of their own"),
    ("o", "decide it again"),
    ("l", "list what is left"),
    ("u  r", "undo, redo"),
    ("?", "this list"),
    ("q", "leave; everything that was decided is kept"),
)
_NAME_WIDTH = 9
_pairs = partial(named_rows, width=_NAME_WIDTH)


def keys() -> RenderableType:
    """What can be answered."""
    return rows((key, what) for key, what in KEYS)


def left(comparison: Comparison) -> str:
    """How much there is still to decide."""
    open_ones = tally(comparison)
    every = counted(len(comparison.changes), "change")
    told = [f"{open_ones.to_confirm} of {every} to confirm" if open_ones.to_confirm else "every change is confirmed"]
    told.append(f"{open_ones.to_judge} to judge" if open_ones.to_judge else "none to judge")
    return ", ".join([*told, *([f"{open_ones.left_open} left open"] if open_ones.left_open else [])])


def warnings(desk: JudgingDesk) -> Iterator[str]:
    """What a reader must know of the two records before relying on them."""
    for side, compared in heads(desk.comparison).items():
        if told := warning(compared, desk.records[side]):
            yield f"{called(compared)} ({compared.stands_in}) {told}."


def change_page(change: FlawChange, desk: JudgingDesk, places: Mapping[Side, Mapping[str, str]]) -> RenderableType:
    """The change at hand; `places` holds the addresses of each record's recordings that are at hand."""
    position = [one.id for one in desk.comparison.changes].index(change.id) + 1
    head = Text(f"\n{position} of {len(desk.comparison.changes)} ({change.id}), {state(change)}", style="dim")
    flaws = flaws_of(change, desk.records, desk.standing)
    bold = Text(f"{room_name(flaws[0].room)} · {components_of(flaws)} · {BECAME[change.outcome]}", style="bold")
    parts: list[RenderableType] = [head, bold, Text(MEANS[change.outcome], style="italic")]
    for side in SIDES:
        parts += _side(change, side, desk, places)
    parts.append(_pairs(*(("" if number else "because", why) for number, why in enumerate(change.because))))
    fitting, _ = guidance_for(*flaws)
    told_of = [told(published()[row]) for row in fitting] or ["nothing on this; g shows what there is otherwise"]
    parts.append(_pairs(*(("" if number else "published", words) for number, words in enumerate(told_of))))
    return Group(*parts)


def state(change: FlawChange) -> str:
    """`agreed to by Ida Pell; beyond ordinary wear (twice as long) says Ida Pell`."""
    agreed = f"agreed to by {change.decided.by}" if change.decided else "to confirm"
    judged = change.judgement
    if judged is None:
        return agreed + (", to judge" if change.outcome in TO_JUDGE else "")
    why = f" ({judged.why})" if judged.why else ""
    return f"{agreed}; {VERDICTS[judged.verdict]}{why} says {judged.by}"


def told(row: Guidance) -> str:
    """A row of the published guidance, with its source and how well that is verified."""
    examples = [("ordinary wear", row.ordinary_wear_example), ("damage", row.damage_example)]
    words = "; ".join(f"{name}: {text}" for name, text in examples if text)
    more = f"; note: {row.note}" if row.note else ""
    return (
        f"{row.component}: {words} [{row.source}; checked against: {row.verified}; confidence {row.confidence}{more}]"
    )


def guidance_page(entries: Sequence[Entry]) -> RenderableType:
    """All that was published about these components, and how laws word it."""
    fitting, others = guidance_for(*entries)
    lead = "Published lists, to compare with. They are no law, and decide nothing; your local law and its courts do."
    laws = "How laws word ordinary wear, as read at the source named. Check the current statute; no legal advice."
    return Group(
        Text(lead, style="italic"),
        *(Text(f"- {told(published()[row])}") for row in (*fitting, *others)),
        Text(laws, style="italic"),
        *(Text(f"- {_law(row)}") for row in definitions()),
    )


def change_list(changes: Iterable[FlawChange], desk: JudgingDesk) -> RenderableType:
    """Changes one a line: id, what, state."""
    here = desk.standing

    def what(one: FlawChange) -> str:
        return "; ".join(named(entry) for entry in flaws_of(one, desk.records, here))

    return rows((one.id, f"{BECAME[one.outcome]}: {what(one)}", state(one)) for one in changes)


def entry_list(entries: Mapping[int, tuple[Side, Entry]], desk: JudgingDesk) -> RenderableType:
    """Entries of both records by number: of which record, what, its words."""
    of = {side: called(compared) for side, compared in heads(desk.comparison).items()}
    return rows(
        (str(number), f"{of[side]} {clock(entry.evidence[0].start)}", named(entry), f"“{entry.evidence[0].quote}”")
        for number, (side, entry) in entries.items()
    )


def _law(row: Guidance) -> str:
    note = f" {row.note}" if row.note else ""
    place = "where they differ" if row.kind == "conflict" else row.component
    return f"{place}: {row.ordinary_wear_example} [{row.source}; checked against: {row.verified}]{note}"


def _side(
    change: FlawChange, side: Side, desk: JudgingDesk, places: Mapping[Side, Mapping[str, str]]
) -> Iterator[RenderableType]:
    name, record = called(heads(desk.comparison)[side]), desk.records[side]
    which = "earlier" if side == "before" else "later"
    if not change.of(side):
        yield _pairs((which, f"{name}: nothing stands here"))
    for number, entry_id in enumerate(change.of(side)):
        entry = record.entries[entry_id]
        piece = entry.evidence[0]
        yield _pairs(
            ("" if number else which, f"{name}: {named(entry)}"),
            ("", f"“{piece.quote}”"),
            ("", open_at(piece, record.findings)),
            *(("", f"picture {still.file}") for still in entry.stills),
        )
        link = address_of(piece, places[side])
        yield Text(" " * (_NAME_WIDTH + 2) + link, no_wrap=True, overflow="ignore")
