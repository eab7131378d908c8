"""A report as one HTML file: nothing to load, no script, readable on a phone, printing well.

It is built as a tree and written by the standard library, so that no word of a record is ever read as markup.
"""

from __future__ import annotations

import base64
import mimetypes
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from xml.etree.ElementTree import Element, tostring

from narrate2report.publish.html_timeline import told_timeline
from narrate2report.publish.report_tree import Part as Child
from narrate2report.publish.report_tree import facts, moments, node, paragraph, says, spoken, state, table, unreviewed
from narrate2report.publish.report_values import WRONG, Brief, Finding, Part, Picture, Report, Room, Silent

STYLE = Path(__file__).with_name("report.css")
POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'"


def html_of(report: Report, stills: Mapping[str, Path]) -> bytes:
    """The report as HTML in UTF-8. `stills` holds the file of each picture by its SHA-256; they are put inside."""
    top = head(f"{report.title} ({report.standing_word})")
    body = node("body", *_banner(report), node("main", *_sections(report, stills)))
    return whole_page(top, body, report.language)


def whole_page(top: Element, body: Element, language: str, **attributes: str) -> bytes:
    """Head and body as a file; `attributes` are those of the whole page beside its language."""
    page = node("html", top, body, lang=language, **attributes)
    written = tostring(page, encoding="unicode", method="html")
    return f"<!DOCTYPE html>\n{written}\n".encode()


def head(title: str, *styles: Path) -> Element:
    """The head of a page that loads nothing; `styles` go inside after the style that all pages share."""
    policy = node("meta", http_equiv="Content-Security-Policy", content=POLICY)
    view = node("meta", name="viewport", content="width=device-width, initial-scale=1")
    style = node("style", "".join(file.read_text(encoding="utf-8") for file in (STYLE, *styles)))
    return node("head", node("meta", charset="utf-8"), policy, view, node("title", title), style)


def _banner(report: Report) -> Iterable[Element]:
    told = [report.standing_word] if report.standing == "draft" else []
    told += [report.courtesy] if report.courtesy else []
    if told:
        yield node("div", *(node("div", one) for one in told), klass="banner", role="status")


def _sections(report: Report, stills: Mapping[str, Path]) -> Iterable[Element]:
    work = _work(report)
    yield from _first(report)
    yield from _glance(report)
    if report.reader == "owner":
        yield from work
    yield from _rooms(report, stills)
    yield from _handed(report)
    if report.reader == "office" or (report.reader == "resident" and report.work):
        yield from work
    yield from _method(report)
    yield node("h2", report.words["cautions"])
    yield node("ul", *(node("li", one) for one in report.cautions))
    if report.unread:
        words = report.words
        yield node("h2", words["unread"])
        rows = [(moments([one.moment]), spoken(report, one.text), one.reason) for one in report.unread]
        yield table((words["time"], words["said"], words["reason"]), rows)


def _first(report: Report) -> Iterable[Element]:
    words = report.words
    yield paragraph(f"{words['prepared_for']} {report.reader_word}", klass="quiet")
    yield node("h1", report.title)
    told = node("strong", f"{report.standing_word}. ")
    yield paragraph(told, report.standing_told, klass=f"standing {report.standing}")
    if report.courtesy:
        yield paragraph(node("strong", report.courtesy), klass="clashes")
    yield facts(report.facts)
    if report.clashes:
        clashes = node("ul", *(node("li", one, lang="en") for one in report.clashes))
        yield node("div", node("strong", words["clashes"]), clashes, klass="clashes")
    if report.urgent:
        yield node("h2", words["urgent"])
        yield node("div", *map(paragraph, report.urgent), klass="urgent")
    yield paragraph(words["marks"], klass="quiet")
    yield node("p", *(node("span", told, klass=f"state {mark}") for mark, told in report.marks.items()), klass="legend")


def _glance(report: Report) -> Iterable[Element]:
    words = report.words
    yield node("h2", words["summary"])
    yield node("h3", words["safety"])
    rows = [(one.name, one.room, state(report, one), moments(one.moments)) for one in report.safety]
    yield table((words["device"], words["room"], words["outcome"], words["time"]), rows)
    yield paragraph(words["safety_note"], klass="quiet")
    yield node("h3", words["attention"])
    yield _listed(report, report.attention, words["attention_none"])
    yield node("h3", words["untested"])
    yield _listed(report, report.untested, words["untested_none"])
    yield node("h3", words["silent"])
    if report.not_spoken:
        yield paragraph(words["silent_note"], klass="quiet")
        told = [(one.room, node("div", *(_silent(row) for row in one.silent))) for one in report.not_spoken]
        yield table((words["room"], words["not_spoken"]), told)
    else:
        yield paragraph(words["silent_none"])
    yield from told_timeline(report)


def _listed(report: Report, found: Sequence[Finding], none: str) -> Element:
    words = report.words
    if not found:
        return paragraph(none)
    if found is report.attention and report.crowded:
        return _crowded(report)
    heads = ("number", "where", "finding", "time")
    rows = [(_to_entry(one), f"{one.room}, {one.part}", _found(report, one), moments(one.moments)) for one in found]
    return table([words[name] for name in heads], rows)


def _crowded(report: Report) -> Element:
    words = report.words
    rows = [(one.room, node("a", one.numbers, href=f"#entry-{one.first}"), one.told) for one in report.crowded]
    told = paragraph(words["crowded"].format(n=len(report.attention)), klass="quiet")
    return node("div", told, table((words["room"], words["numbers"], words["entries"]), rows))


def _found(report: Report, one: Finding) -> Element:
    return node("span", state(report, one), ": ", *says(report, one))


