"""Water that was let run: `hot's hot, cold's cold`, `hot within ten seconds`, `hot and cold both work`."""

from __future__ import annotations

import re

from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.negations import negation_before
from narrate2report.read.meant.scene import Scene
from narrate2report.read.speech.spoken import Spoken

FINE = r"(?:all )?(?:good|ok|okay|fine|yep|yes|yeah|works|working|perfect|great|strong|right|correct|normal|where it)"
QUICKLY = (
    r"(?:right away|straight away|straightaway|instantly|in no time|quick|quickly|fast|within"
    r"|(?:in|after|inside) (?:about |around |maybe |under |only |just |like )*(?:a |one )?(?:couple |few |half )?"
    r"(?:of )?(?:[\w-]+ )?(?:seconds?|secs?|minutes?|moment|jiffy|tick)\b)"
)
AT_TAP = r"(?:(?:on|at|in|from) (?:the |this )?(?:tap|faucet|sink|basin|shower|tub|mixer) )?"
COMES = (
    r"(?:comes?|came|is coming|gets?|got|runs?|ran|arrives?|shows?|showed|reache[sd])"
    r"(?: here| there| through| up| out| on| in| along)*"
)
RUNS = re.compile(
    rf"\bhot (?:water |tap |side )?(?:'s |is |was |: |, )?(?:nice and )?(?:hot|{FINE})\b"
    r"|\bwater (?:'s |is )hot\b|\bgot hot(?: water)? ,? ?(?:and )?(?:i 've |we 've |i have )?(?:got )?cold\b"
    rf"|\bhot water ,? ?{QUICKLY}"
    r"|(?:^|(?:and|yes|yep|so|,|now) )(?:there 's|there is|i 've got|we 've got|i got|we got|we have|i get|i have)"
    r" (?:nice |good |plenty of |lots of |proper )*hot water (?:now|here|at|in|from|out|through|on|up|[,.;!]|$)"
    rf"|\bhot and cold (?:water )?(?:both |all |are |is )*(?:{FINE}|work|run|runs|running)\b"
    rf"|\bhot water (?:'s |is )?(?:come|comes|coming|came|runs|running|arrive|arrives)\b(?! and goes| not| no)"
    rf"|\b(?:is|was|'s|got|gets|comes|came|runs|ran|,) (?:nice and |good and )?hot {QUICKLY}\b"
    rf"|(?:^|(?:the|and|,|:|okay|so) )hot (?:water |tap |side )?{AT_TAP}(?:{COMES} )?(?:{QUICKLY})"
    rf"|(?:^|(?:the|and|,|:|okay|so) )hot (?:water |tap |side )?{AT_TAP}{COMES} (?:fine|good|strong|okay|well)\b"
    rf"|(?:^|(?:and|,|:|okay|so) )(?:the )?hot (?:water |tap |side )?(?:is |'s )?{COMES}(?: [,.;!]|$)"
    rf"|\bhot(?: water)?(?: 's| is)? coming (?:through|up|out) {QUICKLY}"
    r"|\bhot(?: water| tap)? , (?:[\w'-]+ ){0,8}?,? ?(?:and )?(?:there|here) (?:it|she|we) (?:is|comes|goes|go)\b"
    rf"|(?:^|, )hot ,? ?(?:and )?cold ,? (?:both |all )?{FINE}\b"
    r"|\b(?:run|running|ran|turn|turned|turning|try|tried|trying) (?:\w+ ){1,4}?, hot ,? ?(?:and )?cold\b"
    r"|\bhot (?:water |tap )?(?:took|takes|needs|needed) (?:[\w-]+ ){1,4}?,? ?(?:but|and|then) (?:then )?"
    r"(?:it |she )?(?:'s |is |gets |got |came |comes |was )?(?:[\w-]+ )?(?:hot|through)\b"
)
FLOWS = re.compile(
    r"\b(?:water|shower|tap|taps|faucet|faucets|flow) (?:is |'s |are |also |only )*"
    r"(?:coming|comes|come|flowing|flows|flow|running|runs|run)(?: out)? "
    r"(?:(?:in|from|at|of|through) (?:the |this |that |both |all )?(?:shower|tap|taps|faucet|basin|sink|sinks|tub) )?"
    r"(?:very |quite |so |in |with )*"
    r"(?:nicely|well|fine|good|properly|strong|strongly|smoothly|freely"
    r"|(?:a )?(?:good |full |proper |great |nice |strong )+(?:force|pressure|flow|speed)|(?:force|pressure))\b"
)
"""Water that comes as it should: of what gives water, and of nothing else that is named with it."""

GONE = re.compile(
    r"\b(?:gone|empty|emptied|empties|drained|drains|away|down|clear)(?: again)? "
    r"(?:in|within|inside) (?:about |around |maybe |under |less than |only |just |like )*(?:a |one )?"
    r"(?:couple |few |half )?(?:of )?(?:[\w-]+ )?(?:seconds?|secs?|minute|moment|no time)\b"
)
"""What was let in and is away again soon: of what drains."""

