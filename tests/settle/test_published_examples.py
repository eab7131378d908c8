"""Worked examples that others have published, to the cent. Each names its source; the figures are also read back from
the table that travels with the program, so that table and test cannot drift apart."""

from __future__ import annotations

import csv
from datetime import date
from decimal import Decimal
from fractions import Fraction

import pytest

from narrate2report.records.money import rounded
from narrate2report.records.references import life_groups, life_rows, repaint_steps
from narrate2report.records.unit import DepositTerms, InterestTerms, Remedy, Thing, Unit
from narrate2report.settle.charges import charges_of
from narrate2report.settle.flaws import flaws_of
from narrate2report.settle.interest import interest_of
from narrate2report.settle.pricing import Priced, Terms, price
from narrate2report.settle.shares import straight_line
from narrate2report.settle.useful_life import Lives
from narrate2report.shipped import shipped
from tests.settle.hand_made import Pair, judged

with (shipped("references") / "useful-life.csv").open(encoding="utf-8", newline="") as _file:
    ROWS = list(csv.DictReader(_file))


def row(**wanted: str) -> dict[str, str]:
    (found,) = [one for one in ROWS if all(one[name] == value for name, value in wanted.items())]
    return found


def terms(currency: str = "USD", since: date = date(2020, 1, 1), until: date = date(2026, 5, 7)) -> Terms:
    return Terms(currency, since, until, Lives((), life_rows(), life_groups()), repaint_steps())


def replaced(cost: str, life: str, age: str, currency: str = "USD") -> Decimal:
    remedy = Remedy(work="replace", what="new carpet", amount=Decimal(cost), basis="invoice")
    thing = Thing(
        room="bedroom",
        component="carpet",
        age_years=Decimal(age),
        useful_life_years=Decimal(life),
        life_source="the example",
        remedies=(remedy,),
    )
    return price(thing, remedy, terms(currency)).amount


def test_the_carpet_of_the_california_tenants_guide() -> None:
    """Source: California Department of Consumer Affairs, tenants' guide, chapter on security deposits: a carpet for
    1,000, life 10 years, 8 years old: the tenant owes 200."""
    published = row(row_type="worked_example", item="carpet beyond repair")
    assert published["source"].startswith("California Department of Consumer Affairs")
    paid = replaced(published["replacement_cost"], published["useful_life_years"], published["age_years"])
    assert paid == Decimal("200.00") == Decimal(published["expected_tenant_share"])


def test_the_carpet_of_the_letting_agents_guidance() -> None:
    """Source: UK letting-agents' body guidance on apportionment (fair wear and tear): a carpet for 500, life 10
    years, 2 years old: the tenant owes 400."""
    published = row(row_type="worked_example", item="carpet, severe damage")
    assert "letting-agents' body guidance on apportionment" in published["source"]
    cost, life, age = (published[name] for name in ("replacement_cost", "useful_life_years", "age_years"))
    assert replaced(cost, life, age, "GBP") == Decimal("400.00") == Decimal(published["expected_tenant_share"])


def test_where_cleaning_would_do_the_cleaning_is_due_and_no_share_of_a_carpet() -> None:
    """Source: the same UK guidance, against betterment: a stain in a carpet of 500 that cleaning for 50 takes out:
    50 is due. The example tells neither age nor life of the carpet."""
    published = row(row_type="worked_example", item="carpet stain where cleaning would do")
    assert "letting-agents' body guidance on apportionment" in published["source"]
    new = Remedy(work="replace", what="new carpet", amount=Decimal(published["replacement_cost"]), basis="invoice")
    cleaned = Remedy(work="clean", what="cleaning", amount=Decimal("50"), basis="invoice")
    pair = Pair()
    pair.change("new", "bedroom", "carpet", "stain", judged())
    unit = Unit.model_validate(
        {
            "unit": "2B",
            "currency": "GBP",
            "people": {},
            "dates": {"lease_start": "2024-01-01"},
            "deposit": {"held": "1000"},
            "components": [Thing(room="bedroom", component="carpet", remedies=(new, cleaned))],
        }
    )
    comparison = pair.comparison()
    (charge,) = charges_of(flaws_of(comparison, *pair.records()), unit, comparison, terms("GBP"))
    assert charge.amount == Decimal("50.00") == Decimal(published["expected_tenant_share"])
    assert (charge.work, charge.proration.share) == ("clean", "1")
    assert charge.alternatives[0].what == "new carpet"


