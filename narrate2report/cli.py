"""Arguments in, exit status out. What a command does stands in commands/, imported only when it is asked for.

Exit status: 0 done, 1 (of verify alone) something no longer matches, 2 bad use or bad input (one line on stderr,
nothing written), 130 interrupted.
"""

from __future__ import annotations

import argparse
import errno
import io
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import NoReturn, TypeAlias

from narrate2report import __version__
from narrate2report.errors import BadInput, NarrateError
from narrate2report.records.plain import NOT_TEXT, can_be_seen

INTERRUPTED = 130


class _Parser(argparse.ArgumentParser):
    """A parser whose complaints are one line, as every other error of this program."""

    def error(self, message: str) -> NoReturn:
        raise BadInput(f"{message} (see: {self.prog} --help)")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status."""
    _print_what_can_be()
    try:
        chosen = parser().parse_args(arguments)
        status = int(chosen.run(chosen))
        if sys.stdout is not None:
            sys.stdout.flush()
        return status
    except NarrateError as error:
        return _complain(" ".join(str(error).split()), error.exit_code)
    except KeyboardInterrupt:
        return _complain("stopped; what was heard is kept, and the same command goes on from there", INTERRUPTED)
    except BrokenPipeError:
        # The reader of our output (head, less) has gone away: that is its right, and no error of ours.
        sys.stdout = None
        return 0
    except SystemExit as left:
        # rich answers a reader that has gone away by leaving with status 1.
        if isinstance(left.__context__, BrokenPipeError):
            return 0
        raise
    except OSError as error:
        if error.errno != errno.ENOSPC:
            raise
        sys.stdout = None
        return _complain("the result could not be printed: no space left where it goes", 2)


def _print_what_can_be() -> None:
    """A terminal or file that cannot show a character gets a question mark for it, and everything else."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")


def _complain(line: str, status: int) -> int:
    print(f"narrate2report: {line}", file=sys.stderr)  # noqa: T201 - the one place that prints an error
    return status


def parser() -> argparse.ArgumentParser:
    """The whole command line, one sub-parser a command."""
    top = _Parser(prog="narrate2report", description="Turn a narrated walk through a rental into a record.")
    top.add_argument("--version", action="version", version=f"narrate2report {__version__}")
    commands = top.add_subparsers(title="commands", metavar="COMMAND", required=True)
    _add_draft(commands)
    _add_show(commands)
    _add_review(commands)
    _add_seal(commands)
    _add_verify(commands)
    _add_amend(commands)
    _add_key(commands)
    _add_vocab(commands)
    _add_demo(commands)
    _add_guide(commands)
    return top


# The type that add_subparsers returns has no public name.
_Commands: TypeAlias = "argparse._SubParsersAction[_Parser]"


def _path(name: str) -> Path:
    """A file name that can be written into a record: some systems allow names that are no text."""
    try:
        name.encode("utf-8")
    except UnicodeEncodeError as error:
        raise argparse.ArgumentTypeError(f"{name!a}: a file name that is no text; rename the file") from error
    if NOT_TEXT.search(name):
        raise argparse.ArgumentTypeError(f"{name!a}: a file name with control characters; rename the file")
    return Path(name)


def _words(text: str) -> str:
    """Words for the record's head, which are printed as they are."""
    if NOT_TEXT.search(text):
        raise argparse.ArgumentTypeError(f"{text!a}: holds characters that cannot be printed")
    if text.strip() and not can_be_seen(text):
        raise argparse.ArgumentTypeError(f"{text!a}: holds nothing that can be seen")
    return text


