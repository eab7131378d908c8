"""Arguments of what sets two walks of one unit beside each other: `compare`."""

from __future__ import annotations

import argparse

from narrate2report.arguments.shared import Commands, add_words, path_text


def add_compare(commands: Commands) -> None:
    """`compare`."""
    compare = commands.add_parser(
        "compare",
        help="tell what is new, worse, unchanged or gone between two walks",
        description="Set the record of a later walk beside that of an earlier one: what became of every flaw, and why.",
    )
    compare.add_argument("before", metavar="MOVE_IN", type=path_text, help="the findings file of the earlier walk")
    compare.add_argument("after", metavar="MOVE_OUT", type=path_text, help="the findings file of the later walk")
    compare.add_argument("--out", metavar="FILE", type=path_text, required=True, help="the comparison to write")
    compare.add_argument(
        "--rooms", metavar="FILE", type=path_text, help="which rooms are the same, where that is asked"
    )
    compare.add_argument("--json", action="store_true", help="print a summary for machines instead of the changes")
    compare.add_argument("--quiet", action="store_true", help="print nothing")
    add_words(compare)
    compare.set_defaults(run=_run_compare)


def _run_compare(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.compare import WantedComparison, compare

    compare(
        WantedComparison(
            chosen.before, chosen.after, chosen.out, chosen.rooms, chosen.vocab, json=chosen.json, quiet=chosen.quiet
        )
    )
    return 0
