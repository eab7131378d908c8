"""`completion SHELL`: what a shell needs to complete commands, options and file names when Tab is pressed."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator

import shtab

from narrate2report.arguments.shared import path_text


def completion(whole: argparse.ArgumentParser, shell: str) -> None:
    """Print the script for a shell, made from the command line itself."""
    for action in _actions(whole):
        if action.type is path_text:
            action.complete = shtab.FILE  # type: ignore[attr-defined] # shtab reads it from there
    sys.stdout.write(shtab.complete(whole, shell=shell) + "\n")


def _actions(parser: argparse.ArgumentParser) -> Iterator[argparse.Action]:
    for action in parser._actions:
        yield action
        if isinstance(action, argparse._SubParsersAction):
            for inner in action.choices.values():
                yield from _actions(inner)
