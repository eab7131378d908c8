"""Arguments of what is done with many walks at once: `batch`, `shelf`, `find`."""

from __future__ import annotations

import argparse
from pathlib import Path

from narrate2report.arguments.shared import KINDS, Commands, add_drafting, path_text
from narrate2report.records.shelved import Standing

STANDINGS: dict[str, Standing] = {
    "to-draft": "to_draft",
    "to-review": "to_review",
    "to-seal": "reviewed",
    "sealed": "sealed",
    "settled": "settled",
    "broken": "broken",
}


SOME_FAILED = 2
"""Exit status of `batch` where a recording could not be drafted."""


def add_batch(commands: Commands) -> None:
    """`batch`."""
    batch = commands.add_parser(
        "batch",
        help="draft every recording that has no record yet",
        description="Draft every recording below a folder, or that a pattern matches, that has no record yet.",
    )
    batch.add_argument(
        "places",
        metavar="FOLDER|GLOB",
        nargs="+",
        type=lambda name: str(path_text(name)) if "://" not in name else name,
        help="folders, recordings or patterns such as 'walks/**/*.mp4'; addresses such as s3://bucket/walks",
    )
    batch.add_argument("--jobs", metavar="N", type=_jobs, help="so many at once (what cores and free memory allow)")
    batch.add_argument("--watch", action="store_true", help="go on, and draft what comes into the folders")
    batch.add_argument("--scheduler", metavar="ADDRESS", help="work on this Dask cluster, such as tls://host:8786")
    batch.add_argument("--quiet", action="store_true", help="print nothing but errors")
    batch.add_argument("--json", action="store_true", help="print a JSON line for each recording, and one for all")
    add_drafting(batch)
    batch.set_defaults(run=_run_batch)


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
    shelf.add_argument("--kind", choices=KINDS, help="only walks of this kind")
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


def _jobs(text: str) -> int:
    if not text.isdecimal() or not 0 < int(text) <= 1000:
        raise argparse.ArgumentTypeError(f"{text!r}: is no number of jobs")
    return int(text)


def _run_batch(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.batch import WantedBatch, batch
    from narrate2report.records.header import GivenFacts

    failed = batch(
        WantedBatch(
            places=tuple(chosen.places),
            jobs=chosen.jobs,
            watch=chosen.watch,
            scheduler=chosen.scheduler,
            model=chosen.model,
            track=chosen.track,
            by_sound=not chosen.repair_by_text,
            plan=chosen.plan,
            vocabulary=chosen.vocab,
            facts=GivenFacts(kind=chosen.kind, inspector=chosen.inspector),
            keep_location=chosen.keep_location,
            quiet=chosen.quiet,
            as_json=chosen.json,
        )
    )
    return SOME_FAILED if failed else 0


def _run_shelf(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.shelf import WantedShelf, shelf

    standing = STANDINGS[chosen.state] if chosen.state else None
    shelf(WantedShelf(chosen.folder, standing, chosen.unit, chosen.kind, chosen.json))
    return 0


def _run_find(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.find import WantedFind, find

    find(WantedFind(chosen.words, chosen.folder, chosen.most, chosen.json))
    return 0
