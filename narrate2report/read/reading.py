"""The ladder from transcript to record: sentences, mentions, place, stance, drafts, entries, each with reasons.

Pure: the same transcript, vocabulary and facts give the same Reading.
"""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.advice import find_advice
from narrate2report.read.after_all import not_overtaken
from narrate2report.read.bearers import Bearers
from narrate2report.read.breaths import Breaths
from narrate2report.read.checks import find_checks
from narrate2report.read.conditions import find_flaws, is_reference, observe
from narrate2report.read.corrections import Corrections
from narrate2report.read.coverage import UNPLANNED, cover
from narrate2report.read.descriptions import find_descriptions
from narrate2report.read.details import size_alone
from narrate2report.read.draft import Draft
from narrate2report.read.echoes import find_echoes
from narrate2report.read.entries import Ledger
from narrate2report.read.focus import is_adverse
from narrate2report.read.follow_ups import find_follow_ups
from narrate2report.read.grammars import Grammars
from narrate2report.read.header import read_header
from narrate2report.read.implied_rooms import glanced_room, implied_room
from narrate2report.read.lacking import lacked
from narrate2report.read.left_out import fill_in
from narrate2report.read.memory import Walk, is_in_passing, remember
from narrate2report.read.missing import is_not_ours, left_behind, missing_parts, taken_away
from narrate2report.read.modes import Mode, Stance
from narrate2report.read.naming import name_components
from narrate2report.read.outcome import Reading, ReadSentence
from narrate2report.read.painted import find_painted
from narrate2report.read.phrase_tree import Mention
from narrate2report.read.phrasebook import PhraseBook
from narrate2report.read.place import Place
from narrate2report.read.present_parts import find_present_parts
from narrate2report.read.repair import Repairer
from narrate2report.read.rooms import find_room
from narrate2report.read.scene import Scene
from narrate2report.read.searches import is_bare_list, opens_search, sought
from narrate2report.read.second_looks import look_again
from narrate2report.read.sentences import Pause, Sentence, split_sentences
from narrate2report.read.spoken import Spoken, speak
from narrate2report.read.stance import mode_reason, read_stances
from narrate2report.read.suited import suited_flaw
from narrate2report.read.vocabulary import Vocabulary
from narrate2report.read.words import Tokenizer
from narrate2report.records.expected import Expected
from narrate2report.records.findings import Findings, Reason, RoomVisit, TranscriptFacts
from narrate2report.records.transcript import Transcript
from narrate2report.records.weighing import Passage, Weighed, by_reading

START_ROOM = "whole_unit"

CLOSING_SENTENCES = 12
"""How many sentences of a walk count as its end, where `overall` sums up the whole place."""

REASONS: dict[Mode, Reason] = {
    Mode.HYPOTHETICAL: "hypothetical",
    Mode.SEARCH: "checking_for",
    Mode.INSTRUCTION: "talk",
    Mode.POLICY: "policy",
    Mode.PAST: "talk",
    Mode.ELSEWHERE: "talk",
    Mode.QUOTED: "talk",
    Mode.QUESTION: "talk",
    Mode.FUTURE: "talk",
}


class Reader:
    """A vocabulary made ready once, to read any number of transcripts."""

    def __init__(
        self, vocabulary: Vocabulary, tokenizer: Tokenizer | None = None, breaths: Breaths | None = None
    ) -> None:
        self._vocabulary = vocabulary
        tokenizer = tokenizer or Tokenizer()
        self._book = PhraseBook(vocabulary, tokenizer)
        self._repairer = Repairer(vocabulary, tokenizer)
        self._grammars = Grammars(vocabulary)
        self._breaths = breaths or Breaths(self._book)

    def sentences(self, transcript: Transcript) -> tuple[Sentence, ...]:
        """The sentences that a transcript is read in."""
        return split_sentences(transcript, self._pauses)

    def _pauses(self, texts: Sequence[str]) -> list[Sequence[Pause]]:
        """Where texts without marks pause, once their misheard words are read right."""
        return [self._breaths.pauses(one) for one in self._repairer.reread(texts)]

    def ask(self, transcript: Transcript) -> tuple[Passage, ...]:
        """What may have been said in the place of what was heard: to be weighed against the sound before reading."""
        return tuple(self._repairer.ask(self.sentences(transcript)))

    def read(
        self,
        transcript: Transcript,
        room: str | None = None,
        weighed: Sequence[Weighed] = (),
        plan: Expected = UNPLANNED,
    ) -> Reading:
        """Read a transcript into a record whose every entry is `proposed`.

        `room` is where the walk starts, `weighed` what the sound gave for what was asked of it, `plan`
        what it was expected to speak of.
        """
        sentences = self.sentences(transcript)
        repaired = self._repairer.repair_spoken(sentences, by_reading(weighed))
        ledger, walk = Ledger(), Walk()
        if room is not None:
            walk.place.enter(room, 0)
        fates: list[tuple[Spoken, Reason | None, tuple[str, ...]]] = []
        for number, (sentence, (text, tokens, heard)) in enumerate(zip(sentences, repaired, strict=True)):
            spoken = speak(sentence, text, self._grammars.plain(tokens), self._book, heard)
            walk.place.closing = len(sentences) - number <= CLOSING_SENTENCES
            reason, because = _read_one(spoken, number, walk, ledger, self._vocabulary)
            fates.append((spoken, reason, because))
        entries, told = ledger.close()
        read_sentences = tuple(
            ReadSentence(
                spoken.sentence,
                spoken.room,
                told.get(spoken.sentence.id, ()),
                None if spoken.sentence.id in told else reason or "talk",
                because,
                spoken,
            )
            for spoken, reason, because in fates
        )
        findings = Findings(
            walkthrough=read_header(sentences, transcript),
            recordings=transcript.recordings,
            transcript=_facts(transcript, self._vocabulary),
            entries=entries,
            rooms=_visits(walk.place, sentences),
            coverage=cover(entries, [room for room, _ in walk.place.visits], self._vocabulary, plan),
            unused=tuple(unused for one in read_sentences if (unused := one.as_unused()) is not None),
        )
        return Reading(findings, read_sentences)


