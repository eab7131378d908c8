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
from typing import NoReturn

from narrate2report import __version__
from narrate2report.arguments import comparing, deciding, leaving, listening, many, planning, settling, words
from narrate2report.errors import BadInput, NarrateError

INTERRUPTED = 130
EXAMPLES = "narrate2report guide examples"
"""Told at the foot of every --help."""


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
    top = _Parser(
        prog="narrate2report",
        description="Turn a narrated walk through a rental into a record.",
        epilog=f"Every command once, with what it prints: {EXAMPLES}. How to speak: narrate2report guide speaking.",
    )
    top.add_argument("--version", action="version", version=f"narrate2report {__version__}")
    commands = top.add_subparsers(title="commands", metavar="COMMAND", required=True)
    planning.add_plan(commands)
    listening.add_draft(commands)
    listening.add_show(commands)
    listening.add_captions(commands)
    planning.add_coverage(commands)
    deciding.add_review(commands)
    deciding.add_seal(commands)
    deciding.add_verify(commands)
    deciding.add_amend(commands)
    deciding.add_report(commands)
    leaving.add_worklist(commands)
    leaving.add_chapters(commands)
    leaving.add_annotations(commands)
    comparing.add_compare(commands)
    settling.add_settle(commands)
    settling.add_statement(commands)
    settling.add_unit(commands)
    deciding.add_key(commands)
    many.add_batch(commands)
    many.add_shelf(commands)
    many.add_find(commands)
    words.add_vocab(commands)
    words.add_evaluate(commands)
    words.add_learn(commands)
    listening.add_models(commands)
    listening.add_demo(commands)
    words.add_doctor(commands)
    words.add_completion(commands, top)
    words.add_guide(commands)
    for name, command in commands.choices.items():
        command.epilog = f"An example, with what it prints: {EXAMPLES} (look for '$ narrate2report {name}')"
    return top
