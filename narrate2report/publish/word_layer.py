"""Proposed words as a folder of vocabulary files in which each is one line that does not count until its mark is gone.

A list stands over several lines in brackets, so that a file is valid whichever of its lines a person has accepted.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from narrate2report.records.plain import one_line
from narrate2report.records.proposal import Addition, Place, Proposal
from narrate2report.wording import counted

MARK = "#"
"""At the start of a line it keeps the line from counting."""

FIRST_LINE = "# Words proposed from reviewed walks. None counts while its line starts with #."
HEAD = f"""{FIRST_LINE}
# To accept one, take away that first # and nothing else; to turn one down, leave it or take its line out.
# Behind each: how many of the sentences with these words were reviewed to mean this, in how many walks they led to a
# mistake that a person put right, how many mistakes of the reviewed walks are gone with it, and one of the sentences.
"""
LONGEST_QUOTE = 90


@dataclass(frozen=True)
class WordLine:
    """A line of a list of words: accepted ones count. `written` is the line as a person left it."""

    addition: Addition
    told: str = ""
    accepted: bool = False
    written: str | None = None


def proposed_line(proposal: Proposal) -> WordLine:
    """A proposal as a line that does not count yet."""
    quote = one_line(proposal.quote)
    shown = quote if len(quote) <= LONGEST_QUOTE else f"{quote[:LONGEST_QUOTE].rstrip()}…"
    return WordLine(proposal.addition, f"{evidence(proposal)}: “{shown}”")


def evidence(proposal: Proposal) -> str:
    """`4 of 5 sentences; 3 walks; mends 6`: what speaks for a proposal."""
    parts = [
        f"{proposal.so} of {counted(proposal.said, 'sentence')}",
        counted(proposal.walks, "walk"),
        f"mends {proposal.mends}" + (f", makes {proposal.makes}" if proposal.makes else ""),
    ]
    return "; ".join(parts)


def layer_files(lines: Sequence[WordLine]) -> dict[str, str]:
    """The text of each file, by its name without the ending."""
    by_file: dict[str, dict[Place, list[WordLine]]] = defaultdict(lambda: defaultdict(list))
    for line in lines:
        by_file[line.addition.place.file][line.addition.place].append(line)
    return {name: HEAD + "".join(f"{one}\n" for one in _file(lists)) for name, lists in sorted(by_file.items())}


def _file(lists: Mapping[Place, Sequence[WordLine]]) -> Iterator[str]:
    above: tuple[str, ...] = ()
    for place in sorted(lists):
        keys = place.keys
        for depth, key in enumerate(keys):
            if keys[: depth + 1] != above[: depth + 1]:
                yield f"{'  ' * depth}{key}:" + (" [" if depth == len(keys) - 1 else "")
        above = keys
        if not keys:
            yield "["
        yield from map(_line, lists[place])
        yield f"{'  ' * max(0, len(keys) - 1)}]"


def _line(line: WordLine) -> str:
    if line.written is not None:
        return line.written
    told = f"  # {line.told}" if line.told else ""
    return f"{' ' if line.accepted else MARK}   {json.dumps(line.addition.phrase, ensure_ascii=False)},{told}"
