"""The timeline on a web page: one drawing for a screen and for print, one for a phone, and the same in a table."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final
from xml.etree.ElementTree import Element

from narrate2report.publish.report_tree import node, paragraph, table
from narrate2report.publish.report_values import Mark, Report
from narrate2report.publish.timeline_svg import drawn

WIDTHS: Final = {"wide-screen": 760.0, "narrow": 340.0}
"""Width of each drawing in pixels, by its class; the style shows one of them."""
MARKS: Final[tuple[Mark, ...]] = (
    "attention", "fails", "possible", "untested", "works", "sound", "silent", "work", "fact",
)  # fmt: skip


def told_timeline(report: Report) -> Iterable[Element]:
    """Heading, drawing, table and what the marks mean."""
    words, timeline = report.words, report.timeline
    yield node("h3", words["timeline"])
    if not timeline.lanes:
        yield paragraph(words["timeline_none"])
    else:
        yield paragraph(words["timeline_note"], klass="quiet")
        for name, width in WIDTHS.items():
            yield node("div", *_pictures(report, name, width), klass=f"timeline {name}")
        rows = [(lane.room, lane.times, lane.told) for lane in timeline.lanes]
        yield table((words["room"], words["time"], words["entries"]), rows)
    yield node("h3", words["marks"])
    shown = (node("span", report.marks[mark], klass=f"state {mark}") for mark in MARKS)
    yield node("p", *shown, klass="legend")


def _pictures(report: Report, name: str, width: float) -> Iterable[Element]:
    """Each picture with a title and a description of its own, so that it is told and not only shown."""
    for number, picture in enumerate(drawn(report.timeline, width, report.words["timeline_more"]), start=1):
        title, told = f"timeline-{name}-{number}", f"timeline-{name}-{number}-told"
        picture.insert(0, node("title", report.timeline.title, id=title))
        picture.insert(1, node("desc", report.timeline.alt, id=told))
        picture.set("role", "img")
        picture.set("aria-labelledby", f"{title} {told}")
        yield picture
