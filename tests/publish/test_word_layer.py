"""Proposed words as files: valid as written and whatever lines are accepted, and nothing counts before."""

from __future__ import annotations

import tempfile
from pathlib import Path

from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from narrate2report.commands.earlier_words import accepted_lines
from narrate2report.publish.word_layer import MARK, layer_files, proposed_line
from narrate2report.read.lexis.lexicon import combine, read_layers
from narrate2report.read.lexis.word_files import read_layer
from narrate2report.records.proposal import Addition, Place, Proposal

PLACES = (
    Place("components", ("countertop", "say")),
    Place("components", ("countertop", "else")),
    Place("components", ("oven", "not_in")),
    Place("conditions", ("gouge", "nouns")),
    Place("conditions", ("loose", "phrases")),
    Place("actions", ("repair", "verbs")),
    Place("cues", ("negation",)),
    Place("cues", ("operates",)),
    Place("descriptions", ("material",)),
    Place("idioms"),
)
WORD = st.text("abcdefghijklmnopqrstuvwxyzé'0123456789", min_size=1, max_size=9).filter(lambda one: one[0].isalpha())
PHRASE = st.one_of(
    st.lists(WORD, min_size=1, max_size=4).map(" ".join),
    st.sampled_from(["no", "on", "null", "yes", "'s ok", "1e3"]),
)
PROPOSAL = st.builds(
    Proposal,
    st.builds(Addition, st.sampled_from(PLACES), PHRASE),
    said=st.just(3),
    so=st.just(3),
    walks=st.just(2),
    mends=st.integers(2, 9),
    makes=st.integers(0, 1),
    quote=st.text(max_size=200),
)
PROPOSALS = st.lists(PROPOSAL, min_size=1, max_size=8, unique_by=lambda one: one.addition)


def written(folder: Path, proposals: list[Proposal]) -> None:
    for name, text in layer_files([proposed_line(one) for one in proposals]).items():
        (folder / f"{name}.yaml").write_text(text, encoding="utf-8")


def accept(folder: Path, chosen: set[int]) -> None:
    """Take the mark at its start, and nothing else, from every chosen one of the lines that hold a proposal."""
    number = -1
    for path in sorted(folder.iterdir()):
        lines = path.read_text(encoding="utf-8").split("\n")
        for at, line in enumerate(lines):
            if line.startswith(f'{MARK}   "'):
                number += 1
                lines[at] = line.removeprefix(MARK) if number in chosen else line
        path.write_text("\n".join(lines), encoding="utf-8")


def words(folder: Path) -> set[tuple[str, tuple[str, ...], str]]:
    return {
        (name, tuple(step for step in at if isinstance(step, str)), word)
        for name, file in read_layer(folder).files.items()
        for at, word in file.words()
    }


@given(PROPOSALS, st.sets(st.integers(0, 7)))
@settings(max_examples=60)
def test_just_the_accepted_lines_count(proposals: list[Proposal], chosen: set[int]) -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        written(folder, proposals)
        assert words(folder) == set()
        accept(folder, chosen)
        counted = words(folder)
        assert len(counted) == len([number for number in chosen if number < len(proposals)])
        all_of_them = {(one.addition.place.file, one.addition.place.keys, one.addition.phrase) for one in proposals}
        assert counted <= all_of_them
        kept = {
            (line.addition.place.file, line.addition.place.keys, line.addition.phrase)
            for line in accepted_lines(folder)
        }
        assert kept == counted


@given(PROPOSALS, st.sets(st.integers(0, 7)))
@settings(max_examples=6, phases=[Phase.generate])
def test_they_can_be_used_whatever_is_accepted(proposals: list[Proposal], chosen: set[int]) -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        written(folder, proposals)
        built_in = combine(read_layers([]))
        assert combine(read_layers([folder])) == built_in
        accept(folder, chosen)
        vocabulary = combine(read_layers([folder]))
        assert len(vocabulary.idioms) >= len(built_in.idioms)


@given(PROPOSALS, PROPOSALS, st.sets(st.integers(0, 7)))
@settings(max_examples=40)
def test_accepted_lines_are_written_again_as_they_were(
    proposals: list[Proposal], later: list[Proposal], chosen: set[int]
) -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        written(folder, proposals)
        accept(folder, chosen)
        counted = words(folder)
        kept = accepted_lines(folder)
        for file, text in layer_files([*kept, *map(proposed_line, later)]).items():
            (folder / f"{file}.yaml").write_text(text, encoding="utf-8")
        assert words(folder) == counted
        assert {line.written for line in accepted_lines(folder)} == {line.written for line in kept}
