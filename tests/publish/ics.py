"""An iCalendar file read by the grammar of RFC 5545 alone, without the library that wrote it.

What breaks a rule is an AssertionError, the section beside it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

CONTENT_LINE = re.compile(r"([A-Za-z0-9-]+)((?:;[A-Za-z0-9-]+=[^\x00-\x08\x0a-\x1f\x7f\";:,]*)*):(.*)", re.DOTALL)
NOT_IN_TEXT = re.compile(r"[\x00-\x08\x0a-\x1f\x7f]")
ESCAPED = re.compile(r"\\([\\;,Nn])")
STAMP = re.compile(r"\d{8}T\d{6}Z")
DATE = re.compile(r"\d{8}")


@dataclass
class Part:
    """A component: its properties as they stand, and the components in it."""

    name: str
    properties: list[tuple[str, str, str]] = field(default_factory=list)
    inside: list[Part] = field(default_factory=list)

    def raw(self, name: str) -> str:
        (value,) = [value for key, _, value in self.properties if key == name]
        return value

    def has(self, name: str) -> bool:
        return any(key == name for key, _, _ in self.properties)

    def parameters(self, name: str) -> str:
        (found,) = [parameters for key, parameters, _ in self.properties if key == name]
        return found

    def text(self, name: str) -> str:
        """A value of type TEXT (3.3.11), whose every comma, semicolon and backslash must be escaped."""
        value = self.raw(name)
        assert not re.search(r"[,;]|\\", ESCAPED.sub("", value)), f"3.3.11: {value}"
        return ESCAPED.sub(lambda found: "\n" if found[1] in "Nn" else found[1], value)


def read(raw: bytes) -> Part:
    """The calendar of a file."""
    stack: list[Part] = []
    done: list[Part] = []
    for name, parameters, value in _content_lines(raw):
        if name == "BEGIN":
            stack.append(Part(value))
        elif name == "END":
            part = stack.pop()
            assert part.name == value, "3.6: components are nested"
            (stack[-1].inside if stack else done).append(part)
        else:
            stack[-1].properties.append((name, parameters, value))
    (calendar,) = done
    _check(calendar)
    return calendar


def _content_lines(raw: bytes) -> list[tuple[str, str, str]]:
    assert raw.endswith(b"\r\n"), "3.1: lines end in CRLF"
    lines = raw[:-2].split(b"\r\n")
    assert all(b"\n" not in line and b"\r" not in line for line in lines), "3.1: only as CRLF"
    assert all(len(line) <= 75 for line in lines), "3.1: no line over 75 octets"
    assert all(line.decode("utf-8") for line in lines), "3.1.4: UTF-8, no character torn by a fold"
    unfolded = raw[:-2].replace(b"\r\n ", b"").replace(b"\r\n\t", b"").decode("utf-8").split("\r\n")
    found = [CONTENT_LINE.fullmatch(line) for line in unfolded]
    assert all(found), "3.1: name, parameters, colon, value"
    assert not any(NOT_IN_TEXT.search(line) for line in unfolded), "3.1: no control characters"
    return [(one[1].upper(), one[2], one[3]) for one in found if one]


def _check(calendar: Part) -> None:
    assert calendar.name == "VCALENDAR", "3.4"
    assert calendar.raw("VERSION") == "2.0", "3.7.4: required, once"
    assert calendar.text("PRODID"), "3.7.3: required, once"
    assert {part.name for part in calendar.inside} <= {"VTODO", "VEVENT"}
    names = [part.text("UID") for part in calendar.inside]
    assert len(set(names)) == len(names), "3.8.4.7: a UID is globally unique"
    for part in calendar.inside:
        assert STAMP.fullmatch(part.raw("DTSTAMP")), "3.8.7.2: required, in UTC"
        assert not part.inside
        once = [key for key, _, _ in part.properties if key != "CATEGORIES"]
        assert len(set(once)) == len(once), "3.6.1, 3.6.2: must not occur more than once"
    for todo in (part for part in calendar.inside if part.name == "VTODO"):
        assert todo.raw("PRIORITY") in set("0123456789"), "3.8.1.9"
        assert todo.raw("STATUS") == "NEEDS-ACTION", "3.8.1.11"
    for event in (part for part in calendar.inside if part.name == "VEVENT"):
        assert DATE.fullmatch(event.raw("DTSTART")), "3.6.1: required where no METHOD is named"
        assert event.parameters("DTSTART") == ";VALUE=DATE", "3.3.4: a whole day"
        assert not event.has("DTEND"), "3.6.1: a date without an end is that day"
        assert not event.has("DURATION"), "3.6.1: or it is as long as told"
