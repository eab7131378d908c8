"""What was not spoken of, room by room, and what a person says of it in the terminal."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence

from pydantic import ValidationError
from rich.console import RenderableType
from rich.text import Text

from narrate2report.commands.terminal_pages import gap_list
from narrate2report.errors import CannotDecide, NarrateError
from narrate2report.records.findings import Coverage, Findings, Looked
from narrate2report.review import requests as ask
from narrate2report.wording import called_out

LETTERS: dict[str, Looked] = {"n": "not_looked_at", "s": "looked_at_since", "l": "left_not_noted"}
LEAD = """\
Nothing was said of these. Silence is never taken for good. For each number:
  1 n              not looked at
  1 s clean, dry   looked at since, with what you saw
  1 l              left as not noted
A letter without a number is for all of this room, `all l` for all rooms. Enter goes to the next room, b goes back."""
PROMPT = "number and n, s or l: "


def settle_gaps(
    now: Callable[[], Findings],
    settle: Callable[[ask.Acknowledge], None],
    asked: Callable[[str], str],
    tell: Callable[[RenderableType | str], None],
    *,
    again: bool,
) -> None:
    """Go through the rooms until they end or the person goes back; `again` shows what is settled already, too.

    A gap keeps its number while its room is shown. What `settle` refuses is told, and stays open.
    """
    every = _gaps(now(), again)
    if not every:
        return tell("Everything that was not spoken of is settled; c all shows it.")
    for line in called_out(now()):
        tell(Text(line, style="bold"))
    tell(LEAD)
    for room in dict.fromkeys(gap.room for gap in every):
        numbers = {(gap.room, gap.component): number for number, gap in enumerate(_of(every, room), 1)}
        while left := {numbers[gap.room, gap.component]: gap for gap in _of(_gaps(now(), again), room)}:
            tell(gap_list(left))
            typed = asked(PROMPT)
            if typed == "b":
                return None
            if not typed:
                break
            try:
                settle(read_gaps(typed, left, _gaps(now(), again)))
            except NarrateError as error:
                tell(f"Not kept: {error}")
    return None


def _gaps(findings: Findings, again: bool) -> list[Coverage]:
    return [row for row in findings.coverage if row.status == "not_noted" and (again or row.acknowledged is None)]


def _of(gaps: Iterable[Coverage], room: str) -> list[Coverage]:
    return [gap for gap in gaps if gap.room == room]


def read_gaps(typed: str, room: Mapping[int, Coverage], every: Sequence[Coverage]) -> ask.Acknowledge:
    """`2 s clean` as a request about gap 2 of the room. Raises CannotDecide where it cannot be read."""
    first, _, rest = typed.partition(" ")
    meant: Sequence[Coverage] = list(room.values())
    if first == "all":
        meant, (first, _, rest) = every, rest.strip().partition(" ")
    elif first.isdecimal():
        if int(first) not in room:
            raise CannotDecide(f"there is no number {first} here")
        meant, (first, _, rest) = [room[int(first)]], rest.strip().partition(" ")
    if first not in LETTERS:
        raise CannotDecide(f"{typed!r}: answer n, s or l, before it a number, behind s what you saw")
    looked, note = LETTERS[first], rest.strip() or None
    if looked == "looked_at_since" and note is None:
        raise CannotDecide("say behind s what was seen when you looked, such as: 1 s clean, no stains")
    gaps = tuple(ask.Gap(room=gap.room, component=gap.component) for gap in meant)
    try:
        return ask.Acknowledge(gaps=gaps, looked=looked, note=note)
    except ValidationError as error:
        raise CannotDecide(error.errors(include_url=False)[0]["msg"]) from error
