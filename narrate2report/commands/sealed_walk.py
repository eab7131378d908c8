"""A walk that others rely on, held against what was sealed: the record, the addenda to it, and the files of both."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from rich.console import Console

from narrate2report.commands.typed import command
from narrate2report.errors import BadInput, CannotSettle
from narrate2report.records.addenda import Addenda, addenda_beside, not_compared
from narrate2report.records.any_walk import read_any_walk
from narrate2report.records.beside import place_of
from narrate2report.records.comparison import Added, Compared
from narrate2report.records.digest import Hashes
from narrate2report.records.findings import Findings
from narrate2report.records.walk import read_walk
from narrate2report.seal.mismatch import Mismatch
from narrate2report.seal.verifying import Verified, verify, verify_words
from narrate2report.wording import capital, counted

LARGE = 64 << 20
"""Bytes from which on reading a file takes long enough to be told of."""
_MIB = 1 << 20


@dataclass(frozen=True)
class WalkToCompare:
    """A record as it stands with the sealed addenda to it, which are named, and what must be said of others."""

    findings: Findings
    seal: str | None = None
    """Of the record itself, where it is sealed."""
    addenda: tuple[Added, ...] = ()
    minds: tuple[str, ...] = ()


@dataclass(frozen=True)
class HeldWalk:
    """A record that was compared, held against its seal with all its files.

    `late` says which addenda came after the comparison, `minds` what could not be held against the seal.
    """

    findings: Findings
    late: tuple[str, ...] = ()
    minds: tuple[str, ...] = ()


def walk_to_compare(path: Path) -> WalkToCompare:
    """The record at `path` as its last sealed addendum has it; recordings and pictures are not read.

    Raises BadInput where record or addendum do not match their seals, and what reading raises.
    """
    findings = read_any_walk(path)
    if findings.seal is None:
        return WalkToCompare(findings)
    _check_words(path, verify_words(path), "it is not compared")
    beside = addenda_beside(path, findings)
    for one in beside.sealed:
        _check_words(one.path, verify_words(one.path), f"neither it nor {path.name} is compared")
    last = beside.sealed[-1].findings if beside.sealed else findings
    added = tuple(one.added for one in beside.sealed if one.added)
    return WalkToCompare(last, findings.seal.sha256, added, tuple(map(_started, beside.started)))


def walk_to_settle(compared: Compared, changes: Path, side: str, hashes: Hashes) -> HeldWalk:
    """A record that was compared, as its file beside the comparison has it; `side` is what it is called.

    Everything that lies there is held against the seal as `verify` does it. Raises BadInput where something was
    changed, CannotSettle where it is not the record that was compared.
    """
    place = place_of(compared.stands_in, changes)
    findings = read_walk(place)
    seal = findings.seal.sha256 if findings.seal else None
    if seal is None:
        _check_compared(compared, seal, place)
        return HeldWalk(findings)
    verified = verify(place, hashes=hashes)
    changed = [one for one in verified.mismatches if not one.is_absence]
    if changed:
        raise BadInput(
            f"{place}: does not match its seal, so nothing is settled on it: {_some(changed)}; see: "
            f"{command('verify', place)}"
        )
    _check_compared(compared, seal, place)
    _check_chain(compared, verified, place)
    beside = not_compared(compared, changes, findings)
    started = (f"{capital(_started(one))}." for one in beside.started)
    return HeldWalk(findings, _late(beside, side), (*_absent(verified.mismatches, side), *started))


def late_addenda(compared: Compared, beside: Path, stands: Findings, side: str) -> tuple[str, ...]:
    """A line where a record has a sealed addendum that the comparison does not know; `beside` lies in its folder.

    Raises BadInput where that addendum does not match its seal.
    """
    return _late(not_compared(compared, beside, stands), side)


def telling(console: Console, *, quiet: bool) -> Hashes:
    """What hashes files, and says of a large one beforehand that it is being read."""
    tell: Callable[[Path, int], None] = lambda _, __: None  # noqa: E731 - nothing is told
    if not quiet:

        def tell(place: Path, size: int) -> None:
            if size >= LARGE:
                console.print(f"Reading {place.name} ({size // _MIB} MiB) to hold it against its seal", soft_wrap=True)

    return Hashes(tell)


def _late(beside: Addenda, side: str) -> tuple[str, ...]:
    for one in beside.sealed:
        _check_words(one.path, verify_words(one.path), "nothing is made of the record that it adds to")
    names = ", ".join(one.path.name for one in beside.sealed)
    told = (
        f"THE {side.upper()} RECORD HAS AN ADDENDUM THAT WAS NOT READ ({names}), sealed since the two walks were "
        "compared: compare again, judge what changed, and settle again."
    )
    return (told,) if names else ()


def _started(place: Path) -> str:
    return f"an addendum that nobody has sealed yet, {place.name}, is not read: nothing in it counts here"


def _check_words(path: Path, verified: Verified, so: str) -> None:
    if verified.mismatches:
        raise BadInput(
            f"{path}: does not match its seal, so {so}: {_some(verified.mismatches)}; see: {command('verify', path)}"
        )


def _check_compared(compared: Compared, seal: str | None, place: Path) -> None:
    if compared.last_seal is not None and seal != compared.last_seal:
        raise CannotSettle(f"{place}: is not the record that was compared (its seal differs); compare the two again")


def _check_chain(compared: Compared, verified: Verified, place: Path) -> None:
    """The addenda that a comparison names must add to the record that it names."""
    if not compared.addenda:
        return
    named = [compared.seal, *(one.seal for one in compared.addenda)]
    found = [record.seal.sha256 for _, record in verified.records if record.seal]
    if found[: len(named)] != named[::-1]:
        raise CannotSettle(f"{place}: does not add to {compared.file} as the comparison says; compare the two again")


def _absent(mismatches: Sequence[Mismatch], side: str) -> Iterator[str]:
    names = list(dict.fromkeys(f"{one.what.removeprefix('the ')} {one.where}" for one in mismatches if one.is_absence))
    if names:
        yield (
            f"NOT THERE, so not held against the seal of the {side} record: {', '.join(names)}. Whoever doubts the "
            "evidence needs it: fetch it from where it is kept."
        )


def _some(mismatches: Sequence[Mismatch]) -> str:
    more = len(mismatches) - 1
    return str(mismatches[0]) + (f" (and {counted(more, 'mismatch', 'mismatches')} more)" if more else "")
