"""Verbs of work that puts something right, and which form of which of them a word is."""

from __future__ import annotations

from typing import Final

PLAIN: Final = frozenset(
    "tighten snug nip screw unscrew reset swap change replace free unjam straighten bend reseat fasten refit rehang"
    " clip adjust reattach reconnect relight fix mend oil lube grease unclog cinch realign refasten".split()
)
"""Verbs of work that puts something right."""

BACK: Final = frozenset(
    "put pop push hook run slip stick knock hang slide press tap set snap turn drop fit wind tuck bang twist".split()
)
"""Verbs that do so with `back`, or with something new."""

IRREGULAR: Final = {
    "put": "put", "ran": "run", "bent": "bend", "stuck": "stick", "hung": "hang", "rehung": "rehang", "slid": "slide",
    "set": "set", "reset": "reset", "relit": "relight", "fit": "fit", "wound": "wind",
}  # fmt: skip


def form_of(norm: str) -> tuple[str | None, str]:
    """The verb of work that a word is a form of, and the form."""
    every = PLAIN | BACK
    if norm in IRREGULAR:
        return IRREGULAR[norm], "base or ed" if norm in every else "ed"
    if norm in every:
        return norm, "base"
    for ending in ("ing", "ed"):
        stem = norm.removesuffix(ending)
        for base in (stem, stem + "e", stem[:-1]):
            if stem != norm and base in every and (base != stem[:-1] or stem[-1:] == stem[-2:-1]):
                return base, ending
    return None, ""