def read(
    transcript: Transcript,
    vocabulary: Vocabulary,
    tokenizer: Tokenizer | None = None,
    plan: Expected = UNPLANNED,
) -> Reading:
    """Read one transcript; for several, keep a Reader."""
    return Reader(vocabulary, tokenizer).read(transcript, plan=plan)


def _read_one(
    spoken: Spoken, number: int, walk: Walk, ledger: Ledger, vocabulary: Vocabulary
) -> tuple[Reason | None, tuple[str, ...]]:
    """Read one sentence into the ledger; gives the reason it would stand unused for, with the words."""
    if spoken.sentence.doubt:
        spoken.room = walk.place.room or START_ROOM
        return "unclear", (spoken.sentence.doubt,)
    place, turn = walk.place, walk.turn
    walk.owner_speaks = walk.owner_speaks or _is_owner(spoken)
    stances = read_stances(spoken)
    if walk.sought and is_bare_list(spoken):
        stances = sought(stances)
    walk.sought = opens_search(spoken)
    room = find_room(spoken, place, stances, vocabulary) or implied_room(spoken, place, stances, vocabulary)
    if room:
        place.enter(room, number)
        spoken.moved = True
    spoken.room = (None if room else glanced_room(spoken)) or place.room or START_ROOM
    spoken.named = name_components(spoken, place, turn, vocabulary)
    corrections = Corrections(spoken)
    stances = corrections.apply(stances)
    scene = Scene(spoken, stances, Bearers(spoken, place, _predicates(spoken), vocabulary), place, turn, vocabulary)
    checks = find_checks(scene, walk.trials)
    if walk.waiting.is_answered_by(scene):
        checks = [check for check in checks if check.outcome != "fails"]
    handovers = walk.handing.find(scene)
    flaws = not_overtaken(spoken, find_flaws(scene), checks)
    flawed = any(is_adverse(draft, vocabulary) for draft in walk.last_conditions)
    if (not walk.last_conditions and _is_bare_praise(spoken)) or (flawed and _plays_down(spoken)):
        flaws = ()
    flaws = walk.asked.sift(scene, flaws)
    flaws = tuple(f for f in flaws if not (is_reference(spoken, f) and ledger.knows(f.condition, spoken.room, turn)))
    taken = {draft.at for draft in handovers}
    drafts = [
        *checks,
        *handovers,
        *observe(scene, [flaw for flaw in flaws if flaw.mention.start not in taken]),
        *find_painted(scene),
        *left_behind(scene),
        *taken_away(scene),
        *(draft for draft in missing_parts(scene) if not checks),
        *lacked(scene),
    ]
    drafts += find_present_parts(scene, drafts)
    drafts += find_echoes(spoken, stances, drafts, walk.last_conditions)
    drafts = fill_in(scene, drafts, walk.said)
    found, ended = walk.waiting.turn_up(scene, drafts)
    drafts = [draft for draft in drafts if draft not in ended] + found
    drafts += walk.waiting.settle(scene, flaws)
    answers = walk.asked.answer(scene, flaws, drafts)
    drafts = [draft for draft in drafts if not any(one.settles(draft) for one in answers)] + answers
    if is_not_ours(spoken):
        drafts = [draft for draft in drafts if draft.condition != "missing"]
    walk.focus.remember(drafts, turn, vocabulary)
    flaw = suited_flaw(spoken, walk.focus.lately(turn), vocabulary)
    flaw = flaw or walk.focus.flaw(turn, first=_begins_with_it(spoken))
    follow_ups = find_follow_ups(scene, flaw=flaw, owner_speaks=walk.owner_speaks)
    worked = {draft.at for draft in follow_ups}
    drafts = [d for d in drafts if d.at not in worked or d.kind != "condition" or is_adverse(d, vocabulary)]
    drafts += follow_ups
    drafts += find_advice(scene, walk.focus, drafts)
    drafts += find_descriptions(scene)
    size = size_alone(spoken) if not drafts and _is_plainly_said(stances) else None
    if size is not None and ledger.measure(spoken, turn, size):
        return None, ("tells the size of what was said before",)
    if corrections.correct_place(drafts, ledger, turn):
        return None, ("corrects the place of what was said before",)
    walk.withdrawing = corrections.withdraw(drafts, ledger, turn, pending=walk.withdrawing)
    walk.pausing = look_again(scene, walk.pausing, drafts, ledger, turn)
    for at, draft in enumerate(drafts):
        if draft.kind != "condition" or not any(draft.same_statement(other) for other in drafts[:at]):
            ledger.add(draft, spoken, turn)
    in_passing = is_in_passing(spoken, drafts, stances)
    walk.said = walk.said.after(spoken, drafts, in_passing=in_passing)
    if not in_passing:
        remember(spoken, drafts, stances, turn, walk)
        walk.turn += 1
    return _unused_reason(spoken, stances, drafts)