def _to_entry(one: Finding) -> Element:
    return node("a", str(one.number), href=f"#entry-{one.number}")


def _silent(one: Silent, before: str = "") -> Element:
    note = f" ({one.note})" if one.note else ""
    return paragraph(before, node("strong", f"{one.looked}{note}"), f": {', '.join(one.names)}.")


def _rooms(report: Report, stills: Mapping[str, Path]) -> Iterable[Element]:
    yield node("h2", report.words["rooms"])
    if not report.rooms:
        yield paragraph(report.words["empty"])
    for room in report.rooms:
        yield node("section", *_room(report, room, stills))


def _room(report: Report, room: Room, stills: Mapping[str, Path]) -> Iterable[Element]:
    yield node("h3", room.name)
    for part in room.parts:
        yield from _part(report, part, stills)
    if room.sound:
        yield paragraph(node("strong", report.words["in_order"], klass="state sound"))
        yield node("ul", *(node("li", *_brief(report, one)) for one in room.sound))
    for one in room.silent:
        yield _silent(one, f"{report.words['not_spoken']}, ")


def _part(report: Report, part: Part, stills: Mapping[str, Path]) -> Iterable[Element]:
    what = f" ({', '.join(part.what)})" if part.what else ""
    yield node("h4", part.name + what)
    for one in part.findings:
        yield _finding(report, one, stills)
    for brief in part.sound:
        yield paragraph(f"{report.words['also_in_order']} ", *_says(report, brief), klass="quiet")


def _finding(report: Report, one: Finding, stills: Mapping[str, Path]) -> Element:
    head = node("strong", f"{one.number}. ", *says(report, one), " ")
    parts: list[Element] = [paragraph(head, state(report, one))]
    if one.quotes:
        quotes = " ".join(f"“{quote}”" for quote in one.quotes)
        said = f"{report.words['said']} "
        parts.append(paragraph(said, moments(one.moments), ": ", spoken(report, quotes)))
    parts += [paragraph(told, klass="quiet") for told in one.remarks]
    if one.pictures:
        pictures = (picture(shown, report.words, stills) for shown in one.pictures)
        parts.append(node("div", *pictures, klass="pictures"))
    wrong = " wrong" if one.mark in WRONG else ""
    return node("div", *parts, klass=f"finding{wrong}", id=f"entry-{one.number}")


def picture(one: Picture, words: Mapping[str, str], stills: Mapping[str, Path]) -> Element:
    """A still inside the page, or why there is none."""
    if one.missing:
        return paragraph(f"{words['picture_missing']}: {one.missing}. {one.caption}", klass="missing")
    file = stills[one.sha256]
    kind = mimetypes.types_map.get(file.suffix.lower(), "image/jpeg")
    inside = f"data:{kind};base64,{base64.b64encode(file.read_bytes()).decode('ascii')}"
    return node("figure", node("img", src=inside, alt=one.alt), node("figcaption", one.caption, klass="quiet"))


def _says(report: Report, one: Brief) -> list[Child]:
    at: list[Child] = [" (", moments(one.moments), ")"] if one.moments else []
    return [*says(report, one), *at, *unreviewed(report, one.unreviewed)]


def _brief(report: Report, one: Brief) -> list[Child]:
    return [node("strong", one.name), ": ", *_says(report, one)]


def _handed(report: Report) -> Iterable[Element]:
    words = report.words
    sections: tuple[tuple[str, str, Sequence[Brief], str, str], ...] = (
        ("keys", "keys_none", report.handed, "keys_what", "keys_how"),
        ("advice", "advice_none", report.advice, "part", "said"),
    )
    for name, none, briefs, what, how in sections:
        yield node("h2", words[name])
        if not briefs:
            yield paragraph(words[none])
            continue
        rows = [
            (one.name, node("span", *says(report, one), *unreviewed(report, one.unreviewed)), moments(one.moments))
            for one in briefs
        ]
        yield table((words[what], words[how], words["time"]), rows)


def _work(report: Report) -> Iterable[Element]:
    words = report.words
    yield node("h2", words["work_resident" if report.reader == "resident" else "work"])
    if not report.work:
        yield paragraph(words["work_none"])
        return
    rows = []
    for one in report.work:
        told = [paragraph(*says(report, one), *unreviewed(report, one.unreviewed))]
        told += [paragraph(spoken(report, f"“{quote}”"), klass="quiet") for quote in one.quotes]
        told += [paragraph(remark, klass="quiet") for remark in one.remarks]
        rows.append((f"W{one.number}", one.room, one.part, node("div", *told), moments(one.moments)))
    yield table([words[name] for name in ("number", "room", "part", "work_what", "time")], rows)


def _method(report: Report) -> Iterable[Element]:
    words = report.words
    yield node("h2", words["method"])
    yield paragraph(words["method_told"])
    yield facts(report.method)
    yield node("h3", words["recordings"])
    for one in report.recordings:
        yield paragraph(node("strong", one.file), f", {one.length}, {one.recorded_at}. {one.missing}")
        yield paragraph(f"{words['sha256']} ", node("code", one.sha256))
    if report.seal:
        yield node("h3", words["seal"])
        yield facts(report.seal)
        yield paragraph(words["seal_proves"])
        yield paragraph(words["seal_not"])
    if report.warnings or report.gaps:
        own = [node("li", line, lang="en") for line in report.warnings]
        yield node("h3", words["warnings"])
        yield node("ul", *own, *(node("li", line) for line in report.gaps))
    if report.left_out:
        yield node("h3", words["left_out"])
        yield node("ul", *(node("li", line) for line in report.left_out))
