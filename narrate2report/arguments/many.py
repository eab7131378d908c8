"""Arguments of what looks at many walks at once: `shelf`, `find`."""

from __future__ import annotations

import argparse
from pathlib import Path

from narrate2report.arguments.shared import Commands, path_text
from narrate2report.records.shelved import Standing

STANDINGS: dict[str, Standing] = {
    "to-draft": "to_draft",
    "to-review": "to_review",
    "to-seal": "reviewed",
    "sealed": "sealed",
    "settled": "settled",
    "broken": "broken",
}


def add_shelf(commands: Commands) -> None:
    """`shelf`."""
    shelf = commands.add_parser(
        "shelf",
        help="list all walks below a folder",
        description="List all walks below a folder, with what has to be done next.",
    )
    shelf.add_argument("folder", metavar="FOLDER", nargs="?", type=path_text, default=Path(), help="where to look")
    shelf.add_argument("--state", choices=STANDINGS, help="only walks of this state")
    shelf.add_argument("--unit", metavar="UNIT", help="only walks of this unit")
    shelf.add_argument("--kind", choices=["move_in", "move_out", "periodic"], help="only walks of this kind")
    shelf.add_argument("--json", action="store_true", help="print the list for machines")
    shelf.set_defaults(run=_run_shelf)


def add_find(commands: Commands) -> None:
    """`find`."""
    find = commands.add_parser(
        "find",
        help="search the words of all walks below a folder",
        description="Search entries and sentences of all walks below a folder; all words must stand in one of them.",
    )
    find.add_argument("words", metavar="WORDS", help='what to look for, such as "caulk bathtub"')
    find.add_argument("folder", metavar="FOLDER", nargs="?", type=path_text, default=Path(), help="where to look")
    find.add_argument("--most", metavar="N", type=_count, default=50, help="how many to print (50)")
    find.add_argument("--json", action="store_true", help="print what is found for machines")
    find.set_defaults(run=_run_find)


def _count(text: str) -> int:
    if not text.isdecimal() or not 0 < int(text) <= 1_000_000:
        raise argparse.ArgumentTypeError(f"{text!r}: is no number of lines")
    return int(text)


def _run_shelf(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.shelf import WantedShelf, shelf

    standing = STANDINGS[chosen.state] if chosen.state else None
    shelf(WantedShelf(chosen.folder, standing, chosen.unit, chosen.kind, chosen.json))
    return 0


def _run_find(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.find import WantedFind, find

    find(WantedFind(chosen.words, chosen.folder, chosen.most, chosen.json))
    return 0
