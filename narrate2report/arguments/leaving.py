"""Arguments of what leaves the office beside the report: `worklist`, `chapters`, `annotations`."""

from __future__ import annotations

import argparse

from narrate2report.arguments.shared import Commands, add_link_base, path_text


def add_worklist(commands: Commands) -> None:
    """`worklist`."""
    worklist = commands.add_parser(
        "worklist",
        help="list what has to be done, for a spreadsheet and a calendar",
        description="Write NAME.worklist.xlsx, .csv and .ics: follow-ups, flaws and failed checks, safety first.",
    )
    worklist.add_argument("file", metavar="FILE", type=path_text, help="a findings file, recordings and stills beside")
    worklist.add_argument("--to", metavar="FOLDER", type=path_text, required=True, help="where to write it")
    worklist.add_argument("--only", choices=("xlsx", "csv", "ics"), help="make one of the three alone")
    add_link_base(worklist)
    worklist.add_argument("--quiet", action="store_true", help="print nothing")
    worklist.set_defaults(run=_run_worklist)


def add_chapters(commands: Commands) -> None:
    """`chapters`."""
    chapters = commands.add_parser(
        "chapters",
        help="make the recording navigable: chapters, and a copy that holds them",
        description="Write NAME.chapters.vtt and a copy of the recording with chapters and captions in it.",
    )
    chapters.add_argument("file", metavar="FILE", type=path_text, help="a findings file, the recordings beside it")
    chapters.add_argument("--to", metavar="FOLDER", type=path_text, required=True, help="where to write them")
    chapters.add_argument("--only", choices=("vtt", "video"), help="the chapters alone, or the copy alone")
    chapters.add_argument("--quiet", action="store_true", help="print nothing")
    chapters.set_defaults(run=_run_chapters)


def add_annotations(commands: Commands) -> None:
    """`annotations`."""
    annotations = commands.add_parser(
        "annotations",
        help="write the entries as open data (W3C Web Annotations)",
        description="Write the entries as W3C Web Annotations (JSON-LD), each on its stretch of the recording.",
    )
    annotations.add_argument("file", metavar="FILE", type=path_text, help="a findings file")
    annotations.add_argument("--to", metavar="X.jsonld", type=path_text, required=True, help="the file to write")
    add_link_base(annotations, "{file} in it stands for the name")
    annotations.set_defaults(run=_run_annotations)


def _run_chapters(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.chapters import FORMS, WantedChapters, chapters

    chapters(WantedChapters(chosen.file, chosen.to, chosen.quiet, (chosen.only,) if chosen.only else FORMS))
    return 0


def _run_annotations(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.annotations import annotate

    annotate(chosen.file, chosen.to, chosen.link_base)
    return 0


def _run_worklist(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.worklist import FORMS, WantedList, worklist

    forms = (chosen.only,) if chosen.only else FORMS
    worklist(WantedList(chosen.file, chosen.to, chosen.link_base, chosen.quiet, forms))
    return 0
