"""`plan UNIT.yaml --to FOLDER`: the prompt card of a walk, one page of paper and one file for the phone."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from rich.console import Console

from narrate2report.commands.at_hand import record_at_hand, written
from narrate2report.commands.planned import read_plan, usual_rooms
from narrate2report.commands.words import word_folders
from narrate2report.plan.card import Wish, make_card
from narrate2report.plan.known import Known
from narrate2report.publish.card_html import card_html_of
from narrate2report.publish.card_pdf import card_pdf_of
from narrate2report.publish.card_told import ToldCard, told_card
from narrate2report.publish.language import language
from narrate2report.publish.report_pdf import Paper
from narrate2report.publish.report_values import Standing
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.records.addenda import addenda_beside
from narrate2report.records.card import WalkKind
from narrate2report.records.findings import Findings

Form = Literal["pdf", "html"]
FORMS: tuple[Form, ...] = ("pdf", "html")
HANDED_OVER = "handed_over"
"""The group of the vocabulary's components that change hands."""


@dataclass(frozen=True)
class WantedCard:
    """What the person at the keyboard asked for."""

    unit: Path
    to: Path
    kind: WalkKind | None = None
    last: Path | None = None
    paper: Paper = "letter"
    forms: tuple[Form, ...] = FORMS
    vocabulary: Path | None = None
    quiet: bool = False


def plan(wanted: WantedCard) -> tuple[Path, ...]:
    """Write the card and say where it is. All of its forms are made before the first is written.

    Raises NarrateError, with nothing written, for a unit file or a last record that cannot be used.
    """
    folders = word_folders(wanted.vocabulary)
    vocabulary = load_vocabulary(*folders)
    unit = read_plan(wanted.unit, vocabulary).unit
    last, standing = _last_walk(wanted.last) if wanted.last else (None, "draft")
    kind = wanted.kind or ("move_in" if last is None else "move_out")
    card = make_card(Wish(unit, kind, last, standing != "draft"), known(vocabulary))
    told = told_card(card, language("en", *folders))
    name = f"{wanted.unit.stem}.{kind}.card"
    places = written(wanted.to, {f"{name}.{form}": _made(form, told, wanted.paper) for form in wanted.forms})
    if not wanted.quiet:
        _tell(places, told)
    return places


def known(vocabulary: Vocabulary) -> Known:
    """What the words in use say that a card needs."""
    terms = vocabulary.components
    return Known(
        usual=usual_rooms(vocabulary),
        tried=frozenset(name for name, term in terms.items() if term.works or term.works_adj),
        handed=tuple(name for name, term in terms.items() if term.group == HANDED_OVER),
    )


def _last_walk(file: Path) -> tuple[Findings, Standing]:
    """The record at `file`, as the last sealed addendum to it has it."""
    findings, standing = record_at_hand(file)
    added = addenda_beside(file, findings).sealed
    return record_at_hand(added[-1].path) if added else (findings, standing)


def _made(form: Form, told: ToldCard, paper: Paper) -> bytes:
    return card_pdf_of(told, paper) if form == "pdf" else card_html_of(told)


def _tell(places: tuple[Path, ...], told: ToldCard) -> None:
    console = Console(highlight=False, markup=False)
    for place in places:
        console.print(f"{place}: {told.title}", soft_wrap=True)
    for remark in told.remarks:
        console.print(remark)
