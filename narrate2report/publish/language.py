"""The language of a report as a value: its fixed wording, the names of ids, its dates and numbers.

The wording lies in `languages/`; the names of ids in `vocab/labels_*.yaml`. What was said on the
walk is never translated. Dates, numbers and plurals follow the Unicode CLDR, through Babel.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, datetime
from functools import cache
from pathlib import Path
from typing import Literal

import yaml
from babel import Locale
from babel.dates import format_date
from babel.numbers import format_decimal

from narrate2report.errors import BadInput
from narrate2report.publish.report_values import Mark, Reader, Standing
from narrate2report.publish.wording_files import wording_of
from narrate2report.records.base import Value
from narrate2report.records.findings import Entry, Looked, Reason
from narrate2report.records.header import GIVEN, OWN_CLOCK, SPOKEN
from narrate2report.records.labels import LANGUAGES, Labels
from narrate2report.shipped import shipped
from narrate2report.wording import ENGLISH, Phrases, Sort, joined, pieces, room_name, unit_name


class Language(Value):
    """Everything fixed that is printed, in one language. Texts with braces are filled by `told`."""

    tag: str
    locale: str
    courtesy: str
    marks: dict[Mark, str]
    readers: dict[Reader, str]
    standings: dict[Standing, str]
    titles: dict[str, str]
    walks: dict[str, str]
    looked: dict[Looked | Literal["nobody"], str]
    reasons: dict[Reason, str]
    sources: dict[str, str]
    counts: dict[str, dict[str, str]]
    facts: dict[str, str]
    told: dict[str, str]
    missing: dict[str, str]
    attached: dict[str, str]
    page: dict[str, str]
    cautions: dict[str, str]
    phrases: Phrases = ENGLISH

    def tell(self, key: str, /, **filled: str) -> str:
        """A sentence with what belongs into its braces."""
        return self.told[key].format(**filled)

    def number(self, number: int) -> str:
        """`2,000`, as this language writes it."""
        return str(format_decimal(number, locale=self.locale))

    def counted(self, what: str, number: int) -> str:
        """`1 entry`, `3 entries`."""
        forms = self.counts[what]
        form = Locale.parse(self.locale).plural_form(number)
        return forms.get(form, forms["other"]).format(n=self.number(number))

    def both(self, parts: list[str]) -> str:
        """`one and other`; one part alone stays as it is."""
        return self.tell("and", one=parts[0], other=parts[1]) if len(parts) > 1 else "".join(parts)

    def day(self, told: str, *, with_time: bool = False) -> str:
        """`2025-03-06T15:20:00Z` as `March 6, 2025` (`, 15:20 UTC`); what is no date stays as it is."""
        try:
            if not with_time or len(told) <= len("2025-03-06"):
                return self._long(date.fromisoformat(told[:10]))
            at = datetime.fromisoformat(told)
        except ValueError:
            return told
        zone = f" {at.tzname()}" if at.tzinfo else ""
        return f"{self._long(at.date())}, {at:%H:%M}{zone}"

    def _long(self, one: date) -> str:
        return str(format_date(one, format="long", locale=self.locale))

    def room(self, room: str) -> str:
        """A room by its id, with a capital first letter."""
        return room_name(room, self.phrases)

    def component(self, component: str) -> str:
        """A component by its id, as inside a sentence."""
        return self.phrases.name("components", component)

    def condition(self, condition: str) -> str:
        """A condition by its id, as inside a sentence."""
        return self.phrases.name("conditions", condition)

    def unit(self, unit: str) -> str:
        """`2b` as `unit 2B`."""
        return unit_name(unit, self.phrases)

    def says(self, entry: Entry, spoken_in: str) -> tuple[str, str]:
        """What an entry states, and apart from it the speaker's own words, where these are in another language."""
        told = pieces(entry, self.phrases)
        if spoken_in == self.tag:
            return joined(told), ""
        own = [replace(one, glue=", ") for one in told if one.spoken]
        return joined(one for one in told if not one.spoken), joined(own)

    def why_missing(self, key: str) -> str:
        """Why a file cannot be shown or opened, by its key in `missing`; empty for an empty one."""
        return self.missing.get(key, key)

    def source(self, told: str) -> str:
        """Where a fact of the header comes from."""
        if told.startswith(SPOKEN):
            return self.sources["spoken"].format(time=told.removeprefix(SPOKEN))
        return {GIVEN: self.sources["given"], OWN_CLOCK: self.sources["own_clock"]}.get(told, told)


@cache
def language(tag: str = "en", *folders: Path) -> Language:
    """The language by its tag, one of LANGUAGES, with the labels that own words in `folders` lay over its own.

    Raises BadInput where one of those files holds no labels.
    """
    if tag not in LANGUAGES:
        raise ValueError(f"{tag}: no language of {', '.join(LANGUAGES)}")
    read = Language.model_validate(wording_of("report", tag))
    names: dict[Sort, Mapping[str, str]] = {}
    for folder in (shipped("vocab"), *folders):
        labels = _labels(folder / f"labels_{tag}.yaml")
        for sort, found in labels.items():
            names[sort] = {**names.get(sort, {}), **found}
    return read.model_copy(update={"phrases": replace(read.phrases, names=names)})


def _labels(file: Path) -> dict[Sort, dict[str, str]]:
    if not file.is_file():
        return {}
    try:
        labels = Labels.model_validate(_yaml(file) or {})
    except (ValueError, OSError, yaml.YAMLError) as error:
        raise BadInput(f"{file}: holds no labels; see: narrate2report vocab check {file.parent}") from error
    return {
        "rooms": labels.rooms,
        "suffixes": labels.suffixes,
        "components": labels.components,
        "conditions": labels.conditions,
        "actions": labels.actions,
    }


def _yaml(file: Path) -> object:
    """The plain data of a file. Every scalar stays a string, `No` too."""
    return yaml.load(file.read_text(encoding="utf-8-sig"), Loader=yaml.BaseLoader)
