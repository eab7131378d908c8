"""Condition phrases that name their own component: `caulk is pulling away`, `hair in the drain`, `tape over the alarm`.

From a condition word in a sentence to the component that its own words, or those that they end before, say it is on;
where they name none, `bearers` asks the grammar around them.
"""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.lexis.phrase_tree import Mention, Sense
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.things.bearers import Bearer
from narrate2report.read.things.naming import meaning_of_opening, meaning_within

SOMEBODY = frozenset("somebody someone they he she who tenant tenants resident residents people movers kids".split())
LEADING = frozenset({"of", "through"})
"""Words with which a phrase leads to what it is said of: `piled up in front of`, `goes all the way through`."""
OBJECT_OPENS = frozenset("the this that these those our my your".split())


def told_within(scene: Scene, mention: Mention, senses: Sequence[Sense]) -> tuple[Bearer, ...]:
    """`caulk is pulling away`, `hair in the drain`: a phrase that names its own component."""
    spoken, vocabulary = scene.spoken, scene.vocabulary
    lying = all(vocabulary.conditions[sense.id].class_ in {"damage", "soil", "hazard"} for sense in senses)
    clause = spoken.clause_of(mention.start)
    of_it = any(one.relation == "topic" and one.end <= mention.start for one in spoken.named_in(clause))
    source = of_it and (not lying or _has_come_out(spoken, mention))
    if not source and (followed := _object_of(spoken, mention)):
        return (
            Bearer(followed.component, f"'{spoken.words(mention.start, followed.end)}'", True, followed, link="object"),
        )
    inner = meaning_within(spoken, mention, scene.place, scene.number, vocabulary) if lying else None
    if inner:
        return (Bearer(inner, f"'{spoken.words(mention.start, mention.end)}' names it", True, link="within"),)
    for sense in senses:
        default = vocabulary.conditions[sense.id].default
        words = " ".join(spoken.norms(mention.start, mention.end)).removeprefix("the ")
        if default and mention.end - mention.start > 2 and words.startswith(default.replace("_", " ")):
            return (Bearer(default, f"'{spoken.words(mention.start, mention.end)}' names it", True, link="within"),)
    opening = meaning_of_opening(spoken, mention, scene.place, scene.number, vocabulary)
    part = vocabulary.components[opening].part_of if opening else ()
    told = [one for one in spoken.named_in(clause) if one.end <= mention.start] or scene.place.subject in part
    if opening and not told and any(token.is_finite for token in spoken.tokens[mention.start : mention.end]):
        return (Bearer(opening, f"'{spoken.words(mention.start, mention.end)}' opens with it", True, link="within"),)
    return ()


def _has_come_out(spoken: Spoken, mention: Mention) -> bool:
    """`the towel bar's pulled right out of`, before `the drywall`: what it came out of only tells from where."""
    said = [norm for norm in spoken.norms(mention.start, mention.end) if norm != "the"]
    return said[-2:] in (["out", "of"], ["off", "of"], ["away", "from"], ["loose", "from"], ["off", "from"])


def _object_of(spoken: Spoken, mention: Mention) -> Named | None:
    """`a sofa in front of the exit`, `tape over the alarm`, `blocking the vent`: a phrase that ends in a preposition
    or a verb of the present, with or without an article, is said of the component that follows; so is what somebody
    did to it (`somebody gouged the floor`)."""
    tags = [token.tag for token in spoken.tokens[mention.start : mention.end]]
    ends_before_it = (tags[:-1] if tags[-1] == "DT" else tags)[-1:] in (["IN"], ["TO"], ["VBG"], ["VBZ"])
    if not (ends_before_it and len(tags) > 1) and not _is_done_by_somebody(spoken, mention):
        return None
    one = next((one for one in spoken.named if one.start >= mention.end), None)
    if one is None or one.start not in spoken.clause_of(mention.start):
        return None
    between = spoken.tokens[mention.end : one.start]
    leads = bool(LEADING & set(spoken.norms(max(mention.start, mention.end - 2), mention.end)))
    if one.relation == "of" and not (leads and all(token.tag in {"DT", "PRP$", "JJ"} for token in between)):
        return None
    plain = all(token.tag in {"DT", "JJ", "PRP$", "NN", "RB"} for token in between)
    return one if plain and len(between) <= 3 else None


def _is_done_by_somebody(spoken: Spoken, mention: Mention) -> bool:
    """`somebody gouged`, before `the floor`."""
    before = spoken.norms(max(0, mention.start - 1), mention.start)
    after = spoken.norms(mention.end, mention.end + 1)
    done = spoken.tokens[mention.end - 1].tag in {"VBD", "VBN"} and mention.end - mention.start == 1
    return done and bool(SOMEBODY & set(before)) and bool(OBJECT_OPENS & set(after))
