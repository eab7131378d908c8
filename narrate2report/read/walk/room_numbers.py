"""Which room of its kind: `bedroom two`, `the second bedroom`, `bedroom B`, `Room B`."""

from __future__ import annotations

import re

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.lexis.vocabulary import SEVERAL
from narrate2report.read.speech.spoken import Spoken
from narrate2report.read.walk.led_in import LEADING, opens
from narrate2report.read.walk.place import Place

ORDINALS = {"first": "1", "second": "2", "third": "3", "fourth": "4", "one": "1", "two": "2", "three": "3", "four": "4",
            "five": "5", "1": "1", "2": "2", "3": "3", "4": "4", "5": "5", "too": "2", "to": "2",
            "1st": "1", "2nd": "2", "3rd": "3", "4th": "4"}  # fmt: skip

LETTERED = {"room": "bedroom", "bed": "bedroom", "br": "bedroom", "bath": "bathroom"}
"""Short forms that are rooms when a letter or number follows them at the start of a sentence."""

NO_NOUN = frozenset({"VBZ", "VBP", "MD", "UH", "DT"})
"""Tags of words before which `a` is no article but a letter: `bedroom A has two windows`."""

ONWARD = frozenset({"now", "next", "then"})


def numbered(spoken: Spoken, mention: Mention, room: str) -> tuple[str, int]:
    """`bedroom two`, `the second bedroom`, `bedroom B`: the number becomes the suffix."""
    tokens = spoken.tokens
    if room not in SEVERAL:
        return room, mention.end
    if mention.end < len(tokens):
        after = tokens[mention.end].norm
        skip = 1 if after in {"number", "#"} and mention.end + 1 < len(tokens) else 0
        after = tokens[mention.end + skip].norm
        last = mention.end + skip + 1 >= len(tokens)
        follows = "" if last else tokens[mention.end + skip + 1].text
        if (
            after in ORDINALS
            and (after not in {"to", "too"} or last or follows in {",", "."})
            and (last or not follows.isalpha() or after.isdigit() or _is_its_number(spoken, mention, skip))
        ):
            return f"{room}.{ORDINALS[after]}", mention.end + skip + 1
        letter = after.removesuffix(".")
        no_noun = last or not follows.isalpha() or follows in ONWARD
        no_noun = no_noun or tokens[mention.end + skip + 1].tag in NO_NOUN
        if re.fullmatch(r"[a-h]", letter) and no_noun:
            return f"{room}.{letter}", mention.end + 1
    if (
        mention.start
        and tokens[mention.start - 1].norm in ORDINALS
        and tokens[mention.start - 1].norm not in {"one", "to", "too"}
    ):
        return f"{room}.{ORDINALS[tokens[mention.start - 1].norm]}", mention.end
    if spoken.norms(max(0, mention.start - 2), mention.start) == ["number", "one"]:
        return f"{room}.1", mention.end
    return room, mention.end


def _is_its_number(spoken: Spoken, mention: Mention, skip: int) -> bool:
    """`bedroom two the carpet is new`, and not `bedroom two windows`: the number counts nothing that follows."""
    tokens, at = spoken.tokens, mention.end + skip
    if tokens[at].norm in {"to", "too"} or not opens(spoken, mention):
        return False
    if tokens[at].norm == "one":
        pointed = mention.start > 0 and tokens[mention.start - 1].norm in {"the", "this", "that", "a"}
        return not pointed and tokens[at + 1].tag in {"NNS", "DT", "PRP", "EX", "VBN"}
    return tokens[at + 1].tag in {"DT", "PRP", "PRP$", "EX", "RB", "UH", "VBN", "VBZ", "IN", "CD"}


def lettered_room(spoken: Spoken) -> str | None:
    """`Room B`: a let room of a shared unit, at the start of a sentence or introduced."""
    norms = spoken.norms()
    introduced = {cue.end for cue in spoken.cues("entering")}
    for at in range(len(norms) - 1):
        kind = LETTERED.get(norms[at])
        if kind is None:
            continue
        skip = 1 if norms[at + 1] == "number" and at + 2 < len(norms) else 0
        label = norms[at + 1 + skip].rstrip(".")
        number = ORDINALS.get(label, label)
        opening = at in introduced or (at < 6 and all(norm in LEADING or not norm.isalnum() for norm in norms[:at]))
        spoken_number = norms[at + 1] not in {"to", "too"} and (label != "a" or norms[at] == "room")
        if opening and spoken_number and re.fullmatch(r"[a-h]|[1-9]", number):
            return f"{kind}.{number}"
    return None


def next_numbered(spoken: Spoken, place: Place) -> str | None:
    """`on to number three then`, said in bedroom two: the next room of the kind that is being walked."""
    kind, _, suffix = (place.room or "").partition(".")
    if kind not in SEVERAL or suffix not in ORDINALS.values():
        return None
    norms = [
        norm for norm in spoken.norms() if norm.isalnum() and norm not in {"then", "now", "okay", "next", "please"}
    ]
    led = all(norm in LEADING for norm in norms[:-2]) and norms[-2:-1] in (["number"], ["to"], ["into"])
    number = ORDINALS.get(norms[-1]) if led else None
    return f"{kind}.{number}" if number not in {None, suffix} else None