def _add_draft(commands: _Commands) -> None:
    draft = commands.add_parser(
        "draft",
        help="turn a recording or a transcript into entries ready for review",
        description="Listen to a recording (or read a transcript) and write a findings file.",
    )
    draft.add_argument(
        "inputs",
        metavar="INPUT",
        nargs="+",
        type=_path,
        help="video, audio, .vtt, .srt, .transcript.json or '[m:ss] text' lines; several clips in order",
    )
    draft.add_argument(
        "--out",
        metavar="FILE",
        type=_path,
        required=True,
        help="the findings file to write, best named NAME.findings.json",
    )
    draft.add_argument("--quiet", action="store_true", help="no progress and no summary")
    draft.add_argument("--json", action="store_true", help="print a summary for machines instead of the table")
    draft.add_argument("--explain", action="store_true", help="print every sentence, what became of it and why")
    draft.add_argument(
        "--model",
        metavar="FOLDER",
        help="listen with the Whisper model (CTranslate2 form) in this folder, not the built-in one",
    )
    draft.add_argument("--kind", choices=("move_in", "move_out", "periodic"), help="which walk this was")
    draft.add_argument("--unit", metavar="TEXT", type=_words, help="the unit that was walked")
    draft.add_argument("--inspector", metavar="NAME", type=_words, help="who walked and spoke")
    draft.add_argument(
        "--resident", metavar="NAME", type=_words, action="append", help="who lives there; may be given again"
    )
    draft.add_argument("--date", metavar="YYYY-MM-DD", help="the day of the walk")
    _add_words(draft)
    draft.set_defaults(run=_run_draft)


def _add_words(command: argparse.ArgumentParser) -> None:
    command.add_argument("--vocab", metavar="FOLDER", type=_path, help="words of your own, added to the built-in ones")


def _add_vocab(commands: _Commands) -> None:
    vocab = commands.add_parser(
        "vocab",
        help="check words of your own, or see how a sentence is read",
        description="Check words of your own, or see how a sentence is read and by which words.",
    )
    tasks = vocab.add_subparsers(title="tasks", metavar="TASK", required=True)
    check = tasks.add_parser(
        "check",
        help="say what words add, and which mean something else already",
        description="Check the built-in words, your own and those in FOLDER, and say what each file adds.",
    )
    check.add_argument("folder", metavar="FOLDER", nargs="?", type=_path, help="a folder of words")
    check.set_defaults(run=_run_vocab_check)
    trial = tasks.add_parser(
        "try",
        help="show how a sentence is read",
        description="Show how sentences are read: the words found, how each part is meant, and what it gives.",
    )
    trial.add_argument("sentences", metavar="SENTENCE", nargs="+", help="what is said; - for lines from standard input")
    trial.add_argument("--room", metavar="ROOM", type=_words, help="where it is said, such as kitchen or bedroom.2")
    trial.add_argument("--json", action="store_true", help="print the reading for machines")
    _add_words(trial)
    trial.set_defaults(run=_run_vocab_try)


def _add_show(commands: _Commands) -> None:
    show = commands.add_parser(
        "show",
        help="print the entries of a findings file, or one with its evidence",
        description="Print the entries of a findings file in walk order, or one with where it was said.",
    )
    show.add_argument("file", metavar="FILE", type=_path, help="a findings file")
    show.add_argument("id", metavar="ID", nargs="?", help="one entry")
    show.set_defaults(run=_run_show)


def _add_review(commands: _Commands) -> None:
    review = commands.add_parser(
        "review",
        help="decide each entry beside the recording",
        description="Open a page on this machine alone, on which each entry is decided beside the recording.",
    )
    review.add_argument("file", metavar="FILE", type=_path, help="a findings file, the recordings beside it")
    review.add_argument("--by", metavar="NAME", type=_words, help="who decides")
    review.add_argument("--no-browser", action="store_true", help="only print the page's address")
    review.add_argument("--terminal", action="store_true", help="decide here, by letters, without a browser")
    _add_words(review)
    review.set_defaults(run=_run_review)


