"""A deposit statement as one HTML file: nothing to load, no script, readable on a phone, printing well.

It is built as a tree, as the report is, so that no word of a record or a settlement is ever read as markup.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from xml.etree.ElementTree import Element

from narrate2report.publish.report_html import head, picture, whole_page
from narrate2report.publish.report_tree import Part, facts, moments, node, paragraph, table
from narrate2report.publish.report_values import Moment
from narrate2report.publish.statement_values import Judged, Kept, Shown, Side, Source, Statement, Told

STYLE = Path(__file__).with_name("statement.css")


def statement_html(statement: Statement, stills: Mapping[str, Path]) -> bytes:
    """The statement as HTML in UTF-8. `stills` holds the file of each picture by its SHA-256; they are put inside."""
    marks = f" ({statement.marks})" if statement.marks else ""
    banner = [node("div", statement.marks, klass="banner", role="status")] if statement.marks else []
    body = node("body", *banner, node("main", *_sections(statement, stills)))
    return whole_page(head(f"{statement.title}{marks}", STYLE), body, statement.language)


def _sections(statement: Statement, stills: Mapping[str, Path]) -> Iterable[Element]:
    words = statement.words
    yield from _first(statement)
    yield from _when(statement)
    yield from _account(statement)
    yield node("h2", words["can_do"])
    yield _list(statement.can_do)
    yield node("h2", words["charges"])
    if not statement.charges:
        yield paragraph(words["charges_none"])
    yield from (node("section", *_charge(one, words, stills), klass="charge") for one in statement.charges)
    yield from _without_charge(statement)
    yield from _law(statement)
    yield from _method(statement)
    yield node("h2", words["cautions"])
    yield _list(statement.cautions)
    yield node("h2", words["sign"])
    yield paragraph(words["sign_note"])
    for name, told in (("name", statement.signs), ("signature", ""), ("date", "")):
        yield node("p", node("span", words[name], klass="quiet"), node("span", told), klass="line")


def _first(statement: Statement) -> Iterable[Element]:
    words = statement.words
    yield paragraph(f"{words['prepared_for']} {statement.reader_word}", klass="quiet")
    yield node("h1", statement.title)
    if statement.alarms:
        yield node("div", *map(paragraph, statement.alarms), klass="alarms")
    yield paragraph(statement.total_told, klass="standing total")
    yield facts(statement.facts)


def _account(statement: Statement) -> Iterable[Element]:
    words = statement.words
    yield node("h2", words["account"])
    rows: list[tuple[Part, ...]] = [
        (_to_charge(one.number), _with_basis(one.told, one.basis), one.amount) for one in statement.account
    ]
    rows.append(("", statement.total.told, statement.total.amount))
    heads = (words["number"], words["line"], statement.unit_of_money)
    yield node("div", table(heads, rows), klass="account")
    yield from (paragraph(told, klass="quiet") for told in statement.interest)


def _to_charge(number: str) -> Part:
    return node("a", number, href=f"#charge-{number}") if number else ""


def _with_basis(told: str, *basis: str) -> Element:
    return node("div", told, *(paragraph(one, klass="quiet") for one in basis if one))


def _when(statement: Statement) -> Iterable[Element]:
    words = statement.words
    yield node("h2", words["when"])
    if not statement.due:
        yield paragraph(words["when_none"])
        return
    rows = [
        (
            one.what,
            node("strong", one.keep),
            node("span", one.left, klass="loud" if one.late else ""),
            one.by_words,
        )
        for one in statement.due
    ]
    yield table([words[name] for name in ("line", "keep", "left", "by_words")], rows)
    yield from (paragraph(f"{words['source']}: {told}", klass="quiet") for told in statement.counted_by)


def _charge(one: Told, words: Mapping[str, str], stills: Mapping[str, Path]) -> Iterable[Element]:
    yield node("h3", f"{one.number}. {one.title}: {one.amount}", id=f"charge-{one.number}")
    yield paragraph(one.says)
    yield node("h4", words["records"])
    yield node("div", *(_side(side, words, stills) for side in (one.before, one.after)), klass="sides")
    yield node("h4", words["judgement"])
    yield from (piece for judged in one.judged for piece in _judged(judged, words))
    yield node("h4", words["cost"])
    yield facts(one.facts)
    if one.marks:
        yield node("div", *map(paragraph, one.marks), klass="alarms")
    yield node("h4", words["working"])
    yield node("ol", *(node("li", line, dir="auto") for line in one.working))
    if one.sources:
        yield node("h4", words["sources_of_life"])
        yield _list(one.sources)
    if one.others:
        yield node("h4", words["others"])
        heads = [words[name] for name in ("other_what", "other_cost", "other_would_be", "other_why_not")]
        yield table(heads, [(other.what, other.cost, other.would_be, other.why_not) for other in one.others])
    if one.cautions:
        yield node("h4", words["mind"])
        yield _list(one.cautions)


def _side(side: Side, words: Mapping[str, str], stills: Mapping[str, Path]) -> Element:
    parts = [paragraph(side.walk)]
    if side.none:
        parts.append(paragraph(side.none))
    parts += [_shown(one, words, stills) for one in side.shown]
    if side.also:
        parts.append(paragraph(words["also"], klass="quiet"))
        parts += [_shown(one, words, stills) for one in side.also]
    return node("div", *parts)


def _shown(one: Shown, words: Mapping[str, str], stills: Mapping[str, Path]) -> Element:
    mark: list[Part] = [" ", node("span", words["unreviewed"], klass="unreviewed")] if one.unreviewed else []
    parts = [paragraph(one.says, *mark)]
    said: list[Part] = [f"{words['said']} ", moments(one.moments)] if one.moments else []
    quotes = " ".join(f"“{quote}”" for quote in one.quotes)
    said += [": " if said else "", node("em", quotes, dir="auto")] if quotes else []
    if said:
        parts.append(paragraph(*said))
    parts += [paragraph(told, klass="quiet") for told in one.remarks]
    parts += [picture(still, words, stills) for still in one.pictures]
    return node("div", *parts, klass="shown")


def _judged(one: Judged, words: Mapping[str, str]) -> Iterable[Element]:
    by = f" {one.by}" if one.by else ""
    why = f": {one.why}" if one.why else ""
    change = node("span", f"{words['change']} {one.id}. ", klass="quiet")
    yield paragraph(change, f"{one.became}. ", node("strong", one.verdict), by + why)
    if one.because:
        yield paragraph(f"{words['because']}: {' '.join(one.because)}", klass="quiet")
    if one.unconfirmed:
        yield paragraph(one.unconfirmed, klass="loud")


def _without_charge(statement: Statement) -> Iterable[Element]:
    words = statement.words
    for changes, name, note in (
        (statement.open, "open", "open_note"),
        (statement.without_baseline, "bare", "bare_note"),
    ):
        if changes:
            yield node("h2", words[name])
            yield node("div", paragraph(words[note]), klass="alarms")
            yield _kept(changes, words)
    yield node("h2", words["kept"])
    yield _kept(statement.not_charged, words) if statement.not_charged else paragraph(words["kept_none"])


def _kept(changes: Iterable[Kept], words: Mapping[str, str]) -> Element:
    heads = [words[name] for name in ("line", "seen", "became", "why")]
    return node("div", table(heads, [_kept_row(one, words) for one in changes]), klass="kept")


def _kept_row(one: Kept, words: Mapping[str, str]) -> tuple[Part, ...]:
    judged = one.judged
    paired = f"{words['because']}: {' '.join(judged.because)}" if judged.because else ""
    seen = node("div", _seen(words["before"], one.before, words), _seen(words["after"], one.after, words))
    verdict = f"{judged.verdict} {judged.by}{f': {judged.why}' if judged.why else ''}" if judged.by else ""
    return one.says, seen, judged.became, _with_basis(one.why, verdict, paired)


def _seen(walk: str, at: tuple[Moment, ...], words: Mapping[str, str]) -> Element:
    return paragraph(node("span", f"{walk}: ", klass="quiet"), moments(at) if at else words["nowhere"])


def _law(statement: Statement) -> Iterable[Element]:
    words = statement.words
    if statement.counted:
        yield node("h2", words["deadlines"])
    for one in statement.counted:
        yield node("h3", f"{one.what}: {one.keep}")
        yield _list(one.working)
        if one.asks:
            yield node("div", paragraph(f"{words['asks']}. {one.asks}"), klass="alarms")
        yield paragraph(one.source, klass="quiet")
    yield node("h2", words["law"])
    if not statement.law:
        yield paragraph(words["law_none"])
        return
    if statement.law_doubt:
        yield node("div", paragraph(f"{words['law_doubt']}: {statement.law_doubt}"), klass="alarms")
    yield facts(statement.law)
    if statement.law_silent:
        yield paragraph(f"{words['law_silent']}: {statement.law_silent}.", klass="quiet")


def _method(statement: Statement) -> Iterable[Element]:
    words = statement.words
    yield node("h2", words["method"])
    yield paragraph(words["method_told"])
    yield facts(statement.method)
    yield node("h3", words["files"])
    yield from (piece for one in statement.sources for piece in _source(one, words))


def _source(one: Source, words: Mapping[str, str]) -> Iterable[Element]:
    yield paragraph(node("strong", f"{one.title}: "), one.file)
    if one.sha256:
        yield paragraph(f"{words['sha256']} ", node("code", one.sha256))
    if one.facts:
        yield facts(one.facts)
    if one.recordings:
        yield facts(one.recordings)


def _list(lines: Iterable[str]) -> Element:
    return node("ul", *(node("li", line, dir="auto") for line in lines))
