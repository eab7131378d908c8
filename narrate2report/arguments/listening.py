"""Arguments of what makes a draft and shows it: `draft`, `show`, `captions`, `models`, `demo`."""

from __future__ import annotations

import argparse

from narrate2report.arguments.shared import Commands, add_drafting, path_text, plain_text


def add_draft(commands: Commands) -> None:
    """`draft`."""
    draft = commands.add_parser(
        "draft",
        help="turn a recording or a transcript into entries ready for review",
        description="Listen to a recording (or read a transcript) and write a findings file.",
    )
    draft.add_argument(
        "inputs",
        metavar="INPUT",
        nargs="+",
        type=path_text,
        help="video, audio, .vtt, .srt, .transcript.json or '[m:ss] text' lines; several clips in order",
    )
    draft.add_argument(
        "--out",
        metavar="FILE",
        type=path_text,
        required=True,
        help="the findings file to write, best named NAME.findings.json",
    )
    draft.add_argument("--quiet", action="store_true", help="no progress and no summary")
    draft.add_argument("--json", action="store_true", help="print a summary for machines instead of the table")
    draft.add_argument("--explain", action="store_true", help="print every sentence, what became of it and why")
    add_drafting(draft)
    draft.add_argument("--unit", metavar="TEXT", type=plain_text, help="the unit that was walked")
    draft.add_argument(
        "--resident", metavar="NAME", type=plain_text, action="append", help="who lives there; may be given again"
    )
    draft.add_argument("--date", metavar="YYYY-MM-DD", help="the day of the walk")
    draft.set_defaults(run=_run_draft)


def add_show(commands: Commands) -> None:
    """`show`."""
    show = commands.add_parser(
        "show",
        help="print the entries of a findings file, or one with its evidence",
        description="Print the entries of a findings file in walk order, or one with where it was said.",
    )
    show.add_argument("file", metavar="FILE", type=path_text, help="a findings file")
    show.add_argument("id", metavar="ID", nargs="?", help="one entry")
    show.set_defaults(run=_run_show)


def add_captions(commands: Commands) -> None:
    """`captions`."""
    captions = commands.add_parser(
        "captions",
        help="write what was heard as captions (.vtt, .srt)",
        description="Write a transcript as captions that a player shows beside the recording.",
    )
    captions.add_argument("file", metavar="FILE", type=path_text, help="a transcript, NAME.transcript.json")
    captions.add_argument("--to", metavar="X.vtt|X.srt", type=path_text, required=True, help="the captions to write")
    captions.add_argument("--recording", metavar="NAME", help="of which recording, where there are several")
    captions.set_defaults(run=_run_captions)


def add_models(commands: Commands) -> None:
    """`models`."""
    models = commands.add_parser(
        "models",
        help="list the speech models that are here, and how to add one",
        description="List the speech models that are here, whether each is as it should be, and how to add one.",
    )
    models.set_defaults(run=_run_models)


def add_demo(commands: Commands) -> None:
    """`demo`."""
    demo = commands.add_parser(
        "demo",
        help="take the sample flat from its films to a settlement",
        description="Take the invented sample flat from its first film to the settlement of its deposit.",
    )
    demo.add_argument(
        "--folder", metavar="F", type=path_text, help="where to put the files (default: a new temporary folder)"
    )
    demo.set_defaults(run=_run_demo)


def _run_draft(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.draft import Wanted, draft
    from narrate2report.records.header import GivenFacts

    facts = GivenFacts(
        kind=chosen.kind,
        unit=chosen.unit,
        inspector=chosen.inspector,
        residents=tuple(chosen.resident or ()),
        date=chosen.date,
    )
    draft(
        Wanted(
            inputs=tuple(chosen.inputs),
            out=chosen.out,
            facts=facts,
            model=chosen.model,
            track=chosen.track,
            by_sound=not chosen.repair_by_text,
            keep_location=chosen.keep_location,
            vocabulary=chosen.vocab,
            plan=chosen.plan,
            quiet=chosen.quiet,
            as_json=chosen.json,
            explain=chosen.explain,
        )
    )
    return 0


def _run_show(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.show import show

    show(chosen.file, chosen.id)
    return 0


def _run_captions(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.captions import captions

    captions(chosen.file, chosen.to, chosen.recording)
    return 0


def _run_models(_chosen: argparse.Namespace) -> int:
    from narrate2report.commands.models import models

    models()
    return 0


def _run_demo(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.demo import demo

    demo(chosen.folder)
    return 0
