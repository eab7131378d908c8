"""The bytes of a transcript as lines, or one clear sentence on why they are none."""

from __future__ import annotations

from pathlib import Path

from narrate2report.errors import BadInput
from narrate2report.records.plain import NOT_TEXT

LARGEST = 64 << 20
"""Bytes; the words of a week of talk are fewer."""

UTF_16_MARKS = (b"\xff\xfe", b"\xfe\xff")
"""Byte-order marks that no UTF-8 text can begin with."""

LONGEST_LINE = 20_000
"""Characters; about half an hour of talk without a single time."""


def looks_like_text(head: bytes) -> bool:
    """Whether the first bytes of a file are those of a text rather than of a recording.

    A text holds no zero bytes (UTF-16 aside, known by its byte-order mark) and few other control characters.
    """
    if head.startswith(UTF_16_MARKS):
        return True
    if b"\0" in head:
        return False
    odd = sum(byte < 32 and byte not in b"\t\n\r\f\x1b" for byte in head)
    wide = sum(byte >= 0x80 for byte in head)
    return odd * 50 <= len(head) and (wide * 3 <= len(head) or _is_utf8(head))


def _is_utf8(head: bytes) -> bool:
    try:
        head.decode("utf-8")
    except UnicodeDecodeError as error:
        return error.start >= len(head) - 3  # the last character may be cut off
    return True


def read_text(path: Path) -> str:
    """A UTF-8 text with plain line feeds; a byte-order mark and what a terminal would obey are taken off.

    Raises BadInput naming the line and byte of the first bad character.
    """
    try:
        if path.stat().st_size > LARGEST:
            raise BadInput(f"{path}: is over {LARGEST >> 20} MB, too large for a transcript")
        raw = path.read_bytes()
    except OSError as error:
        raise BadInput(f"{path}: cannot be read ({error.strerror or error})") from error
    if raw.startswith(UTF_16_MARKS):
        raise BadInput(f"{path}: is UTF-16 text; save it as UTF-8")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        # With a byte-order mark the decoder counts from behind it.
        at = error.start + (3 if raw.startswith(b"\xef\xbb\xbf") else 0)
        line = raw.count(b"\n", 0, at) + 1
        raise BadInput(
            f"{path}: line {line}: byte 0x{raw[at]:02x} (offset {at}) is not UTF-8; save the file as UTF-8"
        ) from error
    if "\0" in text:
        line = text.count("\n", 0, text.index("\0")) + 1
        raise BadInput(f"{path}: line {line}: holds a zero byte; this is not a text")
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    return NOT_TEXT.sub(lambda odd: " " if odd[0].isspace() else "", text)


def lines_of(text: str, path: Path) -> list[str]:
    """The lines of a timed text. Raises BadInput for one so long that its times would mean nothing."""
    lines = text.split("\n")
    for number, line in enumerate(lines, start=1):
        if len(line) > LONGEST_LINE:
            raise BadInput(
                f"{path}: line {number}: {len(line):,} characters in one line; "
                "a transcript has a time for each sentence"
            )
    return lines
