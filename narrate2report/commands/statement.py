"""`statement SETTLEMENT --to FOLDER`: a settlement as an itemised statement to print and send, with a letter."""

from __future__ import annotations

import hashlib
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import UTC, datetime, time
from pathlib import Path
from typing import Final

from rich.console import Console

from narrate2report.commands.at_hand import (
    address,
    checked_base,
    fitted_stills,
    record_at_hand,
    recordings_at_hand,
    stills_at_hand,
    written,
)
from narrate2report.commands.report import FORMS, Form
from narrate2report.commands.sealed_walk import late_addenda
from narrate2report.errors import BadInput
from narrate2report.publish.language import language
from narrate2report.publish.report_links import Links
from narrate2report.publish.report_pdf import Paper
from narrate2report.publish.statement_calendar import statement_calendar
from narrate2report.publish.statement_checks import check_settlement
from narrate2report.publish.statement_evidence import Pair, Walked
from narrate2report.publish.statement_html import statement_html
from narrate2report.publish.statement_letter import letter_of
from narrate2report.publish.statement_pdf import statement_pdf
from narrate2report.publish.statement_values import Reader, Statement
from narrate2report.publish.statement_whole import Files, statement_of
from narrate2report.records.beside import place_of
from narrate2report.records.compared import read_comparison
from narrate2report.records.comparison import Compared
from narrate2report.records.digest import digest_file
from narrate2report.records.files import read_bytes, record_from
from narrate2report.records.money import is_currency
from narrate2report.records.settlement import Settlement

_ENDINGS: Final = (".settlement.json", ".json")


@dataclass(frozen=True)
class WantedStatement:
    """What the person at the keyboard asked for. Raises BadInput for a link base that is no web address."""

    file: Path
    to: Path
    reader: Reader = "resident"
    paper: Paper = "letter"
    link_base: str | None = None
    quiet: bool = False
    forms: tuple[Form, ...] = FORMS

    def __post_init__(self) -> None:
        checked_base(self.link_base)

    @property
    def name(self) -> str:
        """`flat` for `flat.settlement.json`, and for `flat.json` too."""
        ending = next((one for one in _ENDINGS if self.file.name.endswith(one)), "")
        return self.file.name.removesuffix(ending) or "settlement"


def statement(wanted: WantedStatement) -> tuple[Path, ...]:
    """Write the statement and its letter, and say where they are. All is made before the first is written.

    Raises NarrateError, with nothing written, where that cannot be.
    """
    raw = read_bytes(wanted.file)
    settlement = _settlement(raw, wanted.file)
    before, stills_before = _walked(settlement.comparison.before, "move-in", wanted)
    after, stills_after = _walked(settlement.comparison.after, "move-out", wanted)
    with tempfile.TemporaryDirectory(prefix="narrate2report-") as smaller:
        stills, spoilt = fitted_stills(stills_before | stills_after, Path(smaller))
        pair = Pair(_without(before, _told(spoilt)), _without(after, _told(spoilt)), wanted.reader)
        content = statement_of(settlement, pair, _files(settlement, raw, wanted))
        made = {f"{wanted.name}.statement.{wanted.reader}.{form}": _made(form, content, stills, raw, settlement, wanted)
                for form in wanted.forms}  # fmt: skip
    if wanted.reader == "resident":
        made[f"{wanted.name}.letter.txt"] = letter_of(settlement, sealed=pair.sealed, late=pair.late).encode()
    else:
        made[f"{wanted.name}.dates.ics"] = statement_calendar(settlement)
    places = written(wanted.to, made)
    if not wanted.quiet:
        _tell(places, content)
    return places


def _made(
    form: Form,
    content: Statement,
    stills: Mapping[str, Path],
    raw: bytes,
    settlement: Settlement,
    wanted: WantedStatement,
) -> bytes:
    if form == "html":
        return statement_html(content, stills)
    at = datetime.combine(settlement.today, time(), UTC)
    return statement_pdf(content, stills, raw, at, wanted.paper)


def _told(missing: Mapping[str, str]) -> dict[str, str]:
    """Why something is missing, in words."""
    return {name: language().missing[why] for name, why in missing.items()}


def _tell(places: tuple[Path, ...], content: Statement) -> None:
    console = Console(highlight=False, markup=False)
    for place in places:
        console.print(str(place), soft_wrap=True)
    for alarm in content.alarms:
        console.print(alarm, soft_wrap=True)
    console.print(content.total_told, soft_wrap=True)


def _settlement(raw: bytes, file: Path) -> Settlement:
    settlement = record_from(raw, file, Settlement)
    if not is_currency(settlement.currency):
        raise BadInput(f"{file}: {settlement.currency!a} is no currency of ISO 4217; settle again")
    try:
        check_settlement(settlement)
    except BadInput as error:
        raise BadInput(f"{file}: {error}") from error
    return settlement


def _walked(compared: Compared, side: str, wanted: WantedStatement) -> tuple[Walked, dict[str, Path]]:
    """A record beside the settlement, with its pictures. Raises BadInput where it is not the one that was compared."""
    place = place_of(compared.stands_in, wanted.file)
    if not place.is_file():
        raise BadInput(f"{place}: not there; keep the settlement in the folder of the two records that it names")
    findings, _ = record_at_hand(place)
    if compared.last_seal is not None and (findings.seal is None or findings.seal.sha256 != compared.last_seal):
        raise BadInput(f"{place}: is not the record that was compared (its seal differs); compare and settle again")
    recordings, missing = recordings_at_hand(findings, place)
    opened = {name: address(recording, wanted.to) for name, recording in recordings.items()}
    stills, gone = stills_at_hand(findings, place)
    links = Links(opened, wanted.link_base)
    late = late_addenda(compared, wanted.file, findings, side)
    sha256 = digest_file(place).sha256
    return Walked(compared, findings, sha256, links, _told(gone), _told(missing), late), stills


def _without(walked: Walked, spoilt: Mapping[str, str]) -> Walked:
    return replace(walked, missing_stills={**walked.missing_stills, **spoilt})


def _files(settlement: Settlement, raw: bytes, wanted: WantedStatement) -> Files:
    settled = hashlib.sha256(raw).hexdigest()
    place = place_of(settlement.comparison.file, wanted.file)
    if not place.is_file():
        return Files(wanted.name, wanted.file.name, settled)
    changes = read_comparison(place).changes
    return Files(wanted.name, wanted.file.name, settled, digest_file(place).sha256, changes)
