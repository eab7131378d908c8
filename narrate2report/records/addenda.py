"""The addenda to a sealed record that lie in its folder: found by the seal that they name, whatever they are called.

Reading only, and their form alone: whether each matches its own seal, and started from the record that it names, is
for `seal.verifying`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from narrate2report.errors import BadInput, BrokenRecord
from narrate2report.records.beside import FINDINGS_ENDING, place_of, walk_name
from narrate2report.records.comparison import Added, Compared
from narrate2report.records.files import read_bytes, record_from
from narrate2report.records.findings import FINDINGS_SCHEMA, Findings
from narrate2report.records.walk import read_walk

NUMBERED = re.compile(r"(.+)\.addendum-(\d+)")
"""How the walk of an addendum is named, if nobody names it otherwise: `flat.addendum-1`."""

_AMENDS = re.compile(rb'"amends"\s*:\s*\{')
_SCHEMA = FINDINGS_SCHEMA.encode()


@dataclass(frozen=True)
class Addendum:
    """A record that adds to a sealed one, and its file."""

    path: Path
    findings: Findings

    @property
    def added(self) -> Added | None:
        """How a comparison names it; None while it is not sealed."""
        seal = self.findings.seal
        return Added(file=self.path.name, seal=seal.sha256, sealed_at=seal.sealed_at) if seal else None


@dataclass(frozen=True)
class Addenda:
    """The sealed addenda to a record in the order in which one adds to the other, and those that nobody has sealed."""

    sealed: tuple[Addendum, ...] = ()
    started: tuple[Path, ...] = ()


def addenda_beside(path: Path, findings: Findings) -> Addenda:
    """All that adds to the record at `path`, and to what adds to it. A record without a seal has none.

    Raises BrokenRecord where two sealed addenda add to one record, since nothing says which of them counts, or where
    one cannot be read or names another seal.
    """
    if findings.seal is None:
        return Addenda()
    others = tuple(_addenda_in(path))
    sealed: list[Addendum] = []
    started: list[Path] = []
    place, seal = path, findings.seal.sha256
    while True:
        nexts = [one for one in others if _adds_to(one, place, seal)]
        started += [one.path for one in nexts if one.findings.seal is None]
        closed = [one for one in nexts if one.findings.seal is not None]
        if not closed:
            _check_all_found(others, path, [*(found.path for found in sealed), *started])
            return Addenda(tuple(sealed), tuple(started))
        _check_one(closed, place)
        (one,) = closed
        if one.path == path or one in sealed:
            raise BrokenRecord(f"{one.path}: adds to itself")
        sealed.append(one)
        assert one.findings.seal is not None
        place, seal = one.path, one.findings.seal.sha256


def not_compared(compared: Compared, comparison: Path, stands: Findings) -> Addenda:
    """Addenda to a record of the comparison at `comparison` that were not compared. Raises as finding them does.

    `stands` is the record as it was read: the first one, where no addendum was compared.
    """
    place = place_of(compared.file, comparison)
    beside = addenda_beside(place, read_walk(place) if compared.addenda else stands)
    known = {one.seal for one in compared.addenda}
    sealed = tuple(one for one in beside.sealed if one.findings.seal and one.findings.seal.sha256 not in known)
    return Addenda(sealed, beside.started)


def _adds_to(one: Addendum, place: Path, seal: str) -> bool:
    """Whether it adds to this record. Raises BrokenRecord where it names the file and another seal."""
    amends = one.findings.amends
    if amends is None:
        return False
    if amends.sha256 != seal and amends.file == place.name:
        raise BrokenRecord(
            f"{one.path}: is an addendum to {place.name} under another seal than that has now, so neither can be "
            f"relied on; see: narrate2report verify {one.path}"
        )
    return amends.sha256 == seal


def _check_all_found(others: Sequence[Addendum], path: Path, found: Sequence[Path]) -> None:
    """What is named as an addendum to this record must add to it: else one is missing, or was changed."""
    for one in others:
        if _is_named_after(one.path, path) and one.path not in found:
            amends = one.findings.amends
            told = f"it adds to {amends.file}, which is not there as it was sealed" if amends else "it adds to nothing"
            raise BrokenRecord(f"{one.path}: is named as an addendum to {path.name}, but {told}")


def _check_one(closed: Sequence[Addendum], place: Path) -> None:
    if len(closed) > 1:
        names = " and ".join(sorted(one.path.name for one in closed))
        raise BrokenRecord(
            f"{place}: {names} both add to it, and nothing says which counts; name the one that does in its place, and "
            "take the other out of the folder"
        )


def _addenda_in(path: Path) -> Iterator[Addendum]:
    """Every record in the folder of `path` that adds to another one, in the order of their names."""
    for place in sorted(path.parent.glob("*.json")):
        if place == path or not place.is_file():
            continue
        is_named = _is_named_after(place, path)
        try:
            raw = read_bytes(place)
        except BadInput:
            # Who may not read a file of another walk can still use this one.
            if is_named:
                raise
            continue
        if not is_named and not (_AMENDS.search(raw) and _SCHEMA in raw):
            continue
        try:
            yield Addendum(place, record_from(raw, place, Findings))
        except BrokenRecord:
            if is_named or path.name.encode() in raw:
                raise


def _is_named_after(place: Path, path: Path) -> bool:
    """Whether it is named as an addendum to this record, or to an addendum to it."""
    if not place.name.endswith(FINDINGS_ENDING):
        return False
    own, other = (NUMBERED.fullmatch(walk_name(one)) for one in (path, place))
    base, number = (own[1], int(own[2])) if own else (walk_name(path), 0)
    return other is not None and other[1] == base and int(other[2]) > number
