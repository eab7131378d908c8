"""The ladder from transcript to record: sentences, mentions, place, stance, drafts, entries, each with reasons.

Pure: the same transcript, vocabulary and facts give the same Reading.
"""

from __future__ import annotations

from collections.abc import Sequence

from narrate2report.read.across.memory import Walk
from narrate2report.read.coverage import UNPLANNED, cover
from narrate2report.read.credible.weighing import Weighing
from narrate2report.read.drafts.entries import Ledger
from narrate2report.read.header import read_header
from narrate2report.read.lexis.phrasebook import PhraseBook
from narrate2report.read.lexis.vocabulary import Vocabulary
from narrate2report.read.lexis.words import Tokenizer
from narrate2report.read.misheard.repair import Repaired, Repairer
from narrate2report.read.outcome import Reading, ReadSentence
from narrate2report.read.route import find_route
from narrate2report.read.speech.breaths import Breaths
from narrate2report.read.speech.grammars import Grammars
from narrate2report.read.speech.sentences import Pause, Sentence, split_sentences
from narrate2report.read.speech.spoken import Spoken, speak
from narrate2report.read.telling import read_sentence
from narrate2report.read.walk.course import Courses
from narrate2report.read.walk.place import Place
from narrate2report.records.expected import Expected
from narrate2report.records.findings import Findings, Reason, RoomVisit, TranscriptFacts
from narrate2report.records.transcript import Transcript
from narrate2report.records.weighing import Passage, Weighed, by_reading

CLOSING_SENTENCES = 12
"""How many sentences of a walk count as its end, where `overall` sums up the whole place."""

Fate = tuple[Spoken, Reason | None, tuple[str, ...]]
"""A sentence, the reason why it gave no entry, and what speaks for either."""


class Reader:
    """A vocabulary made ready once, to read any number of transcripts."""

    def __init__(
        self,
        vocabulary: Vocabulary,
        tokenizer: Tokenizer | None = None,
        breaths: Breaths | None = None,
        weighing: Weighing | None = None,
        courses: Courses | None = None,
    ) -> None:
        self._vocabulary = vocabulary
        tokenizer = tokenizer or Tokenizer()
        self._book = PhraseBook(vocabulary, tokenizer)
        self._repairer = Repairer(vocabulary, tokenizer)
        self._grammars = Grammars(vocabulary)
        self._breaths = breaths or Breaths(self._book)
        self._weighing = weighing or Weighing()
        self._courses = courses or Courses()

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
        walk, ledger, fates = self._tell(self._spoken(sentences, repaired), room)
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

    def _spoken(self, sentences: Sequence[Sentence], repaired: Sequence[Repaired]) -> list[Spoken]:
        return [
            speak(sentence, text, self._grammars.plain(tokens), self._book, heard)
            for sentence, (text, tokens, heard) in zip(sentences, repaired, strict=True)
        ]

    def _tell(self, spoken: Sequence[Spoken], room: str | None) -> tuple[Walk, Ledger, list[Fate]]:
        """Find the route through the rooms, then read the sentences one after the other."""
        route = find_route(spoken, room, self._vocabulary, self._courses)
        ledger, walk = Ledger(), Walk(ways=route.ways)
        if room is not None:
            walk.place.enter(room, 0)
        fates: list[Fate] = []
        for number, (one, meant) in enumerate(zip(spoken, route.meant, strict=True)):
            walk.place.closing = len(spoken) - number <= CLOSING_SENTENCES
            reason, because = read_sentence(one, meant, number, walk, ledger, self._vocabulary, self._weighing)
            fates.append((one, reason, because))
        return walk, ledger, fates


def read(
    transcript: Transcript,
    vocabulary: Vocabulary,
    tokenizer: Tokenizer | None = None,
    plan: Expected = UNPLANNED,
) -> Reading:
    """Read one transcript; for several, keep a Reader."""
    return Reader(vocabulary, tokenizer).read(transcript, plan=plan)


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
