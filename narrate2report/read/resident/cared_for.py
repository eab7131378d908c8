"""Which component care is asked for: the object of the order, what `it` points to, or what such care is usual of."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.spoken import Named, Spoken
from narrate2report.read.things.focus import Focus
from narrate2report.read.things.pointing import POINTING, determines
from narrate2report.read.things.whereabouts import ROOM_GENERAL

AT_OBJECT = frozenset("from off against into onto on in at to inside of for".split())
"""Words between the order and what it is about: `pull the water from the glass`."""

TIME = frozenset("after before during since until".split())
INSTRUMENT = frozenset("a an some another little few those".split())
CERTAIN = frozenset("the this that these those your both all".split())
UNCERTAIN = frozenset({"handed_over"})
PLAIN = 2
"""From this trust on the first order that says it is taken."""

THERE = frozenset("there here in down".split())
OWNED = frozenset("your that those this these".split())
REMOVALS = frozenset("take remove move roll clear pick bring get".split())


@dataclass(frozen=True)
class CaredFor:
    """A component that care is asked for, how it was found, and how far that is to be trusted (3 is best)."""

    component: str
    how: str
    trust: int


def cared_for(scene: Scene, orders: Sequence[tuple[Clause, int]], focus: Focus) -> CaredFor | None:
    """The component of the first order that says it plainly, else of the one that says it best."""
    found = [one for clause, at in orders if (one := _of_order(scene, clause, at, focus, orders)) is not None]
    plain = next((one for one in found if one.trust >= PLAIN), None)
    return plain or max(found, key=lambda one: one.trust, default=None)


def also_cared_for(scene: Scene, orders: Sequence[tuple[Clause, int]], focus: Focus) -> list[tuple[int, CaredFor]]:
    """`empty the lint every load, and leave the washer open`: what later orders name as their own object."""
    found: list[tuple[int, CaredFor]] = []
    for clause, at in orders[1:]:
        verb = scene.spoken.tokens[at]
        one = (
            _of_order(scene, clause, at, focus, orders) if clause.link == "and" and verb.tag in {"VB", "VBP"} else None
        )
        if one is not None and one.trust > PLAIN and "is named" in one.how:
            found.append((at, one))
    return found


def _of_order(
    scene: Scene, clause: Clause, at: int, focus: Focus, orders: Sequence[tuple[Clause, int]]
) -> CaredFor | None:
    """What one order is about. `at` is where it starts."""
    spoken = scene.spoken
    objects = [one for one in spoken.named_in(clause) if one.start >= at and _is_object(scene, one)]
    pointed = _points(spoken, clause, at)
    usual = _usual(scene, focus)
    guarded = _guarded(spoken, at, objects)
    if guarded is not None:
        return CaredFor(guarded.component, f"to be kept off '{spoken.words(guarded.start, guarded.end)}'", 3)
    if (off := _guards_it(spoken, clause, at)) is not None and (shielded := _named_before(scene, at)):
        return CaredFor(shielded, f"what '{spoken.tokens[off].text}' points to", 3)
    plain = [one for one in objects if one.relation != "place"]
    if plain and (washed := _washed_in_another(scene, plain, at, focus)) is not None:
        return washed
    if usual is not None and plain and spoken.words(plain[0].start, plain[0].end).lower() in ANY_PART:
        return usual
    if plain and not (pointed is not None and pointed < plain[0].start and plain[0].relation == "of"):
        return CaredFor(plain[0].component, f"'{spoken.words(plain[0].start, plain[0].end)}' is named", 3)
    if pointed is not None and (named := _named_before(scene, pointed)):
        return CaredFor(named, f"what '{spoken.tokens[pointed].text}' points to", 3)
    near = 3 if {"not", "never"} & set(spoken.norms(at, at + 2)) else 2
    if pointed is None and (why := _in_its_reason(scene, clause)) is not None and not objects:
        return CaredFor(why.component, f"'{spoken.words(why.start, why.end)}' suffers", 2)
    handled = pointed is not None and pointed - at <= near and usual is None
    if handled and (target := _lately(scene, focus)):
        return CaredFor(target, f"what '{spoken.tokens[pointed or at].text}' points to", 2)
    away = [one for one in objects if set(spoken.norms(max(at, one.start - 3), one.start)) & AT_OBJECT]
    if away:
        return CaredFor(away[0].component, f"'{spoken.words(away[0].start, away[0].end)}' is named", 3)
    if usual is not None:
        return usual
    if pointed is not None and (target := _lately(scene, focus)):
        return CaredFor(target, f"what '{spoken.tokens[pointed].text}' points to", 2)
    asked = {one.index for one, _ in orders}
    later = next((one for one in spoken.named if one.start > at and _is_later(scene, one, asked)), None)
    if later is not None and later.start >= clause.end:
        trust = 1 if spoken.clause_of(later.start).link == "because" else 2
        return CaredFor(later.component, f"'{spoken.words(later.start, later.end)}' is named", trust)
    earlier = [one for one in spoken.named if one.end <= at and _is_object(scene, one)]
    earlier = [one for one in earlier if spoken.clause_of(one.start).link != "because"] or earlier
    topics = [one for one in earlier if one.relation != "place"] or earlier
    if topics:
        return CaredFor(topics[-1].component, f"'{spoken.words(topics[-1].start, topics[-1].end)}' was named", 2)
    if objects:
        return CaredFor(objects[0].component, f"'{spoken.words(objects[0].start, objects[0].end)}' is named", 1)
    return _of_the_room(scene, clause, at) or _in_focus(scene, at, focus)


WASHING = frozenset("pop put throw stick run bung soak chuck toss wash rinse".split())


def _washed_in_another(scene: Scene, objects: Sequence[Named], at: int, focus: Focus) -> CaredFor | None:
    """`run that hood, and pop the filter in the dishwasher`: where a part is washed is not what it is of."""
    spoken = scene.spoken
    if len(objects) < len(("filter", "dishwasher")) or not WASHING & set(spoken.norms(at, at + 3)):
        return None
    part, place = objects[0], objects[1]
    between = spoken.norms(part.end, place.start)
    if part.component != place.component or not {"in", "through", "into"} & set(between):
        return None
    before = _named_before(scene, at) or _lately(scene, focus)
    return CaredFor(before, f"what the '{spoken.words(part.start, part.end)}' is of", 3) if before else None


HERE = (["in", "here"], ["out", "here"], ["down", "here"], ["up", "here"])
INSIDE = frozenset("in on inside into".split())
WALKED_ON = frozenset("floor carpet tile deck".split())
FOOTWEAR = frozenset("shoes boots heels trainers".split())


def _of_the_room(scene: Scene, clause: Clause, at: int) -> CaredFor | None:
    """`no barbecues out here`, `don't store petrol in here`, `no smoking`: a rule for the whole room; shoes are taken
    off for the floor."""
    norms = scene.spoken.norms(at, clause.end)
    if FOOTWEAR & set(norms):
        lately = (one for one, _ in reversed(scene.place.lately) if one in WALKED_ON)
        return CaredFor(next(lately, "floor"), "shoes are on it", 1)
    bans = norms[:1] == ["no"] and not POINTING & set(norms)
    forbids = "not" in norms[:4] or bans
    all_of_it = scene.spoken.norms(at)
    here = any(all_of_it[one : one + 2] in HERE for one in range(len(all_of_it)))
    smoking = bans and norms[1:2] == ["smoking"] and scene.spoken.tokens[at + 1].tag != "JJ"
    smoking = smoking and norms[2:3] not in (["property"], ["building"], ["policy"])
    rooms = any(
        INSIDE & set(scene.spoken.norms(max(at, term.start - 2), term.start))
        for term in scene.spoken.terms("room", within=clause)
    )
    if smoking or (forbids and (here or rooms)):
        return CaredFor(ROOM_GENERAL, f"'{scene.spoken.words(at, clause.end)}' is of the room", 2)
    return None


KEEPS = frozenset(
    "stays stay drag dragging slide sliding scoot keep stack store lean park push shove keeping stacking storing"
    " leaning parking pushing".split()
)
OFF = frozenset(
    {
        ("off",),
        ("past",),
        ("away", "from"),
        ("clear", "of"),
        ("out", "of"),
        ("against",),
        ("front", "of"),
        ("near",),
        ("across",),
        ("over",),
    }
)


def _guarded(spoken: Spoken, at: int, objects: Sequence[Named]) -> Named | None:
    """`keep furniture off that heater`, `don't park a sofa in front of the vent`: what something is kept from."""
    if not KEEPS & set(spoken.norms(at, at + 7)):
        return None
    for one in objects:
        before = spoken.norms(max(at, one.start - 4), one.start)
        near = [norm for norm in before if norm not in {"the", "that", "this", "those", "these", "any", "your", "a"}]
        if tuple(near[-1:]) in OFF or tuple(near[-2:]) in OFF:
            return one
    return None


ANY_PART = frozenset({"door", "lid", "seal", "drawer"})
"""Parts that many things have: what the care is usual of tells which is meant."""

HURTS = frozenset(
    "chew chews scratch scratches mark marks mar mars stain stains ruin ruins dent dents damage damages eat eats clog"
    " clogs wreck wrecks kill kills dull dulls pit pits tear tears burn burns warp warps block blocks etch etches"
    " strip strips".split()
)


def _in_its_reason(scene: Scene, clause: Clause) -> Named | None:
    """`please don't use those hooks, they chew up the seal`: what suffers, in the reason right behind the order."""
    spoken = scene.spoken
    for later in spoken.clauses[clause.index + 1 : clause.index + 2]:
        norms = [norm for norm in spoken.norms(later.start, later.end) if norm not in {"because", "as", "since"}]
        told = norms[:1] in (["they"], ["it"], ["that"]) and bool(HURTS & set(norms[1:4]))
        named = [one for one in spoken.named_in(later) if one.relation != "place"] if told else []
        if named:
            return named[0]
    return None


def _guards_it(spoken: Spoken, clause: Clause, at: int) -> int | None:
    """`keep the bins away from it`, `don't lean anything against that`: where `it` is what is kept clear."""
    if not KEEPS & set(spoken.norms(at, at + 5)):
        return None
    for here in range(at + 2, clause.end):
        before = spoken.norms(max(at, here - 2), here)
        off = tuple(before[-1:]) in OFF or tuple(before) in OFF
        if off and spoken.tokens[here].norm in {"it", "them", "that", "this"} and not determines(spoken, here):
            return here
    return None


def _is_later(scene: Scene, one: Named, asked: Collection[int]) -> bool:
    """Whether a component named after the order is what it is about: in an order of its own, or in its reason."""
    clause = scene.spoken.clause_of(one.start)
    joined = clause.index in asked or clause.link == "because" or clause.index - 1 in asked
    return joined and one.relation != "place" and _is_object(scene, one)


def _in_focus(scene: Scene, at: int, focus: Focus) -> CaredFor | None:
    """An order that names nothing is about the component in focus, if one was spoken of just before."""
    spoken, place = scene.spoken, scene.place
    if spoken.tokens[at].norm in REMOVALS and OWNED & set(spoken.norms(at)):
        return CaredFor(ROOM_GENERAL, "something of the resident's is to go", 1)
    told = _lately(scene, focus)
    recent = focus.told(scene.number) is not None or (
        bool(place.lately) and scene.number - place.lately[-1][1] <= RECENT
    )
    if not told:
        return None
    there = bool((POINTING | THERE) & set(spoken.norms()))
    return CaredFor(told, "the component last in focus", 0) if recent or there else None


RECENT = 2
"""For how many sentences an order that names nothing is about the component in focus."""


def _is_object(scene: Scene, one: Named) -> bool:
    """Whether a named component can be what care is asked for: no tool, no time of day, nothing that is handed over."""
    if one.component == ROOM_GENERAL:
        return False
    tokens, group = scene.spoken.tokens, scene.vocabulary.components[one.component].group
    before = scene.spoken.norms(max(0, one.start - 4), one.start)
    if set(before[-2:]) & TIME and not {"look", "looking"} & set(before):
        return False
    if before[-1:] in (["or"], ["store"], ["storing"], ["keep"]) and one.component == "paint":
        return False  # don't store petrol or paint in here
    if {"use", "using", "with", "get", "want"} & set(before) and set(before) & INSTRUMENT:
        return False
    used = next((at for at, norm in enumerate(before) if norm in {"use", "using"}), None)
    if used is not None and tokens[one.end - 1].tag == "NNS" and not CERTAIN & set(before[used:]):
        return False  # you'd need to use flat-bottomed pans only
    if before[-3:] in (["is", "not", "a"], ["is", "no", "a"]):
        return False  # the washer is not a shelf
    if group == "furnished" and before[-1:] in (["a"], ["an"], ["your"], ["no"], ["any"], ["with"]):
        return False
    if group == "furnished" and before[-2:] in (["with", "the"], ["with", "a"]):
        return False
    named = tokens[one.start].tag != "VB" or bool(CERTAIN & set(before[-1:]))
    return named or (one.start > 0 and one.end - one.start > 1)


def _points(spoken: Spoken, clause: Clause, at: int) -> int | None:
    """Where the order has a pronoun for its object: `press that`, `hang nothing off it`, `clear of that`."""
    for here in range(at, clause.end):
        norm = spoken.tokens[here].norm
        alone = (norm in POINTING or norm == "they") and not determines(spoken, here)
        if norm in {"them", "those", "these"} and _means_other(spoken, clause):
            continue
        if norm == "there" and here - at <= 3 and spoken.tokens[here - 1].tag in {"VB", "VBP"}:
            return here
        which = norm in {"one", "ones"} and spoken.norms(here - 1, here)[0] in {"that", "this", "off", "those", "on"}
        if (alone and spoken.norms(here + 1, here + 2) not in (["is"], ["'s"])) or which:
            return here
    return None


def _means_other(spoken: Spoken, clause: Clause) -> bool:
    """`with wet shoes you put them here`: a plural named before that is no part of the home."""
    named = spoken.named_tokens()
    return any(
        spoken.tokens[at].tag == "NNS" and at not in named and not spoken.tokens[at].norm.endswith(("months", "years"))
        for earlier in spoken.clauses[: clause.index]
        for at in range(earlier.start, earlier.end)
    )


def _named_before(scene: Scene, at: int) -> str | None:
    """The component that was named in the sentence before a pronoun."""
    before = [one for one in scene.spoken.named if one.end <= at and _is_object(scene, one)]
    topics = [one for one in before if one.relation == "topic"] or [one for one in before if one.relation == "of"]
    if topics and scene.vocabulary.components[topics[0].component].group in UNCERTAIN:
        return topics[0].component
    if not topics or scene.vocabulary.components[topics[-1].component].group in UNCERTAIN:
        return None
    return topics[-1].component


def _lately(scene: Scene, focus: Focus) -> str | None:
    """The component in focus: what the last finding was of, or what was spoken of since."""
    place = scene.place
    subject_at = next((when for one, when in reversed(place.lately) if one == place.subject), -1)
    told = focus.told(scene.number)
    component = place.subject if told is None or subject_at > focus.told_at else told
    if component is None or component == ROOM_GENERAL:
        return None
    return None if scene.vocabulary.components[component].group in UNCERTAIN else component


def _usual(scene: Scene, focus: Focus) -> CaredFor | None:
    """`no peels down there`, `hang pictures on these hooks`: care that is usual of a component, named or not."""
    for cue in scene.spoken.found.cues:
        usual = [sense.id for sense in cue.senses if sense.role == "care"]
        if not usual:
            continue
        lately = [one for one, _ in reversed(scene.place.lately)]
        known = [one for one in (focus.told(scene.number), *lately) if one in usual]
        words = scene.spoken.words(cue.start, cue.end)
        return CaredFor((known or usual)[0], f"'{words}' is care of it", 2)
    return None