@pytest.mark.parametrize(
    ("until", "share"),
    [
        (date(2024, 2, 1), "1"),
        (date(2024, 7, 14), "1"),
        (date(2024, 7, 16), "2/3"),
        (date(2025, 1, 14), "2/3"),
        (date(2025, 1, 16), "1/3"),
        (date(2026, 1, 14), "1/3"),
        (date(2026, 1, 16), "0"),
        (date(2030, 1, 1), "0"),
    ],
)
def test_the_repaint_schedule_of_the_california_tenants_guide(until: date, share: str) -> None:
    """Source: California Department of Consumer Affairs, tenants' guide: paint that lasts two years, by length of
    stay: under 6 months all, 6 to 12 two thirds, 12 to 24 one third, over 24 nothing. Steps, not a straight line."""
    assert all(step.source.startswith("California Department of Consumer Affairs") for step in repaint_steps())
    priced = repainted(until)
    assert priced.proration.method == "step_schedule"
    assert priced.proration.share == share
    assert priced.amount == rounded(Fraction(600) * Fraction(share), "USD")


@pytest.mark.parametrize(
    ("until", "share"), [(date(2024, 7, 15), "2/3"), (date(2025, 1, 15), "1/3"), (date(2026, 1, 15), "0")]
)
def test_on_the_border_of_two_steps_the_lower_share_is_taken_and_that_is_said(until: date, share: str) -> None:
    """The guide is silent on exactly 6, 12 and 24 months; the table notes that the lower bound is taken in."""
    priced = repainted(until)
    assert priced.proration.share == share
    assert any("months open; the step with the lower share is taken" in line for line in priced.working)


def repainted(until: date) -> Priced:
    remedy = Remedy(work="repaint", what="repaint the walls", amount=Decimal("600"), basis="invoice")
    thing = Thing(room="bedroom", component="wall", share_by="stay", remedies=(remedy,))
    return price(thing, remedy, terms(since=date(2024, 1, 15), until=until))


def test_the_interest_on_the_excess_of_the_ohio_code() -> None:
    """Source: Ohio R.C. 5321.16; the figures on a secondary page: rent 600, deposit 700, so 5 % simple on the excess
    of 100 is 5 a year."""
    published = row(row_type="worked_example", item="deposit interest on excess (Ohio R.C. 5321.16)")
    interest = InterestTerms(
        rate_percent=Decimal(5), principal=Decimal(100), since=date(2025, 3, 1), basis="Ohio R.C. 5321.16"
    )
    deposit = DepositTerms(held=Decimal(700), interest=interest)
    due = interest_of(deposit, date(2026, 3, 1), "USD")
    assert due is not None
    assert due.amount == Decimal("5.00") == Decimal(published["expected_tenant_share"])


@pytest.mark.parametrize(
    "derived", [one for one in ROWS if one["row_type"] == "derived_check"], ids=lambda one: one["age_years"]
)
def test_what_follows_from_the_published_rule_at_its_ends(derived: dict[str, str]) -> None:
    """Source: arithmetic from cost x max(0, 1 - age / life), computed for the table, not published."""
    age, life = Fraction(derived["age_years"]), Decimal(derived["useful_life_years"])
    share = straight_line(age * 12, life)
    assert rounded(Fraction(derived["replacement_cost"]) * share, "USD") == Decimal(derived["expected_tenant_share"])


def test_every_worked_example_of_the_table_is_reproduced_here() -> None:
    assert {one["item"] for one in ROWS if one["row_type"] == "worked_example"} == {
        "carpet beyond repair",
        "carpet, severe damage",
        "carpet stain where cleaning would do",
        "deposit interest on excess (Ohio R.C. 5321.16)",
    }
    assert sum(one["row_type"] == "schedule" for one in ROWS) == len(repaint_steps()) == 4
