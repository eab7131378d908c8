"""`key new FILE`: a key pair of the firm's, to sign seals with."""

from __future__ import annotations

import sys
from pathlib import Path

from rich.console import Console

from narrate2report.commands.seal import asked_passphrase
from narrate2report.errors import BadInput
from narrate2report.seal.signing import make_key


def new_key(file: Path, *, unlocked: bool) -> None:
    """Make a key pair and say which half is whose. Raises BadInput where a file is there already."""
    if not unlocked and not sys.stdin.isatty():
        raise BadInput("a passphrase can only be typed in a terminal; --no-passphrase makes a key without one")
    public = make_key(file, "" if unlocked else _passphrase())
    console = Console(highlight=False, markup=False)
    console.print(f"Private key: {file} - keep it to yourself, with a copy in a safe place", soft_wrap=True)
    console.print(f"Public key: {public} - give it to whoever is to verify your seals", soft_wrap=True)


def _passphrase() -> str:
    first = asked_passphrase("A passphrase for the private key: ")
    if not first:
        raise BadInput("an empty passphrase locks nothing; --no-passphrase makes a key without one")
    if asked_passphrase("The same again: ") != first:
        raise BadInput("the two were not the same; no key was made")
    return first
