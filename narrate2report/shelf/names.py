"""The words of a search with all others for the same thing: `tub` also finds the bathtub."""

from __future__ import annotations

from collections.abc import Callable, Sequence

LONGEST_NAME = 4
"""Words of the longest name that is looked for as one."""


def groups(words: str, others: Callable[[str], Sequence[str]]) -> list[tuple[str, ...]]:
    """What has to be found: for each word or name, itself or any of its `others`.

    The longest names are taken first: `smoke alarm` is one thing.
    """
    left = words.lower().split()
    found: list[tuple[str, ...]] = []
    while left:
        for length in range(min(LONGEST_NAME, len(left)), 0, -1):
            name = " ".join(left[:length])
            same = others(name)
            if same or length == 1:
                found.append(tuple(dict.fromkeys([name, *same])))
                left = left[length:]
                break
    return found
