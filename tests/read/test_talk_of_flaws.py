"""Talk of flaws is no flaw: what they cost, who told of them, what was mended, what is elsewhere, a joke, a rule.

`data/flaws_only_talked_of.txt` holds lines that give no adverse entry, `data/flaws_told_all_the_same.txt` lines of
the same wording that do. Both were written and marked before they were read; the bounds are what is reached today,
and a line that is won lowers the one or raises the other.
"""

from __future__ import annotations

from pathlib import Path

from narrate2report.records.findings import Entry
from tests.read.told import Narrator

DATA = Path(__file__).parent / "data"
SOUND = {"good", "clean", "new", "present", "freshly_painted", "repaired"}

MOST_ALARMS = 12
"""Of 150 lines; 67 before these rules."""

LEAST_TOLD = 64
"""Of 72 lines; 61 before these rules."""


def _lines(name: str) -> list[str]:
    rows = (DATA / name).read_text(encoding="utf-8").splitlines()
    return [row for row in rows if row and not row.startswith("#")]


def _is_adverse(entry: Entry) -> bool:
    if entry.kind == "check":
        return entry.outcome == "fails"
    return entry.kind == "condition" and entry.condition not in SOUND and entry.assertion != "absent"


def test_lines_that_only_talk_of_flaws_give_hardly_any(entries: Narrator) -> None:
    lines = _lines("flaws_only_talked_of.txt")
    assert len(lines) == 150
    alarms = []
    for line in lines:
        room, said = line.split(": ", 1)
        if any(_is_adverse(entry) for entry in entries(said, room=room).reading.findings.entries):
            alarms.append(line)
    assert len(alarms) <= MOST_ALARMS, "\n".join(alarms)


def test_lines_of_the_same_wording_that_tell_of_a_flaw_still_do(entries: Narrator) -> None:
    lines = _lines("flaws_told_all_the_same.txt")
    lost = []
    for line in lines:
        room, conditions, said = line.split(": ", 2)
        found = entries(said, room=room).reading.findings.entries
        if not any(_is_adverse(entry) and entry.condition in conditions.split("/") for entry in found):
            lost.append(line)
    assert len(lines) - len(lost) >= LEAST_TOLD, "\n".join(lost)
