"""What counts as words that someone can read."""

from __future__ import annotations

import pytest

from narrate2report.records.plain import can_be_seen


@pytest.mark.parametrize("words", ["Ida", "7", "李", "Ŋ", "\u200bIda", "e\u0301", "—", "🔑", "עדה"])
def test_what_is_drawn_can_be_seen(words: str) -> None:
    assert can_be_seen(words)


@pytest.mark.parametrize(
    "words",
    [
        "",
        " \t\n",
        "\u00a0\u3000",
        "\u200b\u200d",
        "\ufeff",
        "\u00ad",
        "\U000e0049\U000e0064",
        "\u3164",
        "\u2800",
        "\u034f",
    ],
    ids=ascii,
)
def test_what_is_drawn_as_nothing_cannot(words: str) -> None:
    assert not can_be_seen(words)
