"""Entries as W3C Web Annotations (Web Annotation Data Model, Recommendation of 2017-02-23), one JSON-LD document.

Each stretch of a recording that an entry rests on is an annotation: its target is that stretch, by a media fragment
(Media Fragments URI 1.0); its bodies are what the entry says, the exact words, and tags. In that model every body is
said of every target, so an entry that was said twice is two annotations with the same `identifying` body. What was
dropped is not among them.
"""

from __future__ import annotations

import base64
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from pathlib import PurePosixPath
from typing import Any, Final
from urllib.parse import quote

from narrate2report.publish.entry_words import LANGUAGE, entries_of, part_of, room_of, statement, unreviewed
from narrate2report.publish.standing import Heading
from narrate2report.records.findings import Entry, Evidence, Findings, Kind
from narrate2report.records.plain import one_line
from narrate2report.records.transcript import Recording
from narrate2report.wording import plain

CONTEXT: Final = "http://www.w3.org/ns/anno.jsonld"
FRAGMENTS: Final = "http://www.w3.org/TR/media-frags/"
"""What a fragment of a recording conforms to (section 4.2.1 of the model)."""

MOTIVATIONS: Final[dict[Kind, str]] = {
    "condition": "assessing",
    "check": "assessing",
    "follow_up": "commenting",
    "advice": "commenting",
    "handover": "describing",
    "description": "describing",
}
"""Which of the model's motivations (its section 3.3.5) an entry of each kind has."""

FORMATS: Final = {
    ".mp4": "video/mp4",
    ".mov": "video/quicktime",
    ".3gp": "video/3gpp",
    ".mkv": "video/matroska",
    ".webm": "video/webm",
    ".m4a": "audio/mp4",
    ".mp3": "audio/mpeg",
    ".flac": "audio/flac",
    ".ogg": "audio/ogg",
}
"""Media types as registered (IANA), by the ending of a file's name; others go without."""

SHORTEST_S = 0.01
"""A fragment must end after it begins, or it is passed over (Media Fragments, section 4.2.1)."""

Json = dict[str, Any]


def annotations_of(findings: Findings, heading: Heading, addresses: Mapping[str, str]) -> Json:
    """The whole record as a collection of one page. `addresses` says, by file name, where recordings are reached;
    others have their name.
    """
    recordings = {one.file: one for one in findings.recordings}
    sources = {
        file: _source(recordings.get(file), addresses.get(file, quote(file)))
        for file in dict.fromkeys(piece.recording for entry in findings.entries for piece in entry.evidence)
    }
    entries = entries_of(findings)
    made = [
        _Annotation(findings, heading, entry, number).as_json(sources[piece.recording], piece)
        for entry in entries
        for number, piece in enumerate(entry.evidence)
    ]
    collection = f"urn:uuid:{heading.uuid('annotations')}"
    page = f"urn:uuid:{heading.uuid('annotations', 'page')}"
    return {
        "@context": CONTEXT,
        "id": collection,
        "type": "AnnotationCollection",
        "label": f"{heading.about}: {heading.mark}",
        "total": len(made),
        "first": {"id": page, "type": "AnnotationPage", "partOf": collection, "startIndex": 0, "items": made},
    }


class _Annotation:
    """One stretch of an entry."""

    def __init__(self, findings: Findings, heading: Heading, entry: Entry, number: int) -> None:
        self._findings, self._heading, self._entry, self._number = findings, heading, entry, number

    def as_json(self, source: Json, piece: Evidence) -> Json:
        """As it stands in the page."""
        entry = self._entry
        made: Json = {
            "id": f"urn:uuid:{self._heading.uuid('annotation', entry.id, str(self._number))}",
            "type": "Annotation",
            "motivation": MOTIVATIONS[entry.kind],
        }
        if entry.decided is not None and (at := _utc(entry.decided.at)):
            made |= {"creator": {"type": "Person", "name": one_line(entry.decided.by)}, "created": at}
        made["body"] = [*self._bodies(piece)]
        fragment = f"t={piece.start:.2f},{max(piece.end, piece.start + SHORTEST_S):.2f}"
        selector = {"type": "FragmentSelector", "conformsTo": FRAGMENTS, "value": fragment}
        made["target"] = {"type": "SpecificResource", "source": source, "selector": selector}
        return made

    def _bodies(self, piece: Evidence) -> Iterator[Json]:
        entry = self._entry
        told = f"{room_of(entry)}, {part_of(entry)}: {statement(entry)}"
        yield _text(told, "describing", LANGUAGE)
        if piece.quote:
            yield _text(piece.quote, "highlighting", self._findings.transcript.language)
        yield _text(entry.id, "identifying")
        yield _text(room_of(entry), "tagging", LANGUAGE)
        yield _text(part_of(entry), "tagging", LANGUAGE)
        yield _text(plain(entry.kind), "classifying", LANGUAGE)
        yield _text(unreviewed() if entry.is_open else entry.state, "moderating", LANGUAGE)
        yield _text(self._heading.mark, "moderating", LANGUAGE)


def _text(words: str, purpose: str, language: str | None = None) -> Json:
    """Words that are plain text, whatever they hold."""
    body = {"type": "TextualBody", "value": words, "format": "text/plain", "purpose": purpose}
    return body | ({"language": language} if language else {})


def _source(recording: Recording | None, address: str) -> Json:
    """The recording: its address, and the name by its contents (RFC 6920) that stays when it is moved."""
    source: Json = {"id": address}
    if recording is not None:
        digits = base64.urlsafe_b64encode(bytes.fromhex(recording.sha256)).rstrip(b"=").decode("ascii")
        source["canonical"] = f"ni:///sha-256;{digits}"
        if recording.media and (form := FORMATS.get(PurePosixPath(recording.file).suffix.lower())):
            source |= {"type": "Video" if form.startswith("video/") else "Audio", "format": form}
    return source


def _utc(told: str) -> str | None:
    """A moment as the model wants it: in UTC, with `Z`; None for what is none."""
    try:
        at = datetime.fromisoformat(told)
    except ValueError:
        return None
    return at.astimezone(UTC).isoformat(timespec="seconds").replace("+00:00", "Z") if at.tzinfo else None
