"""The one true bytes of a record (RFC 8785, JSON Canonicalization Scheme) and their hash."""

from __future__ import annotations

import hashlib
import json
from typing import Any

import rfc8785


def canonical_bytes(value: Any) -> bytes:
    """A JSON value as RFC 8785 bytes: equal values give equal bytes on every machine."""
    return rfc8785.dumps(value)


def canonical_sha256(value: Any) -> str:
    """SHA-256, in lower-case hex, over the canonical bytes of a JSON value."""
    return hashlib.sha256(canonical_bytes(value)).hexdigest()


def readable_bytes(value: Any) -> bytes:
    """A JSON value as the indented UTF-8 text kept on disk; equal values give equal bytes.

    Keys keep the order of the record's own definition, which a person reads top to bottom;
    the canonical form is for hashing.
    """
    return (json.dumps(value, ensure_ascii=False, indent=1, allow_nan=False) + "\n").encode("utf-8")
