"""Signs that words were made up by the speech model rather than said.

Whisper was trained on captions of films: in silence or noise it may write a line that often stands there,
and it may fall into a loop. Such words stay in the transcript with the reason beside them; they are not
read as speech.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrate2report.listen.hearing import Hearing
from narrate2report.listen.languages import language_name
from narrate2report.records.transcript import Word

FASTEST_WORDS_PER_S = 9.0
"""Nobody talks faster for long."""
GUESS = 0.25
"""Mean probability of words below which they are little more than a guess."""
UNLIKELY, SILENT = -1.0, 0.6
"""Likelihood and chance of silence that together mean "no speech" (the thresholds of Whisper's authors)."""
EDGE_S = 0.4
"""Words may reach this far out of the speech that was found."""
ROUNDS = {1: 6, 2: 5, 3: 4, 4: 4, 5: 3, 6: 3, 7: 3, 8: 3}
"""How often that many words must follow on themselves to be a loop; people do say "no, no, no" and "good,
good".
"""

STOCK = (
    r"thank(s| you)( so much| very much)?( all)? for (watching|listening|viewing)",
    r"(please )?(like|share)( this video)? and subscribe",
    r"(don't forget to |please )?subscribe( to (my|our|the) channel)?",
    r"see you (in the )?next (time|video|one|week)",
    r"(subtitles|captions|transcription|translated?) (created |made |provided )?by .*",
    r"(soft |upbeat |gentle )?music( playing)?",
    r"applause|laughter|silence|foreign|blank audio",
)
_STOCK = re.compile("(" + "|".join(STOCK) + r")", re.IGNORECASE)
LONE = frozenset({"you", "thank you", "thanks", "bye", "bye bye", "so", "oh", "the", "i", "okay bye"})
"""What the model writes when it hears nothing; believed when someone clearly speaks."""


def doubt(words: Sequence[Word], window: Hearing) -> str | None:
    """Why these words, heard in this window, may not have been said; None for no reason to doubt."""
    plain = [re.sub(r"[^\w']+", "", word.text.lower()) for word in words]
    plain = [word for word in plain if word]
    if not plain:
        return "no words, only marks"
    if window.other_language is not None:
        return f"spoken in {language_name(window.other_language)}, so the words were guessed"
    if _STOCK.fullmatch(" ".join(plain)):
        return "a stock phrase of film captions that speech models write into silence or noise"
    if not any(_spoken(word, window) for word in words):
        return "nobody seems to speak there"
    if loop := find_loop(plain):
        return f"the same words over and over ({loop!r}), as a speech model caught in a loop writes"
    if window.likelihood < UNLIKELY and window.silence > SILENT:
        return "hardly anyone seems to speak there"
    sure = sum(word.probability for word in words) / len(words)
    if sure < GUESS:
        return f"the words are little more than a guess (mean probability {sure:.2f})"
    if " ".join(plain) in LONE and (sure < 0.5 or window.silence > SILENT):
        return "a filler that speech models write when they hear nothing"
    lasts = max(words[-1].end - words[0].start, 0.3)
    if len(plain) >= 6 and len(plain) / lasts > FASTEST_WORDS_PER_S:
        return f"{len(plain)} words in {lasts:.1f} s, faster than anyone talks"
    return None


def find_loop(words: Sequence[str]) -> str | None:
    """The words that repeat without a break often enough to be a loop, if any."""
    for length, rounds in ROUNDS.items():
        needed = length * (rounds - 1)
        same = 0
        for index in range(length, len(words)):
            same = same + 1 if words[index] == words[index - length] else 0
            if same >= needed:
                return " ".join(words[index - length + 1 : index + 1])
    return None


def _spoken(word: Word, window: Hearing) -> bool:
    """Whether a word lies at least in part where someone speaks."""
    return any(word.end > start - EDGE_S and word.start < end + EDGE_S for start, end in window.speech)
