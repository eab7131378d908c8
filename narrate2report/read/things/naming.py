"""Which component each component word means: certain words first, then plain words beside them."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from narrate2report.read.lexis.phrase_tree import Mention, Sense
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.speech.spoken import Named, Spoken, relation_of
from narrate2report.read.things.other_words import is_material_of, is_other_word
from narrate2report.read.walk.place import OUT_OF_DOORS, Place

HOLDING = frozenset({"in", "inside", "between"})
"""Before a component in a condition phrase they make it the one that bears the condition."""

FOCUS_SENTENCES = 3
"""For how many sentences a component stays the owner of plain words such as `shelf` or `seal`."""


def name_components(spoken: Spoken, place: Place, number: int, vocabulary: Vocabulary) -> tuple[Named, ...]:
    """Which component each component word means: certain words first, then plain words beside them."""
    chosen: dict[int, tuple[Mention, str]] = {}
    for mention in spoken.terms("component"):
        certain = [sense.id for sense in mention.of("component")]
        if is_other_word(spoken, mention) or is_material_of(spoken, mention, chosen):
            continue
        chosen[mention.start] = (
            mention,
            _in_context(spoken, mention, chosen, place, number) or _of_room(certain, place, vocabulary),
        )
    for mention in spoken.terms("near", "in", "else"):
        plain = mention.of("near", "in", "else")
        if mention.start in chosen or mention.of("component") or is_other_word(spoken, mention):
            continue
        if is_material_of(spoken, mention, chosen):
            continue
        component = _plain_meaning(mention, plain, chosen, place, number, vocabulary, partial(_stands_by, spoken))
        if component:
            chosen[mention.start] = (mention, component)
    for start, (mention, _) in sorted(chosen.items()):
        if mention.of("component") and mention.of("near"):  # a slat, where a bed was only said in plain words
            before = {at: one for at, one in chosen.items() if at < start}
            owned = _in_context(spoken, mention, before, Place(), number) if before else None
            chosen[start] = (mention, owned) if owned else chosen[start]
    _give_to_owners(spoken, chosen)
    _put_on_what_has_it(spoken, chosen)
    _drop_rest_of_owner(spoken, chosen)
    within = [
        Named(found, phrase.start + 1, phrase.end, "of")
        for phrase in spoken.found.terms
        if phrase.start in spoken.found.within and (found := meaning_within(spoken, phrase, place, number, vocabulary))
    ]
    ends = frozenset(mention.end for mention, _ in chosen.values())
    whole = tuple(
        Named(
            component,
            mention.start,
            mention.end,
            "place" if _tells_a_side(spoken, mention) else relation_of(spoken, start, ends),
            _outdoors(component, place, vocabulary),
        )
        for start, (mention, component) in sorted(chosen.items())
    )
    return tuple(sorted((*whole, *within), key=lambda one: one.start))


INNER_FACES = frozenset({"floor", "wall", "ceiling"})

FURNISHED = frozenset(
    "cabinet vanity oven closet dishwasher refrigerator freezer drawer sink microwave washer dryer shower"
    " medicine_cabinet pantry range_hood".split()
)
"""What has a floor, walls and a top of its own."""


def _put_on_what_has_it(spoken: Spoken, chosen: dict[int, tuple[Mention, str]]) -> None:
    """`the floor of the cabinet`: no floor of a room; what is said of it is said of the cabinet."""
    for start, (mention, component) in sorted(chosen.items()):
        if component not in INNER_FACES:
            continue
        holder = _held_in(spoken, mention, chosen)
        if holder is not None:
            chosen[start] = mention, holder
            continue
        if spoken.norms(mention.end, mention.end + 1) != ["of"]:
            continue
        for at in (mention.end + 1, mention.end + 2):
            if at in chosen and chosen[at][1] in FURNISHED:
                chosen[start] = mention, chosen.pop(at)[1]
                break


def _held_in(spoken: Spoken, mention: Mention, chosen: dict[int, tuple[Mention, str]]) -> str | None:
    """`the oven has grease on the back wall`: a wall of what was named before, if it has one."""
    if mention.start < 1 or spoken.norms(mention.start - 1, mention.start) not in (["back"], ["side"], ["inside"]):
        return None
    before = [component for start, (_, component) in sorted(chosen.items()) if start < mention.start]
    return before[-1] if before and before[-1] in FURNISHED - {"closet", "shower"} else None


def _drop_rest_of_owner(spoken: Spoken, chosen: dict[int, tuple[Mention, str]]) -> None:
    """`the rubber of the fridge door`: the door only tells whose rubber."""
    for mention, _ in list(chosen.values()):
        if "of" in spoken.norms(mention.start, mention.end):
            chosen.pop(mention.end, None)


def _outdoors(component: str, place: Place, vocabulary: Vocabulary) -> str | None:
    """The room of what is only found outside, when it is spoken of from inside: the driveway through the window."""
    if component in vocabulary.rooms["garage"].owns and place.base in {"exterior", "yard", "parking"}:
        return "garage"
    if place.base in OUT_OF_DOORS or (component == "gate" and place.base == "stairs"):
        return None
    return next((room for room in ("exterior", "yard", "patio") if component in vocabulary.rooms[room].owns), None)


def _tells_a_side(spoken: Spoken, mention: Mention) -> bool:
    """`over on the patio door side`: a component that only says which side."""
    return spoken.norms(mention.end, mention.end + 1) in (["side"], ["end"])


def meaning_within(spoken: Spoken, phrase: Mention, place: Place, number: int, vocabulary: Vocabulary) -> str | None:
    """The component that a condition phrase names by itself: the drain in `hair in the drain`."""
    for mention in spoken.found.within.get(phrase.start, ()):
        marks = {sense.id for sense in phrase.of("condition")} <= {"stain", "debris", "mark", "residue", "paint_drip"}
        holding = HOLDING | {"on"} if marks else HOLDING
        before = spoken.norms(max(phrase.start, mention.start - 3), mention.start)
        closes = mention.end == phrase.end and spoken.tokens[mention.start - 1].tag in {"JJ", "VBN", "VBG", "NN"}
        if not closes and not holding & set(before):
            continue
        certain = [sense.id for sense in mention.of("component")]
        owners = {sense.beside: sense.id for sense in mention.of("near")}
        owned = next((owners[one.component] for one in spoken.named if one.component in owners), None)
        if certain:
            return owned or _of_room(certain, place, vocabulary)  # the bed's got a broken slat
        plain = mention.of("near", "in", "else")
        component = _plain_meaning(mention, plain, {}, place, number, vocabulary, partial(_stands_by, spoken))
        if component:
            return component
    return None


def meaning_of_opening(
    spoken: Spoken, phrase: Mention, place: Place, number: int, vocabulary: Vocabulary
) -> str | None:
    """The component that a condition phrase opens with: the light of `light flickers`."""
    mention = spoken.found.opening.get(phrase.start)
    if mention is None:
        return None
    certain = [sense.id for sense in mention.of("component")]
    if certain:
        return _of_room(certain, place, vocabulary)
    plain = mention.of("near", "in", "else")
    return _plain_meaning(mention, plain, {}, place, number, vocabulary, partial(_stands_by, spoken))


def _stands_by(spoken: Spoken, start: int) -> bool:
    before = spoken.norms(max(0, start - 3), start)
    return (
        _hangs_over(spoken, start)
        or bool(set(before) & {"by", "near", "beside", "opposite"})
        or before[:2] == ["next", "to"]
    )


def _hangs_over(spoken: Spoken, start: int) -> bool:
    before = spoken.norms(max(0, start - 2), start)
    return bool(set(before) & {"over", "above"}) and spoken.tokens[start].norm in STANDS_BELOW


STANDS_BELOW = frozenset("fridge refrigerator freezer washer dryer dishwasher toilet commode sink tub bath".split())
"""`cabinet door over the fridge, hinge is out`: what hangs above these is no part of them."""

OWNS = frozenset("of on to for from".split())
OWNER_OPENS = frozenset("the this that its your".split())
"""`the lid of the tank`, `the lid to the tank`: how a plain word is followed by what it belongs to."""
FAR_OWNER = 4
"""Words from a plain word to these: `the lid's cracked on the tank`."""


def _give_to_owners(spoken: Spoken, chosen: dict[int, tuple[Mention, str]]) -> None:
    """`the lid of the tank`: a plain word is that of what follows it, though both are plain."""
    for start, (mention, _) in list(chosen.items()):
        by_owner = {sense.beside: sense.id for sense in mention.of("near")}
        if not by_owner or mention.of("component"):
            continue
        clause = spoken.clause_of(start)
        for at in range(mention.end, min(clause.end - 2, mention.end + FAR_OWNER)):
            owner = chosen.get(at + 2)
            leads = spoken.tokens[at].norm in OWNS and spoken.tokens[at + 1].norm in OWNER_OPENS
            if leads and owner is not None and owner[1] in by_owner:
                chosen[start] = mention, by_owner[owner[1]]
                break


def _in_context(
    spoken: Spoken, mention: Mention, chosen: dict[int, tuple[Mention, str]], place: Place, number: int
) -> str | None:
    """What a certain word means beside its owner or in this room, where the vocabulary says so: `sliding door` of a
    wardrobe, `lock` of a window, `curtain` in a bathroom."""
    owners = {sense.beside: sense.id for sense in mention.of("near")}
    for start, (_, one) in sorted(chosen.items(), reverse=True):
        if one in owners and not _hangs_over(spoken, start):
            return owners[one]
    if place.lately and number - place.lately[-1][1] <= 1 and place.lately[-1][0] in owners and not chosen:
        return owners[place.lately[-1][0]]
    return next((sense.id for sense in mention.of("in") if sense.beside == place.base), None)


def _of_room(candidates: list[str], place: Place, vocabulary: Vocabulary) -> str:
    """Of several components called alike, the one that the room has."""
    term = vocabulary.rooms.get(place.base)
    usual = [one for one in candidates if term and (one in term.owns or one in term.expects)]
    return (usual or candidates)[0]


def _plain_meaning(
    mention: Mention,
    senses: tuple[Sense, ...],
    chosen: dict[int, tuple[Mention, str]],
    place: Place,
    number: int,
    vocabulary: Vocabulary,
    is_beside: Callable[[int], bool],
) -> str | None:
    """What a plain word means: beside its owner, in this room, or where nothing else fits.

    `is_beside` tells that a component is only what the thing stands by: `the drawer by the fridge`.
    """
    by_owner: dict[str, str] = {}
    for sense in senses:
        if sense.role == "near":
            by_owner.setdefault(sense.beside, sense.id)
    owners = [(start, component) for start, (_, component) in sorted(chosen.items()) if not is_beside(start)]
    earlier = [component for start, component in owners if start < mention.start]
    later = [component for start, component in owners if mention.start < start <= mention.end + 3]
    for owner in [*later, *reversed(earlier)]:
        if owner in by_owner:
            return by_owner[owner]
    standalone = any(sense.role in {"else", "in"} for sense in senses)
    reach = 1 if standalone else FOCUS_SENTENCES
    lately = place.lately[-1] if place.lately else None
    part = lately is not None and vocabulary.components[lately[0]].group != "surfaces"
    if lately is not None and part and lately[0] == place.subject and lately[0] in by_owner and number - lately[1] <= 1:
        return by_owner[lately[0]]  # the post of the mailbox that was just spoken of, not of the porch
    for sense in senses:
        if sense.role == "in" and sense.beside == place.base:
            return sense.id
    for owner, when in reversed(place.lately):
        if number - when <= (FOCUS_SENTENCES if owner == place.subject else reach) and (
            family := _family_match(owner, by_owner, vocabulary)
        ):
            return family
    for role in ("in", "else"):
        for sense in senses:
            if sense.role == role and (role == "else" or sense.beside == place.base):
                return sense.id
    return next((by_owner[one] for start, one in owners if start > mention.start and one in by_owner), None)


def _family_match(owner: str, by_owner: dict[str, str], vocabulary: Vocabulary) -> str | None:
    """The meaning beside a component, or beside what that component is a part of."""
    for one in (owner, *vocabulary.components[owner].part_of):
        if one in by_owner:
            return by_owner[one]
    return None
