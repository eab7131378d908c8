"""A duty that does not hold as things stand is neither promised nor dated; one without a row is asked for."""

from __future__ import annotations

import io
from decimal import Decimal

import pytest
from rich.console import Console

from narrate2report.publish.settlement_summary import print_settlement
from narrate2report.publish.statement_calendar import statement_calendar
from narrate2report.publish.statement_letter import letter_of
from narrate2report.records.duties import NOTHING_LEFT, applying
from narrate2report.records.references import clocks, law_rows
from narrate2report.records.settlement import Settlement
from narrate2report.records.unit import Dates, DepositTerms
from narrate2report.settle.balance import balance_of
from narrate2report.settle.deadlines import due_dates
from tests.settled import TODAY, Settled


def under(flat: Settled, code: str, *, charged: bool = True, rent: bool = False, held: int = 1500) -> Settled:
    """The flat under the law of another place, with or without its charges and the rent that is owed."""
    old = flat.settlement
    charges = old.charges if charged else ()
    sums = tuple(one for one in old.sums if rent or one.owed_by == "owner")
    balance = balance_of(DepositTerms(held=Decimal(held)), old.interest, charges, sums, "USD")
    law, days = law_rows()[code], {one.name: one.day for one in old.dates}
    due = due_dates(law, clocks(), None, Dates.model_validate(days | {"vacated": days["possession_returned"]}), TODAY)
    return flat.with_fields(charges=charges, sums=sums, balance=balance, law=law, due=due)


def letter(settlement: Settlement) -> str:
    return " ".join(letter_of(settlement, sealed=True).split())


def test_where_something_is_claimed_the_days_for_claiming_nothing_are_left_out(flat: Settled) -> None:
    made = under(flat, "US-FL")
    told = letter(made.settlement)
    assert "where nothing is claimed" not in told
    assert told.count("the day that we keep") == 1
    assert "Send the itemised statement (where something is claimed from the deposit): the day that we keep" in told
    assert "Return what is left of the deposit: the last day is [TO FILL IN: the last day]." in told


def test_the_settlement_in_the_terminal_tells_no_day_that_does_not_apply(flat: Settled) -> None:
    page = io.StringIO()
    print_settlement(under(flat, "US-FL").settlement, Console(file=page, width=200))
    told = page.getvalue()
    assert "where nothing is claimed" not in told
    assert "Send the itemised statement, where something is claimed from the deposit: keep" in told
    assert "Return what is left of the deposit: no day can be told yet" in told


def test_the_statement_marks_what_does_not_apply_and_asks_for_the_day_of_what_does(flat: Settled) -> None:
    due = {one.what: one for one in under(flat, "US-FL").told().due}
    off = due["Return what is left of the deposit (where nothing is claimed from the deposit)"]
    assert (off.keep, off.late) == ("does not apply", False)
    assert off.working == ("Something is claimed from the deposit, so this does not apply.",)
    assert due["Return what is left of the deposit"].keep == "not known"
    assert "no last day for this where something is claimed" in due["Return what is left of the deposit"].asks


def test_where_nothing_is_claimed_the_days_for_a_claim_are_left_out(flat: Settled) -> None:
    told = letter(under(flat, "US-FL", charged=False).settlement)
    assert "itemised statement (where" not in told
    assert "Return what is left of the deposit (where nothing is claimed from the deposit): the day" in told
    assert "TO FILL IN: the last day" not in told


@pytest.mark.parametrize(
    ("code", "rent", "kept"),
    [
        ("US-MT", True, {"something is deducted"}),
        ("US-AK", False, {"damage is deducted, or the resident gave no proper notice or abandoned the unit"}),
        ("US-WY", False, {"there is damage"}),
    ],
)
def test_the_other_places_with_two_cases(flat: Settled, code: str, rent: bool, kept: set[str]) -> None:
    assert {one.applies for one in applying(under(flat, code, rent=rent).settlement)} == kept


def test_rent_alone_is_a_claim_but_no_damage(flat: Settled) -> None:
    def cases(code: str) -> list[str | None]:
        return [one.applies for one in applying(under(flat, code, charged=False, rent=True).settlement)]

    assert set(cases("US-MT")) == {"something is deducted"}
    assert "nothing is deducted for damage and the resident gave proper notice" in cases("US-AK")


def test_while_something_is_open_both_cases_are_told(flat: Settled) -> None:
    made = under(flat, "US-FL", charged=False).with_fields(provisional=True)
    assert len(applying(made.settlement)) == 2


@pytest.mark.parametrize("code", ["US-OH", "US-FL", "GB-ENG"])
def test_where_nothing_is_left_no_return_is_promised(flat: Settled, code: str) -> None:
    made = under(flat, code, held=10)
    assert made.settlement.balance.to == "owner"
    assert "Return what is left" not in letter(made.settlement)
    assert b"eturn what is left" not in statement_calendar(made.settlement)
    returned = [one for one in made.told().due if one.what.startswith("Return")]
    assert returned
    assert all(one.keep == "does not apply" and one.working == (NOTHING_LEFT,) for one in returned)


def test_days_that_a_person_gave_promise_no_return_either(flat: Settled) -> None:
    one = flat.settlement.due[0].model_copy(
        update={"duty": "given", "label": "Return what is left of the deposit and send the itemised statement"}
    )
    told = letter(under(flat, "US-OH", held=10).with_fields(due=(one,)).settlement)
    assert "Return what is left" not in told
    assert "Send the itemised statement: the day that we keep" in told


def test_a_letter_carries_no_instruction_to_the_one_who_makes_it(flat: Settled) -> None:
    told = letter(under(flat, "GB-ENG").settlement)
    assert "the last day is [TO FILL IN: the last day]. " in told
    assert "unit file" not in told


def test_every_case_of_the_table_that_claims_decide_is_known() -> None:
    """A row that is worded anew must not slip past: cases that speak of claims or damage are all read."""
    told = {clock.applies for clock in clocks() if clock.applies}
    known = {clock.applies for clock in clocks() if clock.holds_if}
    assert known == {
        "nothing is claimed from the deposit",
        "something is claimed from the deposit",
        "no damage, cleaning, rent or utilities are due",
        "something is deducted",
        "nothing is deducted for damage and the resident gave proper notice",
        "there is no damage",
    }
    words = ("claimed", "deducted", "damage", " due")
    assert {one for one in told - known if any(word in one for word in words)} == {
        "damage is deducted, or the resident gave no proper notice or abandoned the unit",
        "there is damage",
    }
