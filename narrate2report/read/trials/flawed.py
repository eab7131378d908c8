"""Whether a word of working or failing belongs to a flaw: `it runs rough`, `one bulb's dead`, a toilet that runs."""

from __future__ import annotations

from narrate2report.read.lexis.phrase_tree import Mention
from narrate2report.read.speech.spoken import Spoken


def is_flawed_way(spoken: Spoken, mention: Mention) -> bool:
    """`the hot tap runs cold`, `it runs rough`: a flaw that begins with the word of working."""
    return any(
        term.start == mention.start and term.end > mention.end and term.of("condition") and not term.of("works")
        for term in spoken.found.terms
    )


def is_flawed_way_of(spoken: Spoken, mention: Mention, component: str) -> bool:
    """`the hot tap runs cold`: so does a fridge that works, and nothing else."""
    return any(
        term.start == mention.start
        and term.end > mention.end
        and bool(term.of("works"))
        and component not in {sense.id for sense in term.of("works")}
        and any(not sense.beside for sense in term.of("condition"))
        for term in spoken.found.terms
    )


def is_part_of_flaw(spoken: Spoken, cue: Mention) -> bool:
    """`there's dead flies`, `one bulb's dead`: the word belongs to a longer one."""
    return any(
        term.start < cue.end < term.end
        or (term.start < cue.start and cue.end == term.end and spoken.tokens[term.start].tag.startswith("NN"))
        for term in spoken.found.terms
        if term.of("condition")
    )


def is_flaw(spoken: Spoken, cue: Mention) -> bool:
    """Whether the word names a condition of anything: then it is that, and no trial."""
    return any(
        mention.start <= cue.start < mention.end and not any(sense.beside for sense in mention.of("condition"))
        for mention in spoken.found.terms
        if mention.of("condition")
    )


def is_flaw_of(spoken: Spoken, cue: Mention, component: str) -> bool:
    """`it's running`, said of a toilet, is a flaw of it."""
    return any(
        sense.beside == component
        for mention in spoken.found.terms
        if mention.start < cue.end and cue.start < mention.end
        for sense in mention.of("condition")
    )
