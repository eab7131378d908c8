"""Where all fixed wording of what leaves the office lies: a folder for each language, a YAML file for each paper.

A file is plain data; whoever prints the paper says by a value type what has to stand in it.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any, Literal

import yaml

FOLDER = Path(__file__).with_name("languages")

Paper = Literal["report", "card", "work_list"]


def wording_file(paper: Paper, tag: str = "en") -> Path:
    """The file of a paper's wording in the language with this tag."""
    return FOLDER / tag / f"{paper}.yaml"


def wording_of(paper: Paper, tag: str = "en") -> dict[str, Any]:
    """What stands in that file. Every scalar is a string, `No` too."""
    return dict(yaml.load(wording_file(paper, tag).read_text(encoding="utf-8"), Loader=yaml.BaseLoader))
