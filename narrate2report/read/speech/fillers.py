"""What people say while they think, left out before a sentence is read: `um`, `you know`, `like` before an article.

The sentence itself keeps its words, as every quote does. A filler goes with the comma that the recogniser set after
it, and only where the same words cannot mean something: `looks like a leak` and `a sort of a stain` stay.
"""

from __future__ import annotations

import re

HESITATION = re.compile(r"(?<![-'’\w])(?:u+h*m+|u+h+|e+rm*|h+mm+)(?![-'’\w]),?", re.IGNORECASE)

ARTICLE = r"(?:the|a|an|this|that|these|those|my|our|your)\b"
APART = re.compile(
    rf"(?P<before>^|[,;.:] ?)(?P<said>(?:you know|like|sort of|kind of)(?:,|(?= {ARTICLE})))", re.IGNORECASE
)
"""Set apart from what comes before it, and by a comma or an article from what follows."""

INSIDE = re.compile(rf"\b(?P<before>[\w'’]+) (?P<said>like|sort of|kind of),?(?= {ARTICLE})", re.IGNORECASE)
"""Between a word that calls for a thing and the article of that thing."""

SAY = r"(?:say|call|name)"
SOUGHT = re.compile(
    rf"(?P<before>^|[,.;:…—-]+ ?)(?:how (?:do |would )?(?:you|i|we|they) {SAY}|how to {SAY}"
    r"|how (?:is it|is this|it is|it[’']s) called|what(?: is|[’']s) (?:the word|it called|this called)"
    r"|i (?:don[’']t|do not) know the word|i forgot the word)"
    r"(?: it| this| that| for it)?(?: in english)?(?:[,.…—]+ ?|(?= an? )|$)",
    re.IGNORECASE,
)
"""Somebody looking for a word: `with, how do you say, a hair crack`."""

LIKENED = frozenset(
    "look looks looked looking feel feels felt smell smells smelled smelling sound sounds sounded sounding seem seems"
    " taste tastes something anything nothing everything things thing more much just is it's that's he's she's was were"
    " are be it them these those one act acts acting shaped about".split()
)
"""After these, `like` tells what something is like."""

WOULD = re.compile(r"(?:['’]d|^would|^also|^really|^do|^don['’]t)$", re.IGNORECASE)
"""After these, `like` is a wish."""

KINDS_OF = frozenset("a an the some any this that these those all what which every no one same other".split())
"""After these, `sort of` and `kind of` are nouns."""

KNOWN = re.compile(
    rf"(?P<before>\b(?:do|did|if|let|as|when|that|because|since|unless|should|will|would|what|all) )?"
    rf"\byou know(?:,|(?= {ARTICLE})|(?=[.?!]*$))",
    re.IGNORECASE,
)
"""`you know` with nothing that is known, unless it stands after a word that makes it a statement."""


ASSURING = re.compile(
    r"(?P<before>[\w'’]+) (?:actually|literally|honestly|basically|genuinely|physically)(?= \w)", re.IGNORECASE
)
"""An adverb in the middle of what is said, which changes nothing of it: `it doesn't actually run`."""

PUTS_RIGHT = frozenset("no nope or wait well and but oh so okay actually".split())
"""After these it begins a correction, or a sentence."""


def without_fillers(text: str) -> str:
    """The text without its fillers; as it was where it holds nothing else."""
    fluent = HESITATION.sub("", text)
    fluent = SOUGHT.sub(lambda found: found["before"], fluent)
    fluent = KNOWN.sub(lambda found: found[0] if found["before"] else "", fluent)
    fluent = INSIDE.sub(_inside, " ".join(fluent.split()))
    fluent = ASSURING.sub(lambda found: found[0] if found["before"].lower() in PUTS_RIGHT else found["before"], fluent)
    fluent = APART.sub(lambda found: found["before"], fluent)
    if fluent == text or not any(letter.isalnum() for letter in fluent):
        return text
    return " ".join(fluent.replace(" ,", ",").split()).removeprefix(", ")


def _inside(found: re.Match[str]) -> str:
    points = found.string[found.end() :].lstrip(" ,").lower().startswith(("this", "that", "these", "those"))
    if points and found["said"].lower() == "like":
        return found[0]  # a bulb like this one
    if found["said"].lower() == "like" and WOULD.search(found["before"]):
        return found[0]  # I'd like the plumber to check it
    meant = LIKENED if found["said"].lower() == "like" else KINDS_OF
    return found[0] if found["before"].lower().replace("’", "'") in meant else found["before"]
