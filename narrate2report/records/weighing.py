"""What may have been said in the place of what was heard, and what the speech model gives for it on the same sound.

Reading asks, listening weighs, reading decides: a `Passage` goes one way and comes back as `Weighed`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from pydantic import Field

from narrate2report.records.base import Seconds, Value

LONGEST_S = 25.0
"""A longer passage is not weighed: the speech model takes 30 s, and margins are added."""


class Passage(Value):
    """A stretch of a recording with the text that was heard there, and other texts of as many words."""

    recording: str
    start: Seconds
    end: Seconds
    text: str
    readings: tuple[str, ...]


class Weight(Value):
    """How much likelier than what was heard a reading is on the same sound, in nats; above 0 it speaks for it."""

    plain: float = Field(description="by the sound alone")
    context: float | None = Field(
        default=None, description="with words of the trade before it; null where the sound alone rules it out"
    )


class Weighed(Value):
    """A passage with the weight of each of its readings, in their order; none where the sound tells nothing of it."""

    passage: Passage
    weights: tuple[Weight, ...]


Place = tuple[str, float, str]
"""A recording, a start in seconds and a text: the sentence or the reading that was heard or weighed there."""


def by_reading(weighed: Iterable[Weighed]) -> Mapping[Place, Weight]:
    """The weight of each reading that was weighed."""
    return {
        (one.passage.recording, one.passage.start, reading): weight
        for one in weighed
        for reading, weight in zip(one.passage.readings, one.weights, strict=False)
    }
