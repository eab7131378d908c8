"""What the arguments of several commands share: how a path and a line of text are taken, options of several."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any, TypeAlias

from narrate2report.records.plain import NOT_TEXT, can_be_seen

Commands: TypeAlias = "argparse._SubParsersAction[Any]"
"""Where a command is added; the type that argparse returns has no public name."""

KINDS = ("move_in", "move_out", "periodic")
"""Of walks."""


def path_text(name: str) -> Path:
    """A file name that can be written into a record: some systems allow names that are no text."""
    try:
        name.encode("utf-8")
    except UnicodeEncodeError as error:
        raise argparse.ArgumentTypeError(f"{name!a}: a file name that is no text; rename the file") from error
    if NOT_TEXT.search(name):
        raise argparse.ArgumentTypeError(f"{name!a}: a file name with control characters; rename the file")
    return Path(name)


def plain_text(text: str) -> str:
    """Words for the record's head, which are printed as they are."""
    if NOT_TEXT.search(text):
        raise argparse.ArgumentTypeError(f"{text!a}: holds characters that cannot be printed")
    if text.strip() and not can_be_seen(text):
        raise argparse.ArgumentTypeError(f"{text!a}: holds nothing that can be seen")
    return text


def add_link_base(
    command: argparse.ArgumentParser, more: str = "{file} and {seconds} in it stand for name and start"
) -> None:
    """The option that says where recordings are reached that do not lie beside what is written."""
    command.add_argument("--link-base", metavar="URL", type=plain_text, help=f"where the videos lie on the web; {more}")


def add_paper(command: argparse.ArgumentParser) -> None:
    """The option of everything that is printed."""
    command.add_argument("--paper", choices=("letter", "a4"), default="letter", help="size of the paper")


def add_drafting(command: argparse.ArgumentParser) -> None:
    """The options that say how a recording is heard and read, be it one or many."""
    command.add_argument(
        "--model",
        metavar="NAME|FOLDER",
        help="listen with this Whisper model, not the built-in one; 'narrate2report models' lists what is here",
    )
    command.add_argument(
        "--repair-by-text",
        action="store_true",
        help="repair misheard words by the words beside them alone, without holding them against the sound",
    )
    command.add_argument("--track", metavar="N", type=int, help="listen to this sound track, counted from 1")
    command.add_argument(
        "--keep-location", action="store_true", help="keep where and with what device it was recorded in the record"
    )
    command.add_argument(
        "--plan", metavar="UNIT.yaml", type=path_text, help="the unit file whose rooms the walk is measured against"
    )
    command.add_argument("--kind", choices=KINDS, help="which walk this was")
    command.add_argument("--inspector", metavar="NAME", type=plain_text, help="who walked and spoke")
    add_words(command)


def add_words(command: argparse.ArgumentParser) -> None:
    """The option that lays words of one's own over the built-in ones."""
    command.add_argument(
        "--vocab", metavar="FOLDER", type=path_text, help="words of your own, added to the built-in ones"
    )
