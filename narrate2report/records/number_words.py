"""Numbers as they are spoken: `seven`, `seventeen`, `seventy`."""

from __future__ import annotations

ONES = {
    word: value
    for value, word in enumerate(
        "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen"
        " seventeen eighteen nineteen".split()
    )
}
TENS = {word: 10 * (i + 2) for i, word in enumerate("twenty thirty forty fifty sixty seventy eighty ninety".split())}
