"""Verbs in `-ing` where other speakers of English have none: `the wall is having a crack`, `is not getting closed`."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from narrate2report.read.lexis.inflect import infinitive
from narrate2report.read.lexis.words import Token
from narrate2report.read.speech.existence import BEING_THERE

SPEAKERS = frozenset("i we you he she who they".split())
"""Somebody is having lunch, or having a look: only things have what they are having."""

ADVERBS = frozenset("also only still already all both just".split())

TAKEN = frozenset("look go rest walk chat break lunch dinner trouble problem problems fun".split())
"""What is had for a while, by whatever subject: `my neighbour is having trouble`."""


def states_having(tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
    """`this door is having one scratch`: it has one; `is not having a handle`: it does not have one."""
    token = tokens[at]
    if token.norm not in BEING_THERE or not at or tokens[at - 1].norm in SPEAKERS or not tokens[at - 1].is_word:
        return None
    end = at + 1
    while end < len(tokens) and tokens[end].norm in ADVERBS | {"not"}:
        end += 1
    if end >= len(tokens) - 1 or tokens[end].norm != "having":
        return None
    had = tokens[end + 1 : end + 9]
    if not had[0].is_word or TAKEN & {one.norm for one in had[:3]} or _is_had_done(had):
        return None
    between = list(tokens[at + 1 : end])
    if any(one.norm == "not" for one in between):
        return end + 1 - at, [
            _instead(token, token, "do", "does"),
            *between,
            tokens[end]._replace(norm="have", tag="VB"),
        ]
    return end + 1 - at, [*between, _instead(tokens[end], token, "have", "has")]


def _instead(token: Token, being: Token, of_many: str, of_one: str) -> Token:
    """A token read as another verb, of as many as the form of `be` is said of."""
    plural = being.norm == "are"
    return token._replace(norm=of_many if plural else of_one, tag="VBP" if plural else "VBZ")


def _is_had_done(had: Sequence[Token]) -> bool:
    """`the landlord is having both cords replaced`: somebody does it."""
    return any(
        one.tag in {"VBN", "VBD"} and before.tag in {"NN", "NNS", "PRP"} for before, one in pairwise(had) if one.is_word
    )


def is_not_getting(tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
    """`the tap is not getting closed`: it does not close."""
    norms = [token.norm for token in tokens[at : at + 4]]
    if len(norms) < 4 or norms[0] not in BEING_THERE or norms[1] != "not" or norms[2] != "getting":
        return None
    done = tokens[at + 3]
    if done.tag not in {"VBN", "VBD"} and not done.norm.endswith("ed"):
        return None
    return 4, [
        _instead(tokens[at], tokens[at], "do", "does"),
        tokens[at + 1],
        done._replace(norm=infinitive(done.norm), tag="VB"),
    ]
