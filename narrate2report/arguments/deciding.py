"""Arguments of what a person puts their name under: `review`, `seal`, `verify`, `amend`, `key`, `report`."""

from __future__ import annotations

import argparse

from narrate2report.arguments.shared import Commands, add_link_base, add_paper, add_words, path_text, plain_text

MOST_DAYS = 365


def add_review(commands: Commands) -> None:
    """`review`."""
    review = commands.add_parser(
        "review",
        help="decide each entry, or each change, beside the recording",
        description="Open a page on this machine alone, to decide each entry of a walk, or each change between two.",
    )
    review.add_argument(
        "file", metavar="FILE", type=path_text, help="a findings file or a comparison, the recordings beside it"
    )
    review.add_argument("--by", metavar="NAME", type=plain_text, help="who decides")
    review.add_argument("--no-browser", action="store_true", help="only print the page's address")
    review.add_argument("--terminal", action="store_true", help="decide here, by letters, without a browser")
    add_words(review)
    review.set_defaults(run=_run_review)


def add_seal(commands: Commands) -> None:
    """`seal`."""
    seal = commands.add_parser(
        "seal",
        help="close a decided record under your name",
        description="Seal a record of which every entry is decided: any later change of it or its files shows.",
    )
    seal.add_argument("file", metavar="FILE", type=path_text, help="a findings file")
    seal.add_argument("--by", metavar="NAME", type=plain_text, help="who seals; asked for in a terminal when not given")
    seal.add_argument("--statement", metavar="TEXT", type=plain_text, help="what you declare; asked for as well")
    seal.add_argument("--key", metavar="KEY.pem", type=path_text, help="sign the seal with this private key")
    seal.add_argument("--quiet", action="store_true", help="print nothing")
    seal.set_defaults(run=_run_seal)


def add_verify(commands: Commands) -> None:
    """`verify`."""
    verify = commands.add_parser(
        "verify",
        help="check a sealed record and every file it rests on",
        description="List everything that no longer matches the seal. Exit status 0 when all does, 1 when not.",
    )
    verify.add_argument("file", metavar="FILE", type=path_text, help="a sealed findings file")
    verify.add_argument("--seal", metavar="HASH", type=plain_text, help="the seal as it was sent to you")
    verify.add_argument("--key", metavar="PUBLIC.pem", type=path_text, help="the public key that must have signed it")
    verify.add_argument("--quiet", action="store_true", help="print nothing when all matches")
    verify.set_defaults(run=_run_verify)


def add_amend(commands: Commands) -> None:
    """`amend`."""
    amend = commands.add_parser(
        "amend",
        help="start an addendum to a sealed record",
        description="Start a record that goes on from a sealed one and names its seal. The sealed one stays as it is.",
    )
    amend.add_argument("file", metavar="FILE", type=path_text, help="a sealed findings file")
    amend.add_argument("--out", metavar="FILE", type=path_text, help="its file, in the same folder (default: numbered)")
    amend.set_defaults(run=_run_amend)


def add_report(commands: Commands) -> None:
    """`report`."""
    report = commands.add_parser(
        "report",
        help="make a paper to print, hand over and sign",
        description="Write NAME.READER.pdf and NAME.READER.html: what a record says, room by room, for one reader.",
    )
    report.add_argument("file", metavar="FILE", type=path_text, help="a findings file, recordings and stills beside it")
    report.add_argument("--to", metavar="FOLDER", type=path_text, required=True, help="where to write it")
    report.add_argument(
        "--for",
        dest="reader",
        choices=("resident", "owner", "office"),
        default="resident",
        help="who will read it (default: resident, without remarks of the office and work of others)",
    )
    report.add_argument("--only", choices=("pdf", "html"), help="make one of the two alone")
    add_paper(report)
    add_link_base(report)
    report.add_argument(
        "--language",
        choices=("en", "es"),
        default="en",
        help="language of the resident's copy (default: en); a translation says on every page that it is one",
    )
    report.add_argument(
        "--response-days", metavar="N", type=_days, help="days that the resident has to answer (default: a blank)"
    )
    add_words(report)
    report.add_argument("--quiet", action="store_true", help="print nothing")
    report.set_defaults(run=_run_report)


def add_key(commands: Commands) -> None:
    """`key`."""
    key = commands.add_parser("key", help="make a key to sign seals with", description="Keys to sign seals with.")
    tasks = key.add_subparsers(title="tasks", metavar="TASK", required=True)
    new = tasks.add_parser(
        "new",
        help="make a private key and its public half",
        description="Make a private key (Ed25519, PEM) and, beside it, the public key to give away.",
    )
    new.add_argument("file", metavar="FILE", type=path_text, help="the private key to write, such as firm.pem")
    new.add_argument("--no-passphrase", action="store_true", help="do not lock it; whoever has the file can sign")
    new.set_defaults(run=_run_key_new)


def _run_review(chosen: argparse.Namespace) -> int:
    from narrate2report.records.comparison import CHANGES_SCHEMA
    from narrate2report.records.files import schema_named_in

    if schema_named_in(chosen.file) == CHANGES_SCHEMA:
        return _review_changes(chosen)
    if chosen.terminal:
        from narrate2report.commands.review_terminal import review_in_terminal

        review_in_terminal(chosen.file, by=chosen.by, vocabulary=chosen.vocab)
        return 0
    from narrate2report.commands.review import review

    review(chosen.file, by=chosen.by, vocabulary=chosen.vocab, browser=not chosen.no_browser)
    return 0


def _review_changes(chosen: argparse.Namespace) -> int:
    if chosen.terminal:
        from narrate2report.commands.judging_terminal import judge_in_terminal

        judge_in_terminal(chosen.file, by=chosen.by)
        return 0
    from narrate2report.commands.review_changes import review_changes

    review_changes(chosen.file, by=chosen.by, browser=not chosen.no_browser)
    return 0


def _run_seal(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.seal import WantedSeal, seal

    seal(WantedSeal(chosen.file, chosen.by, chosen.statement, chosen.key, chosen.quiet))
    return 0


def _run_verify(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.verify import verify

    return verify(chosen.file, chosen.seal, chosen.key, quiet=chosen.quiet)


def _run_amend(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.amend import amend

    amend(chosen.file, chosen.out)
    return 0


def _run_report(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.report import FORMS, WantedReport, report

    report(
        WantedReport(
            file=chosen.file,
            to=chosen.to,
            reader=chosen.reader,
            paper=chosen.paper,
            link_base=chosen.link_base,
            quiet=chosen.quiet,
            forms=(chosen.only,) if chosen.only else FORMS,
            language=chosen.language,
            response_days=chosen.response_days,
            vocabulary=chosen.vocab,
        )
    )
    return 0


def _days(text: str) -> int:
    """A number of days from 1 to 365."""
    number = int(text) if text.isascii() and text.isdigit() and len(text) <= len(str(MOST_DAYS)) else 0
    if not 1 <= number <= MOST_DAYS:
        raise argparse.ArgumentTypeError(f"{text[:20]}: a number of days from 1 to {MOST_DAYS} is wanted")
    return number


def _run_key_new(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.key import new_key

    new_key(chosen.file, unlocked=chosen.no_passphrase)
    return 0
