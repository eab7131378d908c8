"""What all records share: frozen, nothing unknown let in, times kept to 0.01 s."""

from __future__ import annotations

from typing import Annotated

from pydantic import AfterValidator, BaseModel, ConfigDict, Field

from narrate2report.records.moments import rounded

LONGEST_S = 1e8
"""Three years: no walk is longer, and nothing that is not a number passes."""

Seconds = Annotated[float, Field(ge=0, le=LONGEST_S), AfterValidator(rounded)]
"""Seconds from the start of a recording, to 0.01."""

Sha256 = Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
"""SHA-256 as 64 lower-case hex digits."""


class Value(BaseModel):
    """A frozen value that refuses unknown fields."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)
