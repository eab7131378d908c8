"""How a statement came about: rules, who judged, and every file that it rests on with its hash and seal."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from narrate2report.publish.report_method import grouped
from narrate2report.publish.report_values import Fact
from narrate2report.publish.statement_evidence import Pair, Walked
from narrate2report.publish.statement_values import Source
from narrate2report.publish.statement_words import NOT_SEALED, PAGE, day_of
from narrate2report.records.comparison import FlawChange, Judgement
from narrate2report.records.moments import clock
from narrate2report.records.settlement import Settlement
from narrate2report.wording import capital, counted, told_day

_ELSEWHERE = "It did not lie beside the settlement when this was made."


def told_method(settlement: Settlement, changes: Sequence[FlawChange], pair: Pair) -> tuple[Fact, ...]:
    """Rounding, currency, the day from which days are counted, and who judged."""
    facts = [
        Fact("Currency", settlement.currency),
        Fact("Rounding", settlement.rounding),
        Fact("Days left counted from", told_day(settlement.today)),
        *(Fact("Judged by", told) for told in _judges(settlement)),
    ]
    if pair.reader == "office":
        unsure = sum(not change.confirmed for change in changes)
        told = f"{counted(len(changes), 'change')}, {unsure} of them not confirmed" if changes else _ELSEWHERE
        facts.append(Fact("Comparison", told))
    return tuple(facts)


def told_files(
    settlement: Settlement, pair: Pair, name: str, sha256: str, comparison_sha256: str | None
) -> tuple[Source, ...]:
    """The settlement, the comparison and the two records."""
    compared = settlement.comparison.file
    missing = () if comparison_sha256 else (Fact("Missing", _ELSEWHERE),)
    return (
        Source("Settlement", name, grouped(sha256)),
        Source("Comparison", compared, grouped(comparison_sha256 or ""), missing),
        _record(f"{PAGE['before']} record", pair.before),
        _record(f"{PAGE['after']} record", pair.after),
    )


def _record(title: str, walked: Walked) -> Source:
    seal = walked.findings.seal
    facts = [Fact("Seal", NOT_SEALED)]
    if seal is not None:
        facts = [
            Fact("Seal", grouped(seal.sha256)),
            Fact("Sealed by", f"{seal.sealed_by}, {day_of(seal.sealed_at)}"),
            Fact("Checked", "the record matched its seal when this copy was made; its other files were not read again"),
        ]
        first = walked.compared
        facts += [Fact("Adds to", f"{first.file}, seal {grouped(first.seal)}")] if first.addenda and first.seal else []
        facts += [Fact("After", f"{one.file}, seal {grouped(one.seal)}") for one in first.addenda[:-1]]
        if walked.compared.seal is None:
            facts.append(Fact("When compared", "it was not sealed yet"))
    return Source(title, walked.compared.stands_in, grouped(walked.sha256), tuple(facts), tuple(_recordings(walked)))


def _recordings(walked: Walked) -> Iterator[Fact]:
    for one in walked.findings.recordings:
        length = f", {clock(one.duration_s)}" if one.duration_s is not None else ""
        why = walked.missing_recordings.get(one.file, "")
        yield Fact(f"{one.file}{length}", f"{PAGE['sha256']} {grouped(one.sha256)}", why)


def _judges(settlement: Settlement) -> Iterator[str]:
    given: list[Judgement] = [one for charge in settlement.charges for one in charge.judgements]
    others = (*settlement.without_baseline, *settlement.open, *settlement.not_charged)
    given += [one.judgement for one in others if one.judgement]
    for name, number in Counter(one.by for one in given if one.verdict != "open").items():
        last = max(one.at for one in given if one.by == name)
        yield f"{capital(name)}: {counted(number, 'change')}, last on {day_of(last)}"
