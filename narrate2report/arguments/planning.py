"""Arguments of what is expected of a walk: `plan`, `coverage`."""

from __future__ import annotations

import argparse

from narrate2report.arguments.shared import KINDS, Commands, add_paper, add_words, path_text


def add_plan(commands: Commands) -> None:
    """`plan`."""
    plan = commands.add_parser(
        "plan",
        help="make the prompt card of a walk, for paper and phone",
        description="Write UNIT.KIND.card.pdf and UNIT.KIND.card.html: what to walk, say, try and hand over.",
    )
    plan.add_argument("unit", metavar="UNIT.yaml", type=path_text, help="the unit file")
    plan.add_argument("--to", metavar="FOLDER", type=path_text, required=True, help="where to write it")
    plan.add_argument(
        "--kind", choices=KINDS, help="which walk it is for (default: move_out with --last, move_in without)"
    )
    plan.add_argument(
        "--last", metavar="FINDINGS", type=path_text, help="the last walk's record: its flaws are looked at again"
    )
    plan.add_argument("--only", choices=("pdf", "html"), help="make one of the two alone")
    add_paper(plan)
    add_words(plan)
    plan.add_argument("--quiet", action="store_true", help="print nothing")
    plan.set_defaults(run=_run_plan)


def add_coverage(commands: Commands) -> None:
    """`coverage`."""
    coverage = commands.add_parser(
        "coverage",
        help="say what was spoken of and what was not, alarms first",
        description="Print what was said of each expected part: not spoken of, noted, or described as sound.",
    )
    coverage.add_argument("file", metavar="FILE", type=path_text, help="a findings file")
    coverage.add_argument(
        "--plan", metavar="UNIT.yaml", type=path_text, help="measure it against this unit file instead; FILE stays"
    )
    add_words(coverage)
    coverage.add_argument("--json", action="store_true", help="print it for machines")
    coverage.set_defaults(run=_run_coverage)


def _run_plan(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.plan import FORMS, WantedCard, plan

    plan(
        WantedCard(
            unit=chosen.unit,
            to=chosen.to,
            kind=chosen.kind,
            last=chosen.last,
            paper=chosen.paper,
            forms=(chosen.only,) if chosen.only else FORMS,
            vocabulary=chosen.vocab,
            quiet=chosen.quiet,
        )
    )
    return 0


def _run_coverage(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.coverage import WantedCoverage, coverage

    coverage(WantedCoverage(chosen.file, chosen.plan, chosen.vocab, chosen.json))
    return 0