HOT = re.compile(
    r"\b(?:it|that|she|water|this|the hot) (?:is |'s |was |gets |got |comes |came |"
    r"runs |ran )(?:out |through |up |now |already |there |lovely |good |beautiful |nice |and |really |very |properly "
    r"|plenty |piping |steaming |scalding |boiling |quite |pretty )*"
    r"hot(?: now| enough| already| all right)?(?: [,.;!]|$)"
)
"""Water that was let run and came hot, told of what was taken in hand: `I ran the tap and after a minute it's hot`."""

LET_RUN = re.compile(r"\b(?:run|ran|running|turn|turned|turning|opened|open|let|letting|try|tried|trying)\b")

PRESSURE = re.compile(
    r"\bpressure (?:'s|is|reads|at) (?:[\w.-]+ )*?(?:right|good|fine|ok|okay|normal|correct|up)\b"
    r"|\bpressure (?:'s|is) .*\bwhich is (?:right|good|fine)\b"
)
"""Of a boiler: of a tap, good pressure is the absence of a flaw."""

READ_OFF = re.compile(r"\bhot water , (?:a |one )?(?:hundred|\d+|forty|fifty|sixty)\b.*\b(?:thermometer|degrees)\b")
"""A temperature read off a thermometer."""

WATERED = {
    "faucet": "faucet", "sink": "faucet", "bathtub": "faucet", "vanity": "faucet", "shower": "shower",
    "shower_head": "shower", "heater": "furnace", "furnace": "furnace", "water_heater": "water_heater",
}  # fmt: skip
"""What gives the water where this is spoken of."""

RUN_HOT = frozenset({"faucet", "sink", "bathtub", "shower", "shower_head"})
"""What one lets run until it is hot."""

BOILERS = frozenset({"furnace", "water_heater", "heater"})


def find_running_water(scene: Scene) -> list[Draft]:
    """The check of a tap or shower whose water was let run; at most one for a sentence."""
    spoken = scene.spoken
    words, starts = _in_one_line(spoken)
    match = RUNS.search(words) or READ_OFF.search(words)
    if match is None and all(one.component in WATERED for one in spoken.named):
        match = FLOWS.search(words)
    taps = {one.component for one in spoken.named} & RUN_HOT or ({scene.place.subject} & RUN_HOT)
    if match is None and taps and (LET_RUN.search(words) or not spoken.named):
        match = HOT.search(words)
    if match is None and BOILERS & {scene.place.subject, *(one.component for one in spoken.named)}:
        match = PRESSURE.search(words)
    if match is None:
        return []
    at = max(index for index, start in enumerate(starts) if start <= match.start())
    clause = spoken.clause_of(at)
    others = [one for one in spoken.named_in(clause) if one.relation == "topic" and one.component not in WATERED]
    if not scene.is_said(at) or negation_before(spoken, clause, at) or others or _is_dry_heat(scene, words):
        return []
    spoken.used.update(index for index, start in enumerate(starts) if match.start() <= start < match.end())
    return [
        Draft(
            kind="check",
            room=scene.room,
            component=_source(scene, at),
            at=at,
            outcome="works",
            because=(f"'{match.group()}' tells that the water was let run",),
            confidence=0.7,
        )
    ]


def _is_dry_heat(scene: Scene, words: str) -> bool:
    """`hot in a minute`, where an oven was spoken of last and no water is."""
    if any(one.component in WATERED for one in scene.spoken.named):
        return False
    return scene.place.subject in HEATED and not re.search(r"\b(?:water|tap|cold|faucet)\b", words)


DRAINS = {"sink": "sink", "bathtub": "drain", "shower": "drain", "drain": "drain", "vanity": "sink"}
"""What is tried where water is let out of this."""


def find_drained(scene: Scene) -> list[Draft]:
    """`I filled the basin and it was gone in ten seconds`: the check of what drains."""
    spoken = scene.spoken
    words, starts = _in_one_line(spoken)
    match = GONE.search(words)
    if match is None:
        return []
    at = max(index for index, start in enumerate(starts) if start <= match.start())
    named = [one.component for one in spoken.named if one.start < at and one.component in DRAINS]
    source = (named[-1:] or [scene.place.subject or ""])[0]
    if source not in DRAINS or not scene.is_said(at) or negation_before(spoken, spoken.clause_of(at), at):
        return []
    spoken.used.update(index for index, start in enumerate(starts) if match.start() <= start < match.end())
    return [
        Draft(
            kind="check",
            room=scene.room,
            component=DRAINS[source],
            at=at,
            outcome="works",
            because=(f"'{match.group()}' tells that the water runs away",),
            confidence=0.7,
        )
    ]


HEATED = frozenset("oven dryer burner range cooktop microwave radiator iron furniture".split())
"""What gets hot without water."""


def _in_one_line(spoken: Spoken) -> tuple[str, list[int]]:
    """The normal forms with single blanks, and where each token starts in them."""
    starts, length = [], 0
    for norm in spoken.norms():
        starts.append(length)
        length += len(norm) + 1
    return " ".join(spoken.norms()), starts


def _source(scene: Scene, at: int) -> str:
    named = [one.component for one in scene.spoken.named if one.start <= at and one.component in WATERED]
    later = [one.component for one in scene.spoken.named if one.component in WATERED]
    focus = scene.place.subject if scene.place.subject in WATERED else None
    return WATERED[(named[-1:] or later[:1] or [focus or "faucet"])[0]]
