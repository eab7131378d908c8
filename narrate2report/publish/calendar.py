"""To-dos and days that the law sets as an iCalendar file (RFC 5545), for whatever calendar the office uses.

A task becomes a to-do without a due day, since nobody named one; a day becomes an event of that whole day. The same
record gives the same bytes, and a to-do keeps its UID from draft to seal, so that it is taken anew and not twice.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from icalendar import Calendar, Component, Event, Todo, vText

from narrate2report.publish.standing import Heading
from narrate2report.publish.work_list import Task
from narrate2report.publish.work_words import PRIORITIES, WORDS
from narrate2report.records.plain import one_line

MAKER = "-//narrate2report//work list//EN"


@dataclass(frozen=True)
class DueDay:
    """A day by which something must be done. `key` names the duty, and stays when the day moves."""

    key: str
    day: date
    summary: str
    description: str


class _Text(vText):
    """Words escaped as section 3.3.11 says. The library's own would take a backslash before an N, as it may stand in
    what was said, for the end of a line.
    """

    def to_ical(self) -> bytes:
        """The words as they stand in the file."""
        escaped = re.sub(r"([\\;,])", r"\\\1", str(self))
        return escaped.replace("\n", "\\n").encode("utf-8")


def calendar_of(heading: Heading, tasks: Sequence[Task] = (), days: Sequence[DueDay] = ()) -> bytes:
    """The whole file; lines are folded at 75 octets and end in CR LF (section 3.1)."""
    name = f"{_draft(heading)}{heading.about}"
    calendar = Calendar()
    calendar.add("version", "2.0")
    calendar.add("prodid", MAKER)
    calendar.add("name", _Text(name))  # RFC 7986, section 5.1
    calendar.add("description", _Text(heading.mark))
    calendar.add("x-wr-calname", _Text(name))  # where programs looked for it before RFC 7986
    for task in tasks:
        calendar.add_component(_todo(heading, task))
    for day in days:
        calendar.add_component(_event(heading, day))
    return bytes(calendar.to_ical())


def _todo(heading: Heading, task: Task) -> Component:
    todo = Todo()
    _begin(todo, heading, f"todo/{task.entry}")
    place = ", ".join(filter(None, [heading.unit, task.room]))
    todo.add("summary", _Text(f"{_draft(heading)}{place}, {task.part}: {task.to_do} ({task.found})"))
    todo.add("description", _Text("\n".join(_told(heading, task))))
    todo.add("location", _Text(place))
    todo.add("categories", [WORDS.urgencies[task.urgency]])
    todo.add("priority", PRIORITIES[task.urgency])
    todo.add("status", "NEEDS-ACTION")
    if link := _whole_address(task):
        todo.add("url", link)
    return todo


def _event(heading: Heading, due: DueDay) -> Component:
    event = Event()
    _begin(event, heading, f"day/{due.key}")
    event.add("summary", _Text(f"{_draft(heading)}{one_line(due.summary)}"))
    event.add("description", _Text("\n".join([*map(one_line, due.description.splitlines()), heading.mark])))
    event.add("dtstart", due.day)  # a date without an end is that one day (section 3.6.1)
    event.add("transp", "TRANSPARENT")
    return event


def _begin(component: Component, heading: Heading, key: str) -> None:
    component.add("uid", heading.uuid(key))
    component.add("dtstamp", heading.made_at.replace(microsecond=0))


def _told(heading: Heading, task: Task) -> Iterable[str]:
    yield from filter(None, [task.mind])
    yield f"{WORDS.columns['found']}: {task.found}"
    yield f"{WORDS.columns['to_do']}: {task.to_do}"
    yield f"{WORDS.columns['party']}: {task.party}"
    yield f"{WORDS.columns['time']}: {task.moment.label}"
    if link := _whole_address(task):
        yield f"{WORDS.columns['link']}: {link}"
    if task.remark:
        yield f"{WORDS.columns['remark']}: {task.remark}"
    yield f"{WORDS.columns['reviewed']}: {task.reviewed}"
    yield heading.mark


def _whole_address(task: Task) -> str | None:
    """Where the moment opens on the web; a calendar knows no folder from which another address could start."""
    return task.moment.link if task.moment.link and "://" in task.moment.link else None


def _draft(heading: Heading) -> str:
    return f"{WORDS.draft}: " if heading.is_draft else ""
