"""What is charged and what never is: by outcome, by judgement, by what the unit file says of things and remedies."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate2report.errors import CannotSettle
from narrate2report.records.comparison import SameRoom
from narrate2report.records.life import LifeRow
from narrate2report.records.references import clocks, law_rows, life_groups, life_rows, repaint_steps
from narrate2report.records.settlement import Settlement
from narrate2report.records.unit import Unit
from narrate2report.settle.charges import check_flaw_names
from narrate2report.settle.settling import Grounds, Tables, settle
from narrate2report.settle.useful_life import Lives
from tests.settle.hand_made import Pair, judged

TODAY = date(2026, 5, 12)


def repair(amount: str = "50.00", **fields: Any) -> dict[str, Any]:
    return {"work": "repair", "what": "mend it", "basis": "invoice", "amount": amount, "receipt": "7713", **fields}


def replace(amount: str = "500.00", **fields: Any) -> dict[str, Any]:
    return repair(amount, **{"work": "replace", "what": "a new one", **fields})


def thing(*remedies: dict[str, Any], **fields: Any) -> dict[str, Any]:
    return {"room": "kitchen", "component": "countertop", "remedies": remedies, **fields}


def settled(pair: Pair, *things: dict[str, Any], lives: tuple[LifeRow, ...] = (), **parts: Any) -> Settlement:
    facts: dict[str, Any] = {
        "unit": "2B",
        "currency": "USD",
        "people": {"residents": ["Lena Marbeck"]},
        "dates": {"lease_start": "2025-03-06", "lease_end": "2026-04-30", "possession_returned": "2026-05-07"},
        "deposit": {"held": "1500.00"},
        "components": things,
    }
    comparison = pair.comparison()
    before, after = pair.records()
    grounds = Grounds(comparison, "changes.json", before, after, Unit.model_validate(facts | parts))
    tables = Tables(Lives(lives, life_rows(), life_groups()), repaint_steps(), law_rows()["US-OH"], clocks(), None)
    return settle(grounds, tables, TODAY)


def flawed(*changes: tuple[str, ...], confirmed: bool = True) -> Pair:
    """Changes of outcome, room, component and condition, all judged beyond ordinary wear."""
    pair = Pair()
    for change in changes or (("new",),):
        told: dict[str, Any] = dict(zip(("outcome", "room", "component", "condition"), change, strict=False))
        pair.change(**told, judgement=judged(), confirmed=confirmed)
    return pair


@pytest.mark.parametrize("outcome", ["unchanged", "better", "gone", "not_mentioned"])
@pytest.mark.parametrize("verdict", ["beyond_ordinary_wear", "ordinary_wear", "open", None])
def test_what_was_there_before_is_never_charged_whatever_was_judged(outcome: str, verdict: str | None) -> None:
    pair = Pair()
    pair.change(outcome, judgement=judged(verdict) if verdict else None)
    made = settled(pair, thing(repair()))
    assert [*made.charges, *made.open, *made.without_baseline] == []
    assert made.not_charged[0].why.startswith("It was there before")
    assert (made.balance.to, made.balance.amount) == ("resident", Decimal("1500.00"))
    assert not made.provisional


@pytest.mark.parametrize("outcome", ["new", "worse", "no_baseline"])
@pytest.mark.parametrize("verdict", ["ordinary_wear", "owners_matter"])
def test_wear_and_the_owners_matters_are_the_owners_cost(outcome: str, verdict: str) -> None:
    pair = Pair()
    pair.change(outcome, judgement=judged(verdict))
    made = settled(pair, thing(repair()))
    assert made.charges == ()
    assert made.not_charged[0].why.startswith("Judged")


@pytest.mark.parametrize("verdict", ["beyond_ordinary_wear", "open", None])
def test_a_flaw_without_a_baseline_is_not_charged_and_that_is_said_loudly(verdict: str | None) -> None:
    pair = Pair()
    pair.change("no_baseline", judgement=judged(verdict) if verdict else None)
    made = settled(pair, thing(repair()))
    assert made.charges == ()
    assert made.without_baseline[0].why.startswith("NOT CHARGEABLE ON THIS EVIDENCE ALONE")
    assert any("NOT CHARGED" in caution and "c1" in caution for caution in made.cautions)


@pytest.mark.parametrize("verdict", ["open", None])
def test_what_nobody_has_judged_is_shown_as_open_and_makes_the_settlement_provisional(verdict: str | None) -> None:
    pair = Pair()
    pair.change("new", judgement=judged(verdict) if verdict else None)
    made = settled(pair, thing(repair()))
    assert made.charges == ()
    assert [one.change for one in made.open] == ["c1"]
    assert made.provisional
    assert "not judged yet: c1" in made.provisional_because[0]


def test_a_room_that_may_be_another_makes_the_settlement_provisional() -> None:
    pair = flawed()
    pair.parts["unclear_rooms"] = [{"after": "bedroom.back", "candidates": ("bedroom.1", "bedroom.2")}]
    made = settled(pair, thing(repair()))
    assert made.provisional
    assert "bedroom.back" in made.provisional_because[0]


def test_a_pairing_that_nobody_has_confirmed_is_charged_provisionally() -> None:
    made = settled(flawed(confirmed=False), thing(repair()))
    assert made.provisional
    assert any("No person has confirmed" in caution for caution in made.charges[0].cautions)


def test_repairs_are_charged_in_full_and_new_things_by_what_was_left_of_the_old() -> None:
    made = settled(flawed(), thing(replace(), installed="2016-05-08", useful_life_years="20", life_source="maker"))
    (charge,) = made.charges
    assert charge.amount == Decimal("250.00")
    assert charge.proration.share == "1/2"
    assert charge.working[-1] == "500.00 USD × 1/2 = 250.00 USD."
    assert settled(flawed(), thing(repair())).charges[0].amount == Decimal("50.00")


def test_a_thing_at_the_end_of_its_life_costs_nothing_and_the_line_is_still_there() -> None:
    made = settled(flawed(), thing(replace(), age_years="20", useful_life_years="15", life_source="maker"))
    assert made.charges[0].amount == Decimal("0.00")
    assert any("is over" in line for line in made.charges[0].working)


def test_what_does_not_wear_is_charged_in_full_with_the_reason_in_the_line() -> None:
    made = settled(flawed(), thing(replace(prorate=False, why="stone does not wear")))
    assert made.charges[0].amount == Decimal("500.00")
    assert "Not prorated, since stone does not wear." in made.charges[0].working


def test_of_several_remedies_that_suffice_the_smallest_charge_is_taken_and_the_others_are_told() -> None:
    old = {"age_years": "14", "useful_life_years": "15", "life_source": "maker"}
    made = settled(flawed(), thing(repair("90.00"), replace(), **old))
    assert (made.charges[0].work, made.charges[0].amount) == ("replace", Decimal("33.33"))
    assert [(one.what, one.would_be) for one in made.charges[0].alternatives] == [("mend it", Decimal("90.00"))]


def test_a_remedy_that_did_not_suffice_is_not_charged_and_its_reason_is_told() -> None:
    cleaned = repair("9.00", work="clean", suffices=False, why="the burn is still there")
    made = settled(flawed(), thing(cleaned, repair("50.00")))
    assert made.charges[0].amount == Decimal("50.00")
    assert "the burn is still there" in made.charges[0].alternatives[0].why_not


def test_two_flaws_that_one_remedy_puts_right_are_charged_once() -> None:
    made = settled(flawed(("new",), ("new", "kitchen", "countertop", "chip")), thing(repair()))
    (charge,) = made.charges
    assert (charge.changes, charge.after) == (("c1", "c2"), ("a1", "a2"))
    assert made.balance.charges == Decimal("50.00")


def test_flaws_that_need_different_work_are_charged_each() -> None:
    pair = flawed(("new",), ("new", "kitchen", "countertop", "chip"))
    made = settled(pair, thing(repair("50.00", flaws=["burn"]), repair("20.00", flaws=["c2"])))
    assert [charge.amount for charge in made.charges] == [Decimal("50.00"), Decimal("20.00")]


def test_a_remedy_that_would_be_charged_twice_is_refused() -> None:
    pair = flawed(("new",), ("new", "kitchen", "countertop", "chip"))
    with pytest.raises(CannotSettle, match=r"would be charged for c1 and again for c2"):
        settled(pair, thing(repair(flaws=["burn", "chip"]), repair(flaws=["burn"])))


def test_a_failed_check_is_named_not_working() -> None:
    pair = Pair()
    pair.change("new", "kitchen", "oven", "", judged(), kind="check", fields={"outcome": "fails", "condition": None})
    made = settled(pair, thing(repair(flaws=["not_working"]), component="oven"))
    assert made.charges[0].says == "Kitchen, oven: does not work"


def test_only_the_part_that_came_later_is_charged_where_a_person_says_so() -> None:
    made = settled(flawed(("worse",)), thing(repair("80.00", portion_percent="25", portion_why="one of four is new")))
    assert made.charges[0].amount == Decimal("20.00")
    assert "Of this, 25 % is the resident's, since one of four is new." in made.charges[0].working
    alone = settled(flawed(("worse",)), thing(repair("80.00")))
    assert any("there at move-in" in caution for caution in alone.charges[0].cautions)


def test_a_block_for_the_whole_unit_stands_for_every_room_without_its_own() -> None:
    pair = flawed(("new", "bedroom", "carpet", "stain"), ("new", "hallway", "carpet", "stain"))
    everywhere = thing(repair("10.00"), room="whole_unit", component="carpet")
    own = thing(repair("30.00"), room="hallway", component="carpet")
    assert [charge.amount for charge in settled(pair, everywhere, own).charges] == [Decimal("10.00"), Decimal("30.00")]


def test_a_block_for_the_whole_unit_is_charged_once_for_each_room() -> None:
    pair = flawed(
        ("new", "bedroom", "carpet", "stain"),
        ("new", "hallway", "carpet", "stain"),
        ("new", "bedroom", "carpet", "burn"),
    )
    made = settled(pair, thing(repair("10.00"), room="whole_unit", component="carpet"))
    assert [(charge.room, charge.changes, charge.amount) for charge in made.charges] == [
        ("bedroom", ("c1", "c3"), Decimal("10.00")),
        ("hallway", ("c2",), Decimal("10.00")),
    ]


def test_only_what_is_missing_is_supplied_in_full() -> None:
    supply = repair("500.00", work="supply", what="a new fob")
    fob = {"room": "exterior", "component": "fob"}
    missing = flawed(("new", "exterior", "fob", "missing"))
    assert settled(missing, thing(supply, **fob)).charges[0].amount == Decimal("500.00")
    both = flawed(("new", "exterior", "fob", "missing"), ("new", "exterior", "fob", "broken"))
    for pair, name in ((flawed(("new", "exterior", "fob", "broken")), "c1"), (both, "c2")):
        with pytest.raises(CannotSettle) as refused:
            settled(pair, thing(supply, **fob))
        assert f"only for what is missing, and change {name} says: Exterior, fob: broken" in str(refused.value)
        assert "use work replace" in str(refused.value)


@pytest.mark.parametrize(("age", "months"), [("2.37", 29), ("2", 24), ("0.01", 1), ("0", 0), ("2.5", 30)])
def test_an_age_in_years_is_whole_months_begun_ones_in_full(age: str, months: int) -> None:
    made = settled(flawed(), thing(replace("600.00"), age_years=age, useful_life_years="5", life_source="maker"))
    charge = made.charges[0]
    assert charge.proration.age_months == months
    assert charge.amount == Decimal(600) * (60 - months) / 60
    told = " ".join(charge.working)
    assert ("a month that has begun counts in full" in told) == (age in {"2.37", "0.01"})


def test_a_room_that_the_other_record_calls_otherwise_is_found_by_either_name() -> None:
    pair = flawed(("new", "bedroom.back", "carpet", "stain"))
    # Why they are the same, which a comparison may say too, is nothing to a settlement.
    pair.parts["rooms"] = [SameRoom.model_construct(before="bedroom.2", after="bedroom.back")]
    made = settled(pair, thing(repair(), room="bedroom.2", component="carpet"))
    assert made.charges[0].room == "bedroom.back"


def test_missing_costs_are_asked_for_by_name_all_at_once() -> None:
    pair = flawed(("new",), ("new", "bedroom", "carpet", "stain"))
    with pytest.raises(CannotSettle) as refused:
        settled(pair, thing())
    assert "Kitchen countertop (change c1); Bedroom carpet (change c2)" in str(refused.value)


@pytest.mark.parametrize(
    ("facts", "told"),
    [
        ({"component": "carpet"}, "its age is not known; write installed or age_years"),
        (
            {"component": "countertop", "age_years": "3"},
            "write life_as: countertop_laminate or countertop_cultured_marble",
        ),
        (
            {"component": "mirror", "age_years": "3"},
            "no useful life is known; write useful_life_years with life_source",
        ),
        (
            {"component": "carpet", "age_years": "3", "life_as": "carpt"},
            "life_as carpt is in no table of useful lives; use carpet",
        ),
    ],
)
def test_what_a_share_needs_is_asked_for_by_name(facts: dict[str, Any], told: str) -> None:
    with pytest.raises(CannotSettle) as refused:
        settled(flawed(("new", "kitchen", facts["component"])), thing(replace(), **facts))
    assert told in str(refused.value)


def test_ones_own_table_lies_over_the_built_in_one_and_the_unit_file_over_both() -> None:
    pair = flawed(("new", "kitchen", "carpet", "stain"))
    carpet = {"component": "carpet", "age_years": "4"}
    own = (LifeRow(name="carpet", group="carpet", years=Decimal(16), source="our records"),)
    built_in = settled(pair, thing(replace(), **carpet)).charges[0].proration.life
    assert built_in is not None
    assert (built_in.years, built_in.whose, built_in.mark) == (Decimal(8), "built_in_table", None)
    assert any("IRS" in other and "NOT a landlord-tenant rule" in other for other in built_in.others)
    assert settled(pair, thing(replace(), **carpet), lives=own).charges[0].amount == Decimal("375.00")
    last = settled(pair, thing(replace(), **carpet, useful_life_years="5"), lives=own)
    assert last.charges[0].amount == Decimal("100.00")


def test_a_life_without_a_source_or_from_memory_is_marked_in_its_line() -> None:
    pair = flawed(("new", "kitchen", "blinds", "broken"))
    remembered = settled(pair, thing(replace(), component="blinds", age_years="1")).charges[0]
    assert remembered.proration.life is not None
    assert remembered.proration.life.mark == "from memory, unverified"
    assert any("FROM MEMORY, UNVERIFIED" in line for line in remembered.working)
    bare = settled(pair, thing(replace(), component="blinds", age_years="1", useful_life_years="3"))
    assert any("NO SOURCE WAS GIVEN" in line for line in bare.charges[0].working)
    assert any("marked: no source" in caution for caution in bare.cautions)


def test_no_life_of_a_tax_table_or_an_age_limit_is_ever_prorated_with() -> None:
    shown = {row.source for row in life_rows() if row.use == "shown_only"}
    assert {source.partition(",")[0] for source in shown if source} >= {"IRS Publication 527"}
    assert all("IRS" not in (row.source or "") for row in life_rows() if row.use == "share")


def test_a_charge_above_the_deposit_is_said_and_not_taken() -> None:
    made = settled(flawed(), thing(repair("1600.00")))
    assert (made.balance.to, made.balance.above_deposit) == ("owner", Decimal("100.00"))
    assert any("EXCEED WHAT IS HELD BY 100.00 USD" in caution for caution in made.cautions)


@pytest.mark.parametrize(
    ("parts", "told"),
    [
        ({"before": {"file": "in", "unit": "2D"}}, "the comparison is of another unit: 2B (the unit file), 2D (in)"),
        ({"before": {"file": "in", "date": "2026-06-01"}}, "stands the wrong way round"),
        (
            {"before": {"file": "in"}, "after": {"file": "out", "date": "2024-05-07"}},
            "the move-out record is of 2024-05-07, before the lease",
        ),
    ],
)
def test_a_comparison_that_does_not_belong_to_the_unit_is_refused(parts: dict[str, Any], told: str) -> None:
    pair = flawed()
    pair.parts |= parts
    with pytest.raises(CannotSettle) as refused:
        settled(pair, thing(repair()))
    assert told in str(refused.value)


def test_unit_names_that_mean_the_same_belong_together() -> None:
    pair = flawed()
    pair.parts["after"] = {"file": "out", "unit": "unit two b"}
    assert settled(pair, thing(repair())).charges


def test_a_flaw_that_is_no_condition_and_no_change_is_refused() -> None:
    pair = flawed()
    unit = {"unit": "2B", "currency": "USD", "people": {}, "dates": {"lease_start": "2025-03-06"}}
    whole = Unit.model_validate(unit | {"deposit": {"held": "1"}, "components": [thing(repair(flaws=["brun"]))]})
    with pytest.raises(CannotSettle, match="flaw brun is no condition"):
        check_flaw_names(whole, pair.comparison(), {"burn"})


COMPONENTS = ("countertop", "sink", "oven", "carpet", "blinds")


@given(
    st.lists(
        st.tuples(
            st.sampled_from(COMPONENTS),
            st.integers(0, 300_000),
            st.decimals("0", "30", places=1),
            st.sampled_from(["replace", "repair", "clean"]),
        ),
        min_size=1,
        max_size=5,
        unique_by=lambda one: one[0],
    ),
    st.integers(0, 500_000),
)
def test_the_lines_add_up_to_the_total_to_the_cent(drawn: list[tuple[str, int, Decimal, str]], held: int) -> None:
    pair, things = Pair(), []
    for component, cents, age, work in drawn:
        pair.change("new", "kitchen", component, "broken", judged())
        price = str(Decimal(cents).scaleb(-2))
        facts = {"age_years": str(age), "useful_life_years": "7", "life_source": "our records", "component": component}
        things.append(thing(repair(price, work=work), **facts))
    made = settled(pair, *things, deposit={"held": str(Decimal(held).scaleb(-2))})
    total = sum(charge.amount for charge in made.charges)
    assert len(made.charges) == len(drawn)
    assert made.balance.charges == total
    left = made.balance.held - total
    assert made.balance.amount == abs(left)
    assert all(amount == round(amount, 2) for amount in (total, left))


@pytest.mark.parametrize("side", ["before", "after"])
def test_a_record_with_undecided_entries_makes_it_provisional_and_says_how_many_of_which(side: str) -> None:
    undecided = {"state": "proposed", "decided": None}
    pair = flawed(("worse",))
    pair.change("unchanged", "kitchen", "sink", "scratch")
    assert not settled(pair, thing(repair())).provisional
    entries = getattr(pair, side)
    entries[1] = entries[1].model_copy(update=undecided)
    name, file = ("move-in", "in") if side == "before" else ("move-out", "out")
    (reason,) = settled(pair, thing(repair())).provisional_because
    assert reason.startswith(f"1 entry of the {name} record ({file}.findings.json) no person has decided about: ")
    entries[0] = entries[0].model_copy(update=undecided)
    (reason,) = settled(pair, thing(repair())).provisional_because
    assert reason.startswith("2 entries of the")
    assert "1 of them behind a charge" in reason
