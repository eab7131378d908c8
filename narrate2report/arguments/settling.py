"""Arguments of what comes to money: `settle`, `statement`, `unit`."""

from __future__ import annotations

import argparse
from datetime import date

from narrate2report.arguments.shared import Commands, add_link_base, add_paper, add_words, path_text, plain_text


def add_settle(commands: Commands) -> None:
    """`settle`."""
    settle = commands.add_parser(
        "settle",
        help="work out what judged changes come to, what is left of the deposit, and by when it is due",
        description="Work out a deposit settlement from judged changes. It decides nothing, and is no legal advice.",
    )
    settle.add_argument("changes", metavar="CHANGES.json", type=path_text, help="a comparison, its records beside it")
    settle.add_argument("--unit", metavar="UNIT.yaml", type=path_text, required=True, help="the unit file")
    settle.add_argument("--out", metavar="FILE", type=path_text, required=True, help="the settlement to write")
    settle.add_argument(
        "--law", metavar="JURISDICTION", type=plain_text, help="such as US-OH; default: what the unit file says"
    )
    settle.add_argument("--lives", metavar="FILE.yaml", type=path_text, help="useful lives by your own records")
    settle.add_argument("--days", metavar="N", type=int, help="days to return the deposit, where the table has none")
    settle.add_argument("--clock-start", metavar="YYYY-MM-DD", type=day, help="the day from which --days count")
    settle.add_argument("--today", metavar="YYYY-MM-DD", type=day, help="the day from which days left are counted")
    settle.add_argument("--quiet", action="store_true", help="print nothing")
    add_words(settle)
    settle.set_defaults(run=_run_settle)


def add_statement(commands: Commands) -> None:
    """`statement`."""
    statement = commands.add_parser(
        "statement",
        help="make the itemised deposit statement to print and send, with a letter",
        description="Write NAME.statement.READER.pdf and .html: a settlement, charge by charge with its evidence.",
    )
    statement.add_argument(
        "file", metavar="SETTLEMENT.json", type=path_text, help="a settlement, both records beside it"
    )
    statement.add_argument("--to", metavar="FOLDER", type=path_text, required=True, help="where to write it")
    statement.add_argument(
        "--for",
        dest="reader",
        choices=("resident", "office"),
        default="resident",
        help="who will read it (default: resident, with a letter; the office's copy has the whole reasoning)",
    )
    statement.add_argument("--only", choices=("pdf", "html"), help="make one of the two alone")
    add_paper(statement)
    add_link_base(statement)
    statement.add_argument("--quiet", action="store_true", help="print nothing")
    statement.set_defaults(run=_run_statement)


def add_unit(commands: Commands) -> None:
    """`unit`."""
    unit = commands.add_parser("unit", help="write a unit file, asking for it", description="Unit files.")
    tasks = unit.add_subparsers(title="tasks", metavar="TASK", required=True)
    new = tasks.add_parser(
        "new",
        help="ask for a unit's facts and write them",
        description="Ask for the unit, its people, dates, deposit and components, one line each, and write them down.",
    )
    new.add_argument("file", metavar="FILE", type=path_text, help="the unit file to write, such as unit.yaml")
    add_words(new)
    new.set_defaults(run=_run_unit_new)


def day(text: str) -> date:
    """A day as it is typed: `2026-05-07`."""
    from narrate2report.records.unit import within_reach

    try:
        found = date.fromisoformat(text)
    except ValueError as error:
        raise argparse.ArgumentTypeError(f"{text!a}: not a day; write it as 2026-05-07") from error
    if found.isoformat() != text:
        raise argparse.ArgumentTypeError(f"{text!a}: write the day as {found.isoformat()}")
    try:
        return within_reach(found)
    except ValueError as error:
        raise argparse.ArgumentTypeError(str(error)) from error


def _run_settle(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.settle import WantedSettlement, settle_deposit

    settle_deposit(
        WantedSettlement(
            changes=chosen.changes,
            unit=chosen.unit,
            out=chosen.out,
            law=chosen.law,
            lives=chosen.lives,
            days=chosen.days,
            clock_start=chosen.clock_start,
            today=chosen.today,
            vocabulary=chosen.vocab,
            quiet=chosen.quiet,
        )
    )
    return 0


def _run_statement(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.report import FORMS
    from narrate2report.commands.statement import WantedStatement, statement

    forms = (chosen.only,) if chosen.only else FORMS
    statement(
        WantedStatement(chosen.file, chosen.to, chosen.reader, chosen.paper, chosen.link_base, chosen.quiet, forms)
    )
    return 0


def _run_unit_new(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.unit_new import new_unit

    new_unit(chosen.file, vocabulary=chosen.vocab)
    return 0
