"""Facts of an entry as a person types them: words of the vocabulary or of a short list, numbers, times, free text."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from pydantic import ValidationError

from narrate2report.errors import CannotDecide
from narrate2report.review.choices import Choice, Choices
from narrate2report.review.fields import CHOSEN, LABELS, PICKS, fields_of
from narrate2report.review.requests import Facts

EMPTIES = "-"
"""What is typed to empty a field."""

REST = "."
"""What is typed to keep this field and all that follow as they are."""

_PICKS: Mapping[str, Mapping[str, str]] = {
    **PICKS,
    "pre_existing": {"yes": "was there before", "no": "was not there before"},
}
_TIME = re.compile(r"(?:(\d+):)?(?:(\d+):)?(\d+(?:\.\d*)?)")
NAMES = tuple(LABELS)
"""What a field is called where one is changed alone."""


def asked_facts(
    given: Mapping[str, Any], choices: Choices, ask: Callable[[str], str], tell: Callable[[str], None]
) -> Facts:
    """Ask field by field; what is answered with nothing stays. What cannot be read is told and asked again.

    Raises CannotDecide where the facts as a whole are none.
    """
    found: dict[str, Any] = {}
    waiting = ["kind"]
    while waiting:
        name = waiting.pop(0)
        typed = ask(f"{LABELS[name]} [{_shown(name, given.get(name), choices)}]: ").strip()
        if typed == REST:
            break
        if typed:
            try:
                found[name] = read_field(name, typed, choices)
            except CannotDecide as error:
                tell(str(error))
                waiting.insert(0, name)
                continue
        if name == "kind":
            waiting = list(fields_of(found.get("kind") or given["kind"]))
    return facts(found)


def read_field(name: str, typed: str, choices: Choices) -> Any:
    """The value of a field as it was typed. Raises CannotDecide, saying what could be meant, where it is none."""
    if typed == EMPTIES:
        return False if name == "pre_existing" else None
    if name in CHOSEN:
        return chosen(typed, getattr(choices, f"{name}s"), name)
    if name in _PICKS:
        picks = [Choice(identity, label) for identity, label in _PICKS[name].items()]
        picked = chosen(typed, picks, LABELS[name].lower())
        return picked == "yes" if name == "pre_existing" else picked
    if name in ("start", "end"):
        return seconds(typed)
    if name == "quantity":
        if not typed.isdecimal():
            raise CannotDecide(f"{typed!r} is no number; type one such as 2")
        return int(typed)
    return typed


def facts(found: Mapping[str, Any]) -> Facts:
    """These fields as facts. Raises CannotDecide where one is too long, or no text."""
    try:
        return Facts.model_validate(dict(found))
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        raise CannotDecide(f"{LABELS[str(first['loc'][0])]}: {first['msg']}") from error


def chosen(typed: str, choices: Sequence[Choice], what: str) -> str:
    """The id of what a person means: by name, else by what else is said for it, else by how only one begins.

    Raises CannotDecide where nothing or more than one thing could be meant. `bedroom 2` is the second bedroom.
    """
    wanted = " ".join(typed.lower().replace("_", " ").split())
    base, _, number = wanted.rpartition(" ")
    if what == "room" and base and number.isdecimal():
        return f"{chosen(base, choices, what)}.{number}"
    if what == "room" and "." in typed:
        room, _, suffix = typed.lower().partition(".")
        return f"{chosen(room, choices, what)}.{suffix}"
    for names in (_own_names, _other_names):
        if exact := [one for one in choices if wanted in names(one)]:
            return exact[0].id
    near = [one for one in choices if any(name.startswith(wanted) for name in _own_names(one))]
    near = near or [one for one in choices if any(wanted in name for name in (*_own_names(one), *_other_names(one)))]
    if len(near) == 1:
        return near[0].id
    if near:
        some = ", ".join(one.label for one in near[:8]) + (", ..." if len(near) > 8 else "")
        raise CannotDecide(f"{typed!r} could be: {some}; type more of it")
    known = f"one of: {', '.join(one.label for one in choices)}" if len(choices) <= 12 else "a word of the vocabulary"
    raise CannotDecide(f"{typed!r} is no known {what}; type {known}")


def seconds(typed: str) -> float:
    """`2:31.5`, `1:02:31` or `151.5` as seconds. Raises CannotDecide for anything else."""
    found = _TIME.fullmatch(typed)
    if found is None:
        raise CannotDecide(f"{typed!r} is no time; type it as 2:31 or 151.5")
    first, second, last = found.groups()
    hours, minutes = (int(first or 0), int(second)) if second else (0, int(first or 0))
    return hours * 3600 + minutes * 60 + float(last)


def _own_names(one: Choice) -> tuple[str, ...]:
    return one.label.lower(), one.id.replace("_", " ")


def _other_names(one: Choice) -> tuple[str, ...]:
    return tuple(name.lower() for name in one.also)


def _shown(name: str, value: Any, choices: Choices) -> str:
    if name == "pre_existing":
        return "yes" if value else "no"
    if value is None:
        return ""
    if name in CHOSEN:
        return next((one.label for one in getattr(choices, f"{name}s") if one.id == value), str(value))
    if name in _PICKS:
        return _PICKS[name].get(value, str(value))
    return f"{value:.2f}" if isinstance(value, float) else str(value)
