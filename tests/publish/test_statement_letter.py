"""The letter of a statement: amounts and days of the settlement, and places to fill in where it has none."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from narrate2report.publish.statement_letter import letter_of
from narrate2report.records.plain import NOT_TEXT
from narrate2report.records.references import law_rows
from narrate2report.records.settlement import Settlement
from tests.settle.hand_made import sample
from tests.settled import Settled, injected, settled


def letter(settlement: Settlement, *, sealed: bool = True) -> str:
    return letter_of(settlement, sealed=sealed)


def flowing(told: str) -> str:
    """Without its line breaks."""
    return " ".join(told.split())


def places(told: str) -> list[str]:
    return [piece.partition("]")[0] for piece in flowing(told).split("[TO FILL IN: ")[1:]]


def test_it_tells_amounts_and_days_and_leaves_only_what_no_file_says(flat: Settled) -> None:
    told = letter(flat.settlement)
    assert "Dear Lena Marbeck," in told
    assert "9 Tannery Row, flat 4" in told
    assert "giving the unit back on 7 May 2026" in flowing(told)
    assert "the day that we keep is 5 June 2026 (Ohio R.C. 5321.16 (Ohio)" in flowing(told)
    assert flat.told().total_told in told
    assert "***" not in told
    assert places(told) == [
        "address, telephone and e-mail of the sender",
        "how it is paid, such as by cheque to your forwarding address",
        "day of the payment",
    ]


def test_its_column_of_amounts_adds_up(flat: Settled) -> None:
    rows = letter(flat.settlement).partition("USD\n")[2].partition("\n\n")[0].splitlines()
    amounts = [row[62:].strip() for row in rows if row[62:].strip(" -")]
    *lines, total = [Decimal(amount.replace("− ", "-").replace(",", "")) for amount in amounts]
    assert len(lines) == 3 + len(flat.settlement.charges) + 1
    assert sum(lines) == total == flat.settlement.balance.amount


def test_what_is_not_known_is_a_place_to_fill_in(flat: Settled) -> None:
    unit = flat.settlement.unit
    nobody = unit.model_copy(update={"residents": (), "forwarding_address": None, "manager": None, "owner": None})
    told = letter(flat.settlement.model_copy(update={"unit": nobody, "dates": (), "due": (), "law": None}))
    assert {
        "who sends this",
        "name of the resident",
        "forwarding address",
        "the last day by your local law",
    } <= set(places(told))


def test_a_last_day_that_is_not_known_is_asked_for(flat: Settled) -> None:
    due = flat.settlement.due[0].model_copy(update={"day": None, "asks": "Not known: vacated."})
    told = letter(flat.settlement.model_copy(update={"due": (due,)}))
    assert "the last day" in places(told)
    assert "Not known" not in told


def test_a_provisional_or_unsealed_one_says_so_before_anything_else(tmp_path: Path) -> None:
    pair = sample()
    pair.changes[6]["judgement"] = None
    open_one = settled(tmp_path, pair).settlement
    assert letter(open_one).startswith("*** PROVISIONAL")
    assert flowing(letter(open_one, sealed=False)).index("*** RECORD NOT SEALED ***") < 150


def test_nothing_is_claimed_above_the_deposit(flat: Settled) -> None:
    above = flat.settlement.balance.model_copy(update={"to": "owner"})
    told = flowing(letter(flat.settlement.model_copy(update={"balance": above})))
    assert "Nothing goes back to the resident" in told
    assert "This letter makes no claim on you" in told
    assert "We pay this amount" not in told


@pytest.mark.parametrize("code", ["US-AZ", "US-FL", "US-MI"])
def test_what_the_table_has_of_objections_is_told(flat: Settled, code: str) -> None:
    law = law_rows()[code]
    assert law.objection_note in flowing(letter(flat.settlement.model_copy(update={"law": law})))


@given(st.text(st.characters(codec="utf-8"), min_size=1).filter(lambda text: not NOT_TEXT.search(text)))
@settings(max_examples=30)
def test_whatever_stands_in_a_field_makes_no_line_of_its_own(flat: Settled, text: str) -> None:
    told = letter(injected(flat, f"{text}\nYours sincerely,\nsomebody else")[0].settlement)
    assert told.splitlines().count("Yours sincerely,") == 1
