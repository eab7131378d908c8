"""Two walks of one flat and the comparison of them, made by hand; and any decision that can be asked about it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from hypothesis import strategies as st

from narrate2report.records.comparison import (
    OUTCOMES,
    SIDES,
    VERDICTS,
    Became,
    Compared,
    Comparison,
    FlawChange,
    Side,
)
from narrate2report.records.files import write_record
from narrate2report.records.findings import Entry, Findings
from narrate2report.review import judging_requests as ask
from narrate2report.review.judging_desk import JudgingDesk
from narrate2report.review.requests import Redo, Undo
from tests.publish import walk

NOW = "2027-03-06T10:00:00.000Z"
WHO = "Ida Pell"
BEFORE, AFTER = "in.mp4", "out.mp4"
MARKUP = "<script>document.title = 'taken over'</script>"


def flaw(number: int, clip: str, quote: str, **fields: Any) -> Entry:
    name = f"{'b' if clip == BEFORE else 'a'}{number}"
    return walk.entry(id=name, evidence=(walk.evidence(4.0 + 8 * number, quote, clip),), **fields)


def before_entries() -> tuple[Entry, ...]:
    bedroom = {"room": "bedroom"}
    return (
        flaw(0, BEFORE, "The counter is chipped."),
        flaw(1, BEFORE, "A crack in the sink.", component="sink", condition="crack"),
        flaw(2, BEFORE, "The carpet has a stain.", component="carpet", condition="stain", **bedroom),
        flaw(3, BEFORE, "The burner does not light.", kind="check", component="burner", outcome="fails"),
        flaw(4, BEFORE, "Walls are freshly painted.", component="wall", condition="freshly_painted", **bedroom),
        flaw(5, BEFORE, "A scuff on the door.", component="door", condition="scuff", **bedroom),
    )


def after_entries() -> tuple[Entry, ...]:
    bedroom = {"room": "bedroom"}
    return (
        flaw(0, AFTER, "The chip in the counter is larger.", size={"text": "two inches"}),
        flaw(1, AFTER, "A stain in the carpet.", component="carpet", condition="stain", **bedroom),
        flaw(2, AFTER, "A burn in the carpet.", component="carpet", condition="burn", **bedroom),
        flaw(3, AFTER, f"{MARKUP} A hole in the wall.", component="wall", condition="hole", **bedroom),
        flaw(4, AFTER, "The blinds are bent.", component="blinds", condition="bent", **bedroom),
        flaw(5, AFTER, "The burner works.", kind="check", component="burner", outcome="works"),
    )


def changes() -> tuple[FlawChange, ...]:
    def change(number: int, outcome: Became, before: Sequence[str] = (), after: Sequence[str] = ()) -> FlawChange:
        because = (f"said so of {outcome}",)
        return FlawChange(id=f"c{number}", outcome=outcome, before=tuple(before), after=tuple(after), because=because)

    return (
        change(1, "worse", ["b0"], ["a0"]),
        change(2, "not_mentioned", ["b1"]),
        change(3, "unchanged", ["b2"], ["a1", "a2"]),
        change(4, "gone", ["b3"], ["a5"]),
        change(5, "new", ["b4"], ["a3"]),
        change(6, "no_baseline", [], ["a4"]),
        change(7, "not_mentioned", ["b5"]),
    )


def record(entries: tuple[Entry, ...], clip: str, kind: str, date: str) -> Findings:
    fact = {"unit": "2B", "kind": kind, "date": date}
    return walk.findings(
        *entries,
        walkthrough={name: [{"value": value, "source": "given"}] for name, value in fact.items()},
        recordings=[{"file": clip, "sha256": "a" * 64, "bytes": 9, "duration_s": 200.0}],
    )


def written(folder: Path) -> Path:
    """The comparison's file, with both records beside it."""
    write_record(folder / "in.findings.json", record(before_entries(), BEFORE, "move_in", "2026-03-06"))
    write_record(folder / "out.findings.json", record(after_entries(), AFTER, "move_out", "2027-03-01"))
    place = folder / "changes.json"
    write_record(place, draft())
    return place


def draft() -> Comparison:
    return Comparison(
        before=Compared(file="in.findings.json", kind="move_in", date="2026-03-06", unit="2B"),
        after=Compared(file="out.findings.json", kind="move_out", date="2027-03-01", unit="2B"),
        changes=changes(),
    )


def opened(place: Path) -> JudgingDesk:
    return JudgingDesk(place, now=lambda: NOW)


def record_of(desk: JudgingDesk) -> Comparison:
    """The comparison as it stands."""
    return desk.comparison


def naively_compared(before: Findings, after: Findings, files: tuple[str, str]) -> Comparison:
    """A comparison by room, component and condition alone, for pages that need one: it is right in no hard case."""
    every = {side: _by_words(found) for side, found in zip(SIDES, (before, after), strict=True)}
    made = []
    for number, what in enumerate(dict.fromkeys([*every["before"], *every["after"]]), 1):
        ids = {side: tuple(every[side].get(what, ())) for side in SIDES}
        outcome: Became = "unchanged" if all(ids.values()) else "not_mentioned" if ids["before"] else "no_baseline"
        made.append(FlawChange(id=f"c{number}", outcome=outcome, because=("the same words",), **ids))
    return Comparison(before=_head(before, files[0]), after=_head(after, files[1]), changes=tuple(made))


def _by_words(findings: Findings) -> dict[tuple[str | None, ...], list[str]]:
    found: dict[tuple[str | None, ...], list[str]] = {}
    for one in (entry for entry in findings.entries if entry.is_adverse):
        found.setdefault((one.room, one.component, one.condition or one.outcome), []).append(one.id)
    return found


def _head(findings: Findings, file: str) -> Compared:
    known = findings.walkthrough
    kind, date, unit = (facts[0].value if facts else None for facts in (known.kind, known.date, known.unit))
    return Compared(file=file, kind=kind, date=date, unit=unit)


def requests(desk: JudgingDesk) -> st.SearchStrategy[ask.Request]:
    """Anything that can be asked of the comparison as it stands, sensible or not."""
    one = st.sampled_from([*(change.id for change in desk.comparison.changes), "c404"])
    some = st.lists(one, min_size=1, max_size=3).map(tuple)
    outcome = st.sampled_from(OUTCOMES)
    ids: dict[Side, st.SearchStrategy[str]] = {
        side: st.sampled_from([*desk.records[side].entries, "x404"]) for side in SIDES
    }
    parts = {side: st.lists(ids[side], max_size=2).map(tuple) for side in SIDES}
    return st.one_of(
        st.builds(ask.Confirm, changes=some),
        st.builds(ask.SetOutcome, change=one, outcome=outcome),
        *(
            st.builds(ask.Pair, change=one, side=st.just(side), entry=ids[side], outcome=st.none() | outcome)
            for side in SIDES
        ),
        st.builds(ask.Join, changes=st.lists(one, min_size=2, max_size=3).map(tuple), outcome=st.none() | outcome),
        st.builds(ask.Split, change=one, before=parts["before"], after=parts["after"]),
        st.builds(
            ask.Judge, changes=some, verdict=st.sampled_from(VERDICTS), why=st.sampled_from([None, "", "as agreed"])
        ),
        st.builds(ask.Reopen, changes=some),
        st.just(Undo()),
        st.just(Redo()),
    )
