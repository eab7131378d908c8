"""The canonical form against the standard's own cases, and the readable form against a second reading."""

from __future__ import annotations

import hashlib
import json
import math
import struct
from pathlib import Path
from typing import Any

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.records.canonical import canonical_bytes, canonical_sha256, readable_bytes

VECTORS = json.loads((Path(__file__).parent / "vectors" / "rfc8785.json").read_text(encoding="utf-8"))

json_values = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**53) + 1, 2**53 - 1) | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=10,
)


@pytest.mark.parametrize("case", VECTORS["objects"], ids=lambda case: case["name"])
def test_objects_have_the_bytes_of_the_standard(case: dict[str, str]) -> None:
    value = json.loads(case["input"])
    assert canonical_bytes(value) == bytes.fromhex(case["output_hex"])
    assert canonical_sha256(value) == case["sha256"]


@pytest.mark.parametrize("case", VECTORS["numbers"], ids=lambda case: case["ieee754_hex"])
def test_numbers_are_written_as_the_standard_writes_them(case: dict[str, Any]) -> None:
    (number,) = struct.unpack(">d", bytes.fromhex(case["ieee754_hex"]))
    if case["expected"] is None:
        assert not math.isfinite(number)
        with pytest.raises(rfc8785.FloatDomainError):
            canonical_bytes(number)
    else:
        assert canonical_bytes(number).decode() == case["expected"]


@given(st.dictionaries(st.text(max_size=5), json_values, max_size=5))
def test_the_hash_does_not_depend_on_the_order_of_keys(value: dict[str, Any]) -> None:
    turned = dict(reversed(value.items()))
    assert canonical_sha256(turned) == canonical_sha256(value)
    assert canonical_sha256(value) == hashlib.sha256(canonical_bytes(value)).hexdigest()


@given(json_values)
def test_the_readable_form_says_the_same_as_the_canonical_one(value: Any) -> None:
    assert json.loads(readable_bytes(value)) == json.loads(canonical_bytes(value)) == value


def test_the_readable_form_keeps_its_letters_and_ends_its_last_line() -> None:
    assert readable_bytes({"b": "crème", "a": 1}) == '{\n "b": "crème",\n "a": 1\n}\n'.encode()


def test_no_number_that_json_cannot_hold_is_written() -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        readable_bytes({"a": float("nan")})
