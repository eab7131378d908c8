"""What is said beside the figures: evidence that is missing, work that can hurt someone, and what the place wants."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from narrate2report.errors import CannotSettle
from narrate2report.records.references import clocks, law_rows, life_groups, life_rows, repaint_steps
from narrate2report.records.settlement import Settlement
from narrate2report.records.unit import DepositTerms, InterestTerms, Unit
from narrate2report.settle.interest import interest_of
from narrate2report.settle.settling import Grounds, Tables, settle
from narrate2report.settle.useful_life import Lives
from tests.settle.hand_made import Pair, judged

TODAY = date(2026, 5, 12)


def settled(pair: Pair, remedy: dict[str, Any], code: str | None = "US-OH", today: date = TODAY) -> Settlement:
    room, component = pair.after[0].room, pair.after[0].component
    told = {"work": "repair", "what": "mend it", "basis": "invoice", "amount": "50.00", "receipt": "7713"}
    facts = {
        "unit": "2B",
        "currency": "USD",
        "people": {},
        "dates": {"lease_start": "2025-03-06", "lease_end": "2026-04-30", "possession_returned": "2026-05-07"},
        "deposit": {"held": "1500.00"},
        "components": [{"room": room, "component": component, "age_years": "1", "remedies": [told | remedy]}],
    }
    comparison = pair.comparison()
    grounds = Grounds(comparison, "changes.json", *pair.records(), Unit.model_validate(facts))
    law = law_rows()[code] if code else None
    return settle(grounds, Tables(Lives((), life_rows(), life_groups()), repaint_steps(), law, clocks(), None), today)


def one(component: str = "countertop", condition: str = "burn") -> Pair:
    pair = Pair()
    pair.change("new", "kitchen", component, condition, judged())
    return pair


@pytest.mark.parametrize(
    ("component", "condition", "remedy", "told"),
    [
        ("grout", "mold", {"work": "clean"}, "have the cause found"),
        ("smoke_alarm", "missing", {"work": "supply"}, "replaced at once, whoever pays"),
        ("range", "broken", {"work": "repair"}, "Work on gas and mains is for licensed trades"),
        ("wall", "hole", {"work": "touch_up"}, "paint may hold lead"),
        ("countertop", "burn", {"receipt": None}, "No invoice, receipt or estimate is named"),
        ("countertop", "burn", {"basis": "estimate"}, "An estimate is not yet a cost"),
    ],
)
def test_a_charge_says_what_to_mind_about_it(component: str, condition: str, remedy: dict[str, Any], told: str) -> None:
    charge = settled(one(component, condition), remedy).charges[0]
    assert any(told in caution for caution in charge.cautions)


def test_a_plain_charge_with_its_invoice_needs_no_caution() -> None:
    assert settled(one(), {}).charges[0].cautions == ()


@pytest.mark.parametrize("code", [*sorted(code for code in law_rows()), None])
def test_every_settlement_says_to_check_the_statute_and_that_it_is_no_legal_advice(code: str | None) -> None:
    cautions = settled(one(), {}, code).cautions
    assert "not legal advice" in cautions[0]
    assert "check the current statute" in cautions[0]
    assert any("The program decides nothing" in caution for caution in cautions)
    assert len(set(cautions)) == len(cautions)


@pytest.mark.parametrize("row", law_rows().values(), ids=lambda row: row.code)
def test_what_is_doubtful_in_the_table_and_when_it_was_read_is_told(row: Any) -> None:
    cautions = " ".join(settled(one(), {}, row.code).cautions)
    for cell in (
        row.facts_as_of,
        row.source,
        row.verification,
        row.doubtful_cells,
        row.special_rules,
        row.objection_note,
    ):
        assert cell in cautions
    assert (row.photo_requirement in cautions) or row.photo_requirement == "none"


def test_without_a_jurisdiction_that_is_said() -> None:
    assert any("No jurisdiction of the table is named" in caution for caution in settled(one(), {}, None).cautions)


@pytest.mark.parametrize(("today", "ago"), [(date(2026, 7, 1), "25 days ago"), (date(2026, 6, 7), "1 day ago")])
def test_a_last_day_that_has_passed_is_said_loudly(today: date, ago: str) -> None:
    cautions = settled(one(), {}, today=today).cautions
    assert any(caution.startswith("THE LAST DAY HAS PASSED") and f", {ago}" in caution for caution in cautions)


def test_the_same_record_twice_is_refused() -> None:
    pair = one()
    pair.parts |= {"before": {"file": "out.findings.json"}, "after": {"file": "out.findings.json"}}
    with pytest.raises(CannotSettle, match="the same file"):
        settled(pair, {})


def test_records_that_are_of_other_kinds_of_walk_are_told() -> None:
    pair = one()
    pair.parts["before"] = {"file": "in.findings.json", "kind": "periodic"}
    assert any("of another kind (periodic)" in caution for caution in settled(pair, {}).cautions)


def test_interest_that_was_worked_out_elsewhere_stands_as_given() -> None:
    terms = InterestTerms(amount=Decimal("12.5"), basis="statement of the bank")
    due = interest_of(DepositTerms(held=Decimal(900), interest=terms), None, "USD")
    assert due is not None
    assert (str(due.amount), due.working) == ("12.50", ("12.50 USD, as given.",))


def test_interest_needs_a_last_day_and_not_one_before_the_first() -> None:
    terms = InterestTerms(rate_percent=Decimal(1), since=date(2026, 5, 8), basis="the lease")
    deposit = DepositTerms(held=Decimal(900), interest=terms)
    with pytest.raises(CannotSettle, match="the last day is missing"):
        interest_of(deposit, None, "USD")
    with pytest.raises(CannotSettle, match="counts from 2026-05-08, which is after 2026-05-07"):
        interest_of(deposit, date(2026, 5, 7), "USD")
    assert interest_of(DepositTerms(held=Decimal(900)), None, "USD") is None
