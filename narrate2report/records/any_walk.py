"""A walk to be set beside another: this program's own record with its journal, or one in the contract's plain form."""

from __future__ import annotations

import json
from pathlib import Path

from narrate2report.errors import BadInput, BrokenRecord
from narrate2report.records.contract_form import completed, is_contract_form
from narrate2report.records.files import parse_record, read_bytes
from narrate2report.records.findings import FINDINGS_SCHEMA, Findings
from narrate2report.records.walk import read_walk


def read_any_walk(path: Path) -> Findings:
    """The record at `path` with every decision that was kept.

    Raises BrokenRecord where it holds no walk, BadInput where it cannot be read.
    """
    content = _content(path)
    if not is_contract_form(content):
        return read_walk(path)
    assert isinstance(content, dict)
    if content.get("schema") != FINDINGS_SCHEMA:
        raise BrokenRecord(f"{path}: not a findings file: schema: '{FINDINGS_SCHEMA}' is wanted")
    try:
        return parse_record(json.dumps(completed(content)), Findings)
    except (BrokenRecord, AttributeError, TypeError, KeyError) as error:
        told = str(error) if isinstance(error, BrokenRecord) else "holds something else where a block is wanted"
        raise BrokenRecord(f"{path}: {told}") from error


def _content(path: Path) -> object:
    if path.exists() and not path.is_file():
        raise BadInput(f"{path}: is no file that can hold a record")
    try:
        return json.loads(read_bytes(path).decode("utf-8"))
    except UnicodeDecodeError as error:
        raise BrokenRecord(
            f"{path}: is no findings file; draft a recording first, and name what that writes"
        ) from error
    except (ValueError, RecursionError) as error:
        raise BrokenRecord(f"{path}: not JSON ({error})") from error
