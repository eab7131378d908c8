"""`annotations FILE --to X.jsonld`: the entries as W3C Web Annotations, for other programs."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import quote

from rich.console import Console

from narrate2report.commands.at_hand import address, checked_base, made_at, record_at_hand, recordings_at_hand
from narrate2report.errors import BadInput
from narrate2report.publish.annotations import CONTEXT, annotations_of
from narrate2report.publish.standing import heading_of
from narrate2report.records.canonical import readable_bytes
from narrate2report.records.files import check_place, write_whole
from narrate2report.records.findings import Findings
from narrate2report.wording import counted

ENDINGS = (".jsonld", ".json")


def annotate(file: Path, to: Path, link_base: str | None) -> None:
    """Write the entries of a record as one JSON-LD document, and say how many annotations it holds.

    Raises NarrateError for a name that is none of JSON-LD, a base that is no address of recordings, or a file that
    may not be taken the place of.
    """
    if to.suffix.lower() not in ENDINGS:
        raise BadInput(f"--to {to}: annotations are written as .jsonld (or .json)")
    base = checked_base(link_base)
    if base is not None and "{seconds}" in base:
        raise BadInput(f"--link-base {base}: leave {{seconds}} out; the time stands in each annotation")
    findings, standing = record_at_hand(file)
    addresses = _on_the_web(findings, base) if base else _beside(findings, file, to)
    heading = heading_of(findings, standing, made_at(findings))
    made = annotations_of(findings, heading, addresses)
    check_place(to, "annotations", lambda head: CONTEXT.encode() in head)
    write_whole(to, readable_bytes(made))
    told = f"{to}: {heading.mark}, {counted(int(made['total']), 'annotation')}"
    Console(highlight=False, markup=False).print(told, soft_wrap=True)


def _on_the_web(findings: Findings, base: str) -> dict[str, str]:
    """The address of each recording, as links of a report begin."""
    pattern = base if "{file}" in base else f"{base.rstrip('/')}/{{file}}"
    return {one.file: pattern.replace("{file}", quote(one.file)) for one in findings.recordings}


def _beside(findings: Findings, file: Path, to: Path) -> dict[str, str]:
    """How each recording at hand is reached from the annotations: an address without a host starts at their file."""
    places, _ = recordings_at_hand(findings, file)
    return {name: address(place, to.parent) for name, place in places.items()}