def _is_plainly_said(stances: Sequence[Stance]) -> bool:
    return all(stance.mode is Mode.ASSERTED for stance in stances)


def _begins_with_it(spoken: Spoken) -> bool:
    """`It's twelve years old, so the owner replaces it`: it is what the sentence before was about."""
    norms = [norm for norm in spoken.norms(0, 3) if norm not in {"so", "and", "but", "well"}]
    return norms[:1] in (["it"], ["they"])


PRAISE = frozenset("good fine great perfect excellent lovely nice beautiful".split())


def _is_bare_praise(spoken: Spoken) -> bool:
    """`Good.`: a remark on what was just described, and only talk after anything else."""
    words = [token for token in spoken.tokens if token.is_word]
    return len(words) == 1 and words[0].norm in PRAISE


MILD = frozenset("bad terrible awful serious major tragic much".split())


def _plays_down(spoken: Spoken) -> bool:
    """`Not bad.`, `Not too terrible.`: after a flaw it says how little of one it is, and praises nothing."""
    norms = [token.norm for token in spoken.tokens if token.is_word]
    lead = [norm for norm in norms if norm not in {"it", "is", "'s", "but", "too", "that", "so", "really"}]
    return lead[:1] == ["not"] and lead[1:] != [] and set(lead[1:]) <= MILD


def _predicates(spoken: Spoken) -> list[Mention]:
    named_at = spoken.named_tokens()
    telling = spoken.terms("condition", "works", "material", "colour", "type")
    terms = [term for term in telling if term.start not in named_at and not spoken.leads_on(term)]
    cues = [cue for cue in spoken.cues("operates", "fails") if cue.start not in named_at]
    return [*terms, *cues]


def _is_owner(spoken: Spoken) -> bool:
    text = f" {' '.join(spoken.norms())} "
    return any(words in text for words in (" i own ", " i am the owner ", " my house ", " my property "))


def _unused_reason(
    spoken: Spoken, stances: Sequence[Stance], drafts: Sequence[Draft]
) -> tuple[Reason | None, tuple[str, ...]]:
    if drafts:
        return None, tuple(reason for draft in drafts for reason in draft.because)
    stance = mode_reason(stances)
    if spoken.moved:
        return "moving", (f"walks into {spoken.room.replace('_', ' ')}",)
    if stance is not None:
        return REASONS[stance.mode], (f"{stance.mode.value}: '{stance.cue}'",)
    if spoken.named and spoken.terms("condition"):
        return "unclear", ("names a component and a condition, but how they belong together is not plain",)
    return "talk", ("no statement about a component",)


def _facts(transcript: Transcript, vocabulary: Vocabulary) -> TranscriptFacts:
    return TranscriptFacts(
        engine=transcript.engine.name,
        model=transcript.engine.model,
        model_sha256=transcript.engine.model_sha256,
        language=transcript.language,
        vocabulary_version=vocabulary.version,
        time_precision=transcript.time_precision,
        gaps=transcript.gaps,
        warnings=transcript.warnings,
    )


def _visits(place: Place, sentences: Sequence[Sentence]) -> tuple[RoomVisit, ...]:
    """The rooms in the order walked; a visit ends where the next begins, or with its recording."""
    visits = []
    for index, (room, first) in enumerate(place.visits):
        last = place.visits[index + 1][1] - 1 if index + 1 < len(place.visits) else len(sentences) - 1
        inside = sentences[first : max(first, last) + 1]
        by_recording: dict[str, tuple[float, float]] = {}
        for sentence in inside:
            start, _ = by_recording.get(sentence.recording, (sentence.start, sentence.end))
            by_recording[sentence.recording] = start, sentence.end
        visits += [
            RoomVisit(room=room, recording=name, start=start, end=end) for name, (start, end) in by_recording.items()
        ]
    return tuple(visits)
