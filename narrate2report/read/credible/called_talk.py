"""What is said of a draft that is not entered."""

from __future__ import annotations

from narrate2report.read.drafts.draft import Draft


def called_talk(draft: Draft, words: str) -> str:
    """Why a draft is not entered, with the words that speak against it."""
    return f"{draft.component.replace('_', ' ')}: worded as talk{words}"