def _add_seal(commands: _Commands) -> None:
    seal = commands.add_parser(
        "seal",
        help="close a decided record under your name",
        description="Seal a record of which every entry is decided: any later change of it or its files shows.",
    )
    seal.add_argument("file", metavar="FILE", type=_path, help="a findings file")
    seal.add_argument("--by", metavar="NAME", type=_words, help="who seals; asked for in a terminal when not given")
    seal.add_argument("--statement", metavar="TEXT", type=_words, help="what you declare; asked for as well")
    seal.add_argument("--key", metavar="KEY.pem", type=_path, help="sign the seal with this private key")
    seal.add_argument("--quiet", action="store_true", help="print nothing")
    seal.set_defaults(run=_run_seal)


def _add_verify(commands: _Commands) -> None:
    verify = commands.add_parser(
        "verify",
        help="check a sealed record and every file it rests on",
        description="List everything that no longer matches the seal. Exit status 0 when all does, 1 when not.",
    )
    verify.add_argument("file", metavar="FILE", type=_path, help="a sealed findings file")
    verify.add_argument("--seal", metavar="HASH", type=_words, help="the seal as it was sent to you")
    verify.add_argument("--key", metavar="PUBLIC.pem", type=_path, help="the public key that must have signed it")
    verify.add_argument("--quiet", action="store_true", help="print nothing when all matches")
    verify.set_defaults(run=_run_verify)


def _add_amend(commands: _Commands) -> None:
    amend = commands.add_parser(
        "amend",
        help="start an addendum to a sealed record",
        description="Start a record that goes on from a sealed one and names its seal. The sealed one stays as it is.",
    )
    amend.add_argument("file", metavar="FILE", type=_path, help="a sealed findings file")
    amend.add_argument("--out", metavar="FILE", type=_path, help="its file, in the same folder (default: numbered)")
    amend.set_defaults(run=_run_amend)


def _add_key(commands: _Commands) -> None:
    key = commands.add_parser("key", help="make a key to sign seals with", description="Keys to sign seals with.")
    tasks = key.add_subparsers(title="tasks", metavar="TASK", required=True)
    new = tasks.add_parser(
        "new",
        help="make a private key and its public half",
        description="Make a private key (Ed25519, PEM) and, beside it, the public key to give away.",
    )
    new.add_argument("file", metavar="FILE", type=_path, help="the private key to write, such as firm.pem")
    new.add_argument("--no-passphrase", action="store_true", help="do not lock it; whoever has the file can sign")
    new.set_defaults(run=_run_key_new)


def _add_demo(commands: _Commands) -> None:
    demo = commands.add_parser(
        "demo",
        help="run the sample walkthrough from video to entries",
        description="Draft the invented sample walkthrough that comes with the program and show the result.",
    )
    demo.add_argument(
        "--folder", metavar="F", type=_path, help="where to put the files (default: a new temporary folder)"
    )
    demo.set_defaults(run=_run_demo)


def _add_guide(commands: _Commands) -> None:
    guide = commands.add_parser(
        "guide", help="read a guide", description="Print a guide, or the list of them when no topic is named."
    )
    guide.add_argument("topic", metavar="TOPIC", nargs="?", help="the guide to print")
    guide.set_defaults(run=_run_guide)


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
            vocabulary=chosen.vocab,
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


def _run_review(chosen: argparse.Namespace) -> int:
    if chosen.terminal:
        from narrate2report.commands.review_terminal import review_in_terminal

        review_in_terminal(chosen.file, by=chosen.by, vocabulary=chosen.vocab)
        return 0
    from narrate2report.commands.review import review

    review(chosen.file, by=chosen.by, vocabulary=chosen.vocab, browser=not chosen.no_browser)
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


def _run_key_new(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.key import new_key

    new_key(chosen.file, unlocked=chosen.no_passphrase)
    return 0


def _run_vocab_check(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.vocab_check import check_words

    check_words(chosen.folder)
    return 0


def _run_vocab_try(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.vocab_try import WantedTrial, try_words

    try_words(WantedTrial(tuple(chosen.sentences), chosen.room, chosen.vocab, chosen.json))
    return 0


def _run_demo(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.demo import demo

    demo(chosen.folder)
    return 0


def _run_guide(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.guide import guide

    guide(chosen.topic)
    return 0
