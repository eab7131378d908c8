"""`vocab check [FOLDER]`: whether words can be used, what they add, and which of them mean something else already."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from rich.console import Console

from narrate2report.commands.words import SWITCH, own_folder, word_folders
from narrate2report.read.lexis.additions import Addition, find_additions
from narrate2report.read.lexis.clashes import Clash, find_clashes
from narrate2report.read.lexis.lexicon import combine, read_layers
from narrate2report.wording import counted


def check_words(named: Path | None) -> None:
    """Check the built-in words, one's own and those in `named`; print what each file adds, and what clashes.

    Raises BadVocabulary with file and line of the first mistake. A clash is none.
    """
    folders = word_folders(named)
    layers = read_layers(folders)
    vocabulary = combine(layers)
    additions = find_additions(layers)
    clashes = find_clashes(layers)
    console = Console(highlight=False, markup=False)
    console.print("Built-in words: no mistake.", style="bold")
    for folder in folders:
        console.print(f"{folder}: no mistake.", style="bold", soft_wrap=True)
        for addition in additions:
            if addition.path.parent == folder:
                console.print(f"  {_told(addition)}", soft_wrap=True)
    if own_folder() not in folders:
        console.print(_where_own_words_lie(), style="dim", soft_wrap=True)
    _print_clashes(console, clashes, has_own=bool(folders))
    console.print(f"Version of these words: {vocabulary.version}", style="dim", soft_wrap=True)


def _told(addition: Addition) -> str:
    parts = [f"adds {counted(addition.words, 'word')}"]
    if addition.blocks:
        parts.append(f"new: {', '.join(addition.blocks)}")
    if addition.known:
        parts.append(f"{addition.known} known already")
    return f"{addition.path.name:19}{'; '.join(parts)}"


def _where_own_words_lie() -> str:
    own = own_folder()
    if own is None:
        return f"Your own folder of words is switched off ({SWITCH} is empty)."
    return f"Words that you want in every draft go into {own}"


def _print_clashes(console: Console, clashes: Sequence[Clash], *, has_own: bool) -> None:
    if clashes:
        console.print(f"\nMind {counted(len(clashes), 'word')} with another meaning:", style="bold")
        for clash in clashes:
            console.print(f"  {clash.path}:{clash.line}: ‘{clash.word}’ {clash.told}", soft_wrap=True)
        console.print()
    elif has_own:
        console.print("No word of yours means something else already.")
