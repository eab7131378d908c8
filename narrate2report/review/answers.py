"""What every part of the page's server answers with when something is not there, or not as it should be."""

from __future__ import annotations

import json

from pydantic import ValidationError
from starlette.responses import JSONResponse, Response

LONGEST_NUMBER = 9
"""Digits of a number in an address."""


def whole(digits: str) -> int | None:
    """A number out of an address; None for what is none, or longer than anything is counted here."""
    return int(digits) if digits.isascii() and digits.isdigit() and len(digits) <= LONGEST_NUMBER else None


def missing(what: str) -> Response:
    """There is no such thing here."""
    return told(f"there is no such {what}", 404)


def told(why: str, status: int, **more: object) -> Response:
    """Why something is not answered, in one line."""
    return JSONResponse({"error": " ".join(why.split()), **more}, status_code=status)


def first_fault(error: ValidationError) -> str:
    """The first thing that is wrong with what the page sent."""
    first = error.errors(include_url=False)[0]
    where = ".".join(str(part) for part in first["loc"] if part != "request") or "the request"
    return f"{where}: {json.dumps(first['msg'].removeprefix('Value error, '))[1:-1]}"
