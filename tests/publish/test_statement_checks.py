"""Whatever settling works out passes the checks of a statement, and a cent more in any one place does not."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from narrate2report.errors import BadInput
from narrate2report.publish.statement_checks import check_settlement
from narrate2report.records.references import life_groups, life_rows, repaint_steps
from narrate2report.records.settlement import Charge, Settlement
from narrate2report.records.unit import DepositTerms, Remedy, Thing
from narrate2report.settle.balance import balance_of
from narrate2report.settle.pricing import Terms, price
from narrate2report.settle.useful_life import Lives
from tests.settle.test_sums import CENTS, WORKS
from tests.settled import Settled

LIVES = Lives((), life_rows(), life_groups())


def recharged(settlement: Settlement, charge: Charge) -> Settlement:
    charges = (charge, *settlement.charges[1:])
    balance = balance_of(DepositTerms(held=Decimal(1500)), settlement.interest, charges, settlement.sums, "USD")
    return settlement.model_copy(update={"charges": charges, "balance": balance})


@given(
    work=WORKS,
    amount=CENTS,
    labour=st.none() | st.tuples(st.decimals("0.01", "100", places=2), CENTS),
    age=st.decimals("0", "60", places=1),
    life=st.decimals("0.5", "60", places=1),
    share_by=st.sampled_from(["age", "stay"]),
    portion=st.none() | st.decimals("0.01", "100", places=2),
    off=st.integers(1, 10_000),
)
@settings(max_examples=80)
def test_any_price_passes_and_no_other_amount_does(
    flat: Settled,
    work: str,
    amount: Decimal,
    labour: tuple[Decimal, Decimal] | None,
    age: Decimal,
    life: Decimal,
    share_by: str,
    portion: Decimal | None,
    off: int,
) -> None:
    told = {"work": work, "what": "put it right", "amount": amount, "basis": "invoice"}
    told |= {"hours": labour[0], "rate": labour[1]} if labour else {}
    told |= {"portion_percent": portion, "portion_why": "part of it was there"} if portion is not None else {}
    remedy = Remedy.model_validate(told)
    thing = {"room": "kitchen", "component": "wall", "age_years": age, "useful_life_years": life, "share_by": share_by}
    terms = Terms("USD", date(2025, 1, 1), date(2026, 1, 1), LIVES, repaint_steps())
    priced = price(Thing.model_validate(thing), remedy, terms)
    made = {"cost": priced.cost, "proration": priced.proration, "amount": priced.amount, "working": priced.working}
    made |= {"portion_percent": remedy.portion_percent, "portion_why": remedy.portion_why}
    charge = flat.settlement.charges[0].model_copy(update=made)
    check_settlement(recharged(flat.settlement, charge))
    dearer = charge.model_copy(update={"amount": charge.amount + Decimal(off) / 100})
    with pytest.raises(BadInput, match="does not give its amount"):
        check_settlement(recharged(flat.settlement, dearer))
