"""What became of a flaw, and why, in words for a property manager and a resident: one group to one change."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from narrate2report.compare import amounts
from narrate2report.compare.alike import told
from narrate2report.compare.flaws import Flaw
from narrate2report.compare.gathering import Group
from narrate2report.compare.scope import Scope
from narrate2report.compare.spoken_of import Baseline, Record
from narrate2report.records.comparison import Became, FlawChange
from narrate2report.records.findings import Entry
from narrate2report.wording import plain, room_name

_WAYS: dict[int, Became] = {1: "worse", 0: "unchanged", -1: "better"}
_SHOWN = 2
"""So many entries are quoted as what the other record said; the rest is counted."""
_UNPROVEN = "So these records do not prove when this came about, and on them alone it is not chargeable."


@dataclass(frozen=True)
class Outcomes:
    """What judges a group: both records as they are asked about components, and the rooms brought together."""

    before: Record
    after: Record
    scope: Scope

    def change(self, group: Group) -> FlawChange:
        """What became of one flaw."""
        before = tuple(one for flaw in group.before for one in flaw.ids)
        after = tuple(one for flaw in group.after for one in flaw.ids)
        outcome, because = self._judged(group)
        side, first = ("before", before) if before else ("after", after)
        return FlawChange(id=f"{side}-{first[0]}", outcome=outcome, before=before, after=after, because=tuple(because))

    def _judged(self, group: Group) -> tuple[Became, Iterator[str]]:
        if group.likeness is not None:
            signs = amounts.signs(group.before, group.after, group.likeness.tie, self.scope.terms)
            return _WAYS[amounts.way(signs)], self._paired(group, signs)
        if group.before:
            flaw = group.before[0]
            found = self.after.baseline(
                flaw, self.scope.keys_before(flaw.entry), lambda entry: bool(self.scope.grade(flaw.entry, entry))
            )
            return ("gone" if found.how == "spoken of" else "not_mentioned"), self._left(flaw, found)
        flaw = group.after[0]
        found = self.before.baseline(
            flaw, self.scope.keys_after(flaw.entry), lambda entry: bool(self.scope.grade(entry, flaw.entry))
        )
        return ("new" if found.how == "spoken of" else "no_baseline"), self._came(flaw, found)

    def _paired(self, group: Group, signs: Sequence[amounts.Sign]) -> Iterator[str]:
        assert group.likeness is not None
        before, after = group.before[0], group.after[0]
        yield from told(before, after, group.likeness)
        yield from (sign.why for sign in signs)
        if not any(sign.way for sign in signs):
            yield "Nothing in either record says that it is plainly more or less than it was."
        if before.entry.assertion == "possible" and after.entry.assertion != "possible":
            yield "The earlier speaker was not certain of it, the later one is: that alone makes it no worse."
        elif after.entry.assertion == "possible" and before.entry.assertion != "possible":
            yield "The later speaker is not certain of it, the earlier one was."
        if len(group.before) > 1 or len(group.after) > 1:
            yield "Several entries tell of it: they are one statement, or the other record told of the whole component."
        if before.entry.room != after.entry.room:
            yield f"{room_name(before.entry.room)} then and {room_name(after.entry.room)} now are taken as one room."
        yield f"Likeness {min(group.likeness.grade, 1.0):.2f} of 1."

    def _left(self, flaw: Flaw, found: Baseline) -> Iterator[str]:
        """Why a flaw of the earlier record is gone, or not spoken of."""
        name = plain(flaw.entry.component)
        if found.how == "spoken of":
            yield f"The later record speaks of the {name} here, and this flaw is not there: {_quoted(found.entries)}"
        elif found.how == "not tested":
            yield f"The later record says that the {name} was not tested: {_quoted(found.entries)} That tells nothing."
        elif flaw.entry.room not in self.scope.rooms:
            yield "No room of the later record is taken to be this one, so it does not tell what became of this."
        else:
            yield f"The later record does not speak of the {name} here, so it does not tell what became of this."
            yield from _less(found, name)

    def _came(self, flaw: Flaw, found: Baseline) -> Iterator[str]:
        """Why a flaw of the later record is new, or without a baseline."""
        name = plain(flaw.entry.component)
        if found.how == "spoken of":
            yield f"The earlier record speaks of the {name} here without this flaw: {_quoted(found.entries)}"
            if found.is_only_use and self.scope.terms.is_of_state(flaw.kind):
                yield _only_use(found, name)
        elif found.how == "not tested":
            yield f"The earlier record says that the {name} was not tested: {_quoted(found.entries)}"
            yield _UNPROVEN
        else:
            if flaw.entry.room in self.scope.rooms.values():
                yield f"The earlier record does not speak of the {name} here."
            else:
                yield "No room of the earlier record is taken to be this one."
            yield from _less(found, name)
            yield _UNPROVEN
        if any(entry.pre_existing for entry in flaw.entries):
            yield from _contradicted(found)


def _contradicted(found: Baseline) -> Iterator[str]:
    if found.how == "spoken of":
        yield "The later speaker says that it was there before, which the earlier record does not show: look at both."
    else:
        yield "The later speaker says that it was there before; the earlier record neither shows nor excludes it."


def _only_use(found: Baseline, name: str) -> str:
    checked, handed = (any(entry.kind == kind for entry in found.entries) for kind in ("check", "handover"))
    used = ("was tried and handed over" if handed else "works") if checked else "was handed over"
    return (
        f"The earlier record only says that the {name} {used}, and nothing of the state it was in: whether that is "
        "enough to call this new is for a person to say."
    )


def _less(found: Baseline, name: str) -> Iterator[str]:
    if found.how == "part":
        whole = plain(found.entries[0].component)
        yield f"What it says of the {whole} as a whole tells nothing of its {name}: {_quoted(found.entries)}"
    elif found.how == "room":
        yield f"General praise of the room tells nothing of the {name}: {_quoted(found.entries)}"


def _quoted(entries: Sequence[Entry]) -> str:
    """What was said, as the end of a sentence; what a thing is only after what it is like."""
    entries = sorted(entries, key=lambda entry: entry.kind == "description")
    quotes = list(dict.fromkeys(f"“{entry.evidence[0].quote}”" for entry in entries))
    more = f" and {len(quotes) - _SHOWN} more" if len(quotes) > _SHOWN else ""
    told = ", ".join(quotes[:_SHOWN]) + more
    return told if told.endswith((".”", "!”", "?”")) else f"{told}."
