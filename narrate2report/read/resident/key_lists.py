"""Handovers without their noun: `Keys. Two front door, one mailbox.`, `we're one short`, `a pack of four`."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.lexis.numbers import whole_number
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.clauses import Clause
from narrate2report.read.speech.modes import Mode
from narrate2report.read.speech.spoken import Named, Spoken

LOCKED = frozenset(
    "front back side rear main street flat house building lobby shed gate garage deadbolt basement cellar store"
    " storage laundry bike room closet door entrance top bottom mortice mortise patio suite apartment unit".split()
)
"""Words that say what a key is for."""

MAIL = frozenset("mailbox mail post postbox letterbox letter mailboxes".split())
SKIPPED = frozenset(
    {"and", "then", "only", "just", "of", "for", "to", "the", "your", "is", "'s", "are", "plus", "which", "that"}
)
OWN_WORDS = frozenset({"new", "spare", "extra", "more", "fresh"})
NOT_SAID = frozenset({Mode.HYPOTHETICAL, Mode.QUESTION, Mode.QUOTED, Mode.ELSEWHERE, Mode.POLICY, Mode.SEARCH})
LONGEST_ITEM = 6
"""Words of an item of a list of keys."""


def find_listed(scene: Scene, named: Sequence[Draft], *, keys_before: bool, returned: bool) -> list[Draft]:
    """The items of a list of keys that do not say `key` again; `named` are the items that do."""
    spoken = scene.spoken
    first = next((one.end for one in spoken.named if one.component == "key"), None)
    if first is None and not keys_before:
        return []
    told = {spoken.clause_of(draft.at).index for draft in named}
    drafts = []
    for clause in spoken.clauses:
        if clause.end <= (first or 0) or scene.mode(clause.start) in NOT_SAID:
            continue
        item = _item(scene, clause) if clause.index not in told and clause.start >= (first or 0) else None
        items = [item] if item else list(_further(scene, clause, max(clause.start, first or 0)))
        for item in items:
            spoken.used.update(range(item[0].start, item[0].end))
            drafts.append(handed(spoken, item[0], scene.room, item[1], returned=returned))
    return drafts


def _further(scene: Scene, clause: Clause, start: int) -> Iterator[tuple[Named, int]]:
    """`three keys for the door one for the post box`: items that nothing marks off from the one before."""
    spoken = scene.spoken
    for at in range(start, clause.end - 1):
        number = whole_number(spoken.tokens, at)
        if number is None or spoken.norms(number[1], number[1] + 1) != ["for"]:
            continue
        end = number[1] + 1
        while end < min(clause.end, number[1] + LONGEST_ITEM) and whole_number(spoken.tokens, end) is None:
            end += 1
        words = set(spoken.norms(number[1], end))
        if words & (LOCKED | MAIL):
            component = "mailbox_key" if words & MAIL else "key"
            yield Named(component, at, end, "topic"), number[0]


def _item(scene: Scene, clause: Clause) -> tuple[Named, int] | None:
    """`two front door`, `one for the shed`, `of the letterbox only one`; `front door` with its number in the next."""
    spoken, vocabulary = scene.spoken, scene.vocabulary
    number = _number_in(spoken, clause)
    following = spoken.clauses[clause.index + 1 : clause.index + 2]
    if number is None and following and following[0].link == ",":
        alone = whole_number(spoken.tokens, following[0].start)
        number = alone[0] if alone and alone[1] == following[0].end else None
    words = [norm for norm in spoken.norms(clause.start, clause.end) if norm not in SKIPPED]
    finite = any(spoken.tokens[at].tag in {"VBD", "VBZ", "MD"} for at in range(clause.start, clause.end))
    finite = finite and spoken.norms(clause.start, clause.start + 2) != ["which", "is"]
    own = any(vocabulary.components[one.component].group == "handed_over" for one in spoken.named_in(clause))
    if number is None or own or finite or len(words) > LONGEST_ITEM:
        return None
    told = "for" in spoken.norms(clause.start, clause.end) or set(words) & (LOCKED | MAIL)
    if not told:
        return None
    component = "mailbox_key" if set(words) & MAIL else "key"
    return Named(component, clause.start, clause.end, "topic"), number


def _number_in(spoken: Spoken, clause: Clause) -> int | None:
    """The number that begins or ends a clause."""
    start = clause.start
    while start < clause.end and spoken.tokens[start].norm in {"and", "then", "only", "just", "plus", "which", "is"}:
        start += 1
    begins = whole_number(spoken.tokens, start) if start < clause.end else None
    if begins is not None and begins[1] < clause.end:
        return begins[0]
    ends = whole_number(spoken.tokens, clause.end - 1)
    short = 1 < clause.end - clause.start <= LONGEST_ITEM and "at" not in spoken.norms(clause.start, clause.end)
    return ends[0] if ends is not None and short else None


def find_lent(scene: Scene, lent: Collection[str]) -> list[Draft]:
    """`I'll leave you a pack of four`, `I gave her three new ones`: spare parts of what is in focus."""
    spoken, focus = scene.spoken, scene.place.subject or ""
    if focus not in lent or not spoken.has_cue("giving"):
        return []
    norms = spoken.norms()
    for at in range(len(norms)):
        number = whole_number(spoken.tokens, at)
        if number is None or scene.mode(at) in NOT_SAID:
            continue
        rest = [norm for norm in norms[number[1] : number[1] + 3] if norm not in OWN_WORDS]
        packed = norms[max(0, at - 2) : at] in (["pack", "of"], ["box", "of"])
        if packed or rest[:1] in (["ones"], ["spares"]):
            meant = Named(focus, at, number[1], "topic")
            return [handed(spoken, meant, scene.room, number[0], returned=False)]
    return []


def fall_short(scene: Scene, drafts: Sequence[Draft], before: str | None) -> list[Draft]:
    """`so we're one short`, `minus one key`: what ought to have come back and did not."""
    spoken = scene.spoken
    norms = spoken.norms()
    for at in range(len(norms)):
        number = whole_number(spoken.tokens, at)
        if number is None or not scene.is_said(at):
            continue
        named = [one for one in spoken.named if scene.vocabulary.components[one.component].group == "handed_over"]
        item = [one for one in named if number[1] == one.start]
        after = item[0].end if item else number[1]
        short = norms[after : after + 1] == ["short"] or (norms[max(0, at - 1) : at] == ["short"])
        minus = norms[max(0, at - 1) : at] == ["minus"]
        component = item[0].component if item else named[-1].component if named else before
        owed = norms[max(0, at - 3) : at] == ["should", "have", "been"] and at > BEFORE_OWED and bool(named)
        if owed and (back := _counted(spoken, named[-1], at)) is not None and number[0] > back:
            return [missing(spoken, named[-1], scene.room, number[0] - back)]
        if component and (short or minus) and not any(one.condition == "missing" for one in drafts):
            return [missing(spoken, Named(component, at, number[1], "topic"), scene.room, number[0])]
    return []


BEFORE_OWED = 4
"""Tokens before a number that was owed: what came back stands there."""


def _counted(spoken: Spoken, one: Named, before: int) -> int | None:
    """How many came back, as told before token `before`: the number right before the thing."""
    told = (whole_number(spoken.tokens, at) for at in range(max(0, one.start - 3), one.start))
    return next((number[0] for number in told if number is not None), None) if one.end <= before else None


def handed(spoken: Spoken, one: Named, room: str, quantity: int | None, *, returned: bool) -> Draft:
    """A handover draft."""
    words = spoken.words(one.start, one.end)
    spoken.used.update(range(one.start, one.end))
    return Draft(
        kind="handover",
        room=room,
        component=one.component,
        at=one.start,
        because=(f"'{words}' {'returned by' if returned else 'given to'} the resident",),
        quantity=quantity,
        direction="returned" if returned else "given",
        confidence=0.8 if quantity is not None else 0.6,
    )


def missing(spoken: Spoken, one: Named, room: str, quantity: int | None) -> Draft:
    """The draft of what did not come back."""
    return Draft(
        kind="condition",
        room=room,
        component=one.component,
        at=one.start,
        because=(f"'{spoken.words(one.start, one.end)}' was not returned",),
        condition="missing",
        assertion="present",
        quantity=quantity,
        confidence=0.75,
    )
