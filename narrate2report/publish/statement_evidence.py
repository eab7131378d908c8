"""What the two walks show of a change, side by side: quotes, times that open the recording, pictures."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from narrate2report.errors import BadInput
from narrate2report.publish.report_entries import Telling
from narrate2report.publish.report_links import Links, moments
from narrate2report.publish.report_values import Moment, Picture
from narrate2report.publish.statement_values import Reader, Shown, Side
from narrate2report.publish.statement_words import PAGE, day_of
from narrate2report.records.comparison import Compared
from narrate2report.records.findings import Entry, Findings
from narrate2report.wording import capital, named


@dataclass(frozen=True)
class Walked:
    """One of the two records, and what is known of the files around it.

    `missing_stills` (by SHA-256) and `missing_recordings` (by name) say in words why something cannot be shown;
    `sha256` is that of the record's own file.
    """

    compared: Compared
    findings: Findings
    sha256: str
    links: Links = field(default_factory=Links)
    missing_stills: Mapping[str, str] = field(default_factory=dict)
    missing_recordings: Mapping[str, str] = field(default_factory=dict)
    late: tuple[str, ...] = ()
    """What says that an addendum to it was not read."""

    @property
    def sealed(self) -> bool:
        """Whether it was sealed when it was compared, and is."""
        return self.compared.seal is not None and self.findings.seal is not None

    def entries(self, ids: Iterable[str]) -> tuple[Entry, ...]:
        """Entries by their ids. Raises BadInput for one that the record does not hold, or has dropped."""
        known = {entry.id: entry for entry in self.findings.entries if entry.stands}
        for one in ids:
            if one not in known:
                raise BadInput(f"{self.compared.stands_in}: holds no entry {one}, which is settled on; compare again")
        return tuple(known[one] for one in ids)

    def moments(self, ids: Iterable[str]) -> tuple[Moment, ...]:
        """When these entries were said."""
        evidence = tuple(piece for entry in self.entries(ids) for piece in entry.evidence)
        return tuple(dict.fromkeys(moments(evidence, self.findings, self.links)))


@dataclass(frozen=True)
class Pair:
    """Both records, told to one reader."""

    before: Walked
    after: Walked
    reader: Reader

    @property
    def sealed(self) -> bool:
        """Whether both records were sealed when they were compared, and are."""
        return self.before.sealed and self.after.sealed

    @property
    def late(self) -> tuple[str, ...]:
        """What says that an addendum to either record was not read."""
        return (*self.before.late, *self.after.late)

    def sides(
        self, before: Iterable[str], after: Iterable[str], place: tuple[str, str] | None = None
    ) -> tuple[Side, Side]:
        """Move-in and move-out evidence of a change.

        Where the move-in record shows nothing of the flaw, what else it says of the same room and component is shown.
        """
        earlier = self._side("before", self.before, before)
        if not earlier.shown and place is not None:
            earlier = replace(earlier, also=self._also(*place))
        return earlier, self._side("after", self.after, after)

    def _side(self, name: str, walked: Walked, ids: Iterable[str]) -> Side:
        told = walked.compared.date
        walk = f"{PAGE[name]}, {day_of(told)}" if told else PAGE[name]
        shown = tuple(self._shown(entry, walked, walk) for entry in walked.entries(tuple(ids)))
        return Side(walk, shown, "" if shown else f"The {PAGE[name].lower()} record names no such flaw here.")

    def _also(self, room: str, component: str) -> tuple[Shown, ...]:
        here = (entry for entry in self.before.findings.entries if (entry.room, entry.component) == (room, component))
        seen = (entry for entry in here if entry.stands and entry.kind in {"condition", "check"})
        return _together(self._shown(entry, self.before, PAGE["before"]) for entry in seen)

    def _shown(self, entry: Entry, walked: Walked, walk: str) -> Shown:
        told = Telling(walked.findings, self.reader, walked.links, walked.missing_stills).finding(entry)
        return Shown(
            says=capital(named(entry)),
            quotes=told.quotes,
            moments=told.moments,
            pictures=tuple(_of_walk(one, walk) for one in told.pictures),
            remarks=told.remarks,
            unreviewed=told.unreviewed,
        )


def _together(shown: Iterable[Shown]) -> tuple[Shown, ...]:
    """What was said in the same words stands once: `Entry, door: good; no dent; no scratch`."""
    found: dict[tuple[object, ...], Shown] = {}
    for one in shown:
        key = (one.quotes, one.moments)
        if key not in found:
            found[key] = one
            continue
        first = found[key]
        more = one.says.removeprefix(f"{first.says.partition(':')[0]}: ")
        pictures = tuple(dict.fromkeys((*first.pictures, *one.pictures)))
        unreviewed = first.unreviewed or one.unreviewed
        found[key] = replace(first, says=f"{first.says}; {more}", pictures=pictures, unreviewed=unreviewed)
    return tuple(found.values())


def _of_walk(picture: Picture, walk: str) -> Picture:
    """Whoever cannot see that it stands under its walk is told."""
    return replace(picture, alt=f"{walk}. {picture.alt}")
