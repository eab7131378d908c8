"""The file that `--out` names: it may take the place of an earlier record of its kind, and of nothing else."""

from __future__ import annotations

from pathlib import Path

from narrate2report.errors import BadInput, BrokenRecord
from narrate2report.records.files import Record, read_record


def earlier_at(out: Path, kind: type[Record], called: str) -> Record | None:
    """What lies where a record of this kind is to be written; None where nothing does.

    Raises BadInput where its folder is not there, or where something else than such a record (`called`) would be lost.
    """
    if not out.parent.is_dir():
        raise BadInput(f"{out.parent}: no such folder; make it first")
    if out.is_symlink() or (out.exists() and not out.is_file()):
        raise BadInput(f"--out {out}: is no file that can be written; choose another name")
    if not out.exists():
        return None
    try:
        return read_record(out, kind)
    except BrokenRecord as error:
        raise BadInput(f"--out {out}: is there already and holds no {called}; choose another name") from error
