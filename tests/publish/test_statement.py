"""What a deposit statement tells each reader: sums that add up, evidence of both walks, what is open, what to do."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from narrate2report.errors import BadInput
from narrate2report.publish.statement_account import account_of, check_account, total_of
from narrate2report.publish.statement_values import Line, Statement
from narrate2report.records.references import law_rows
from narrate2report.records.settlement import Alternative, DueDate, Settlement
from narrate2report.records.unit import DepositTerms
from narrate2report.settle.balance import balance_of
from tests.settle.hand_made import Pair, judged, sample
from tests.settled import Settled, settled


def charge(statement: Statement, part: str) -> int:
    return next(number for number, one in enumerate(statement.charges) if part in one.title)


def cents(line: Line) -> Decimal:
    return Decimal(line.amount.replace("− ", "-").replace(",", ""))


def test_the_printed_lines_add_up_to_the_printed_balance(flat: Settled) -> None:
    told = flat.told()
    assert len([line for line in told.account if line.number]) == len(told.charges)
    assert sum(map(cents, told.account)) == cents(told.total) > 0
    assert told.total_told == f"{told.total.amount} USD goes back to the resident."


@given(st.lists(st.decimals(0, 5000, places=2), min_size=7, max_size=7), st.decimals(0, 9000, places=2))
@settings(max_examples=60)
def test_whatever_is_charged_the_printed_lines_add_up(flat: Settled, amounts: list[Decimal], held: Decimal) -> None:
    settlement = recharged(flat.settlement, amounts, held)
    check_account(settlement)
    assert sum(map(cents, account_of(settlement))) == cents(total_of(settlement))


@given(st.integers(1, 10_000), st.booleans())
@settings(max_examples=30)
def test_a_balance_that_its_lines_do_not_come_to_is_refused(flat: Settled, off: int, up: bool) -> None:
    balance = flat.settlement.balance
    wrong = balance.amount + Decimal(off if up else -off) / 100
    altered = flat.with_fields(balance=balance.model_copy(update={"amount": wrong}))
    with pytest.raises(BadInput, match="does not add up"):
        altered.told()


def recharged(settlement: Settlement, amounts: list[Decimal], held: Decimal) -> Settlement:
    charges = tuple(
        one.model_copy(update={"amount": amount}) for one, amount in zip(settlement.charges, amounts, strict=False)
    )
    balance = balance_of(DepositTerms(held=held), settlement.interest, charges, settlement.sums, "USD")
    return settlement.model_copy(update={"charges": charges, "balance": balance})


def test_charges_above_the_deposit_are_said_and_not_taken(flat: Settled) -> None:
    told = Settled(
        recharged(flat.settlement, [Decimal(900)] * 7, Decimal(100)), flat.comparison, flat.before, flat.after
    ).told()
    assert told.total.told == "Above the deposit; not taken from it"
    assert cents(told.total) < 0
    assert "Nothing goes back to the resident" in told.total_told
    assert "is for local law" in told.total_told


def test_a_charge_shows_both_walks_with_their_words_and_a_link_into_each_recording(flat: Settled) -> None:
    told = flat.told()
    blinds = told.charges[charge(told, "blinds")]
    assert blinds.before.walk == "Move-in, 6 March 2025"
    assert blinds.after.walk == "Move-out, 7 May 2026"
    assert [one.quotes for one in blinds.before.shown] == [("said so",)]
    assert [one.link for one in blinds.before.shown[0].moments] == ["in.mp4#t=75.30,78.30"]
    assert [one.link for one in blinds.after.shown[0].moments] == ["out.mp4#t=75.30,78.30"]
    assert blinds.judged[0].verdict == "Judged beyond ordinary wear"
    assert blinds.judged[0].by == "by Ida Pell, 10 May 2026"
    assert blinds.working[-1].endswith(f"= {blinds.amount}.")


def test_what_move_in_says_of_a_part_that_had_no_such_flaw_stands_beside_the_new_one(tmp_path: Path) -> None:
    pair = Pair()
    pair.change("new", "kitchen", "oven", "grease", judged())
    pair.change("gone", "kitchen", "oven", "scratch")
    told = settled(tmp_path, pair).told().charges[0]
    assert told.before.shown == ()
    assert told.before.none == "The move-in record names no such flaw here."
    assert [one.says for one in told.before.also] == ["Kitchen, oven: scratch"]


def test_what_was_said_in_the_same_words_stands_once(tmp_path: Path) -> None:
    pair = Pair()
    pair.change("new", "kitchen", "oven", "grease", judged())
    for kind in ("scratch", "dent"):
        pair.change("gone", "kitchen", "oven", kind, assertion="present")
    also = settled(tmp_path, pair).told().charges[0].before.also
    assert [one.says for one in also] == ["Kitchen, oven: scratch; dent"]


def test_only_the_office_reads_why_changes_were_paired_and_what_other_sources_say(flat: Settled) -> None:
    office, resident = flat.told("office"), flat.told()
    carpet = charge(office, "carpet")
    assert office.charges[carpet].judged[0].because == ("made by hand",)
    assert resident.charges[carpet].judged[0].because == ()
    assert len(office.charges[carpet].sources) > 1
    assert resident.charges[carpet].sources == ()
    assert "14 changes, 0 of them not confirmed" in {fact.value for fact in office.method}
    assert office.charges[carpet].others == resident.charges[carpet].others != ()


def test_an_office_copy_without_its_comparison_says_so(flat: Settled) -> None:
    told = flat.told("office", compared=False)
    assert told.charges[0].judged[0].because == ()
    assert "It did not lie beside the settlement when this was made." in {fact.value for fact in told.method}


def test_a_life_without_a_source_is_marked_where_it_is_used(flat: Settled) -> None:
    charges = flat.settlement.charges
    carpet = next(one for one in charges if one.component == "carpet")
    assert carpet.proration.life is not None
    for mark, source in (("from memory, unverified", "an old list"), ("no source", None)):
        life = carpet.proration.life.model_copy(update={"mark": mark, "source": source})
        proration = carpet.proration.model_copy(update={"life": life})
        altered = tuple(one.model_copy(update={"proration": proration}) if one is carpet else one for one in charges)
        told = flat.with_fields(charges=altered).told()
        shown = told.charges[charge(told, "carpet")]
        assert [one.rpartition(": ")[2] for one in shown.marks] == [f"{mark.upper()}."]
        assert any((source or "NO SOURCE") in fact.source for fact in shown.facts if fact.name == "Useful life")


def test_another_way_whose_share_cannot_be_worked_out_says_so(flat: Settled) -> None:
    other = Alternative(work="clean", what="steam", cost=Decimal(20), would_be=None, why_not="its age is not known")
    first = flat.settlement.charges[0].model_copy(update={"alternatives": (other,)})
    told = flat.with_fields(charges=(first, *flat.settlement.charges[1:])).told()
    assert [one.would_be for one in told.charges[0].others] == ["not worked out"]


def test_a_dry_run_shows_what_is_open_and_is_marked(tmp_path: Path) -> None:
    pair = sample()
    pair.changes[6]["judgement"] = None
    told = settled(tmp_path, pair).told()
    assert told.marks == "PROVISIONAL – not to be sent as final · RECORD NOT SEALED"
    assert told.alarms[0].startswith("PROVISIONAL")
    assert "c7" in told.alarms[0]
    assert [one.says for one in told.open] == ["Kitchen, oven: grease"]
    assert told.open[0].judged.verdict == "OPEN: not judged yet"
    assert not any("oven" in one.title for one in told.charges)
    assert told.can_do[0].startswith("This statement is provisional")


def test_a_record_without_a_seal_is_said_loudly_and_one_by_one(flat: Settled) -> None:
    alarms = flat.told().alarms
    assert [one for one in alarms if one.startswith("RECORD NOT SEALED: the move-in")]
    assert [one for one in alarms if one.startswith("RECORD NOT SEALED: the move-out")]


def test_what_makes_no_charge_is_told_with_its_reason(flat: Settled) -> None:
    told = flat.told()
    assert [one.says for one in told.without_baseline] == ["Kitchen, hood filter: dirty"]
    assert "NOT CHARGEABLE ON THIS EVIDENCE ALONE" in told.without_baseline[0].why
    reasons = {one.judged.became: one.why for one in told.not_charged}
    assert reasons["There at move-in, unchanged"] == "It was there before: both records show it."
    assert "Judged the owner’s matter" in {one.judged.verdict for one in told.not_charged}


def test_the_days_are_told_with_the_statute_and_how_they_were_counted(flat: Settled) -> None:
    told = flat.told()
    assert [(one.keep, one.left, one.by_words) for one in told.due] == [
        ("5 June 2026", "16 days", "6 June 2026 (17 days)")
    ] * 2
    assert {one.source.partition(";")[0] for one in told.due} == {"Ohio R.C. 5321.16 (Ohio)"}
    assert [one.what for one in told.counted] == ["Return what is left of the deposit; Send the itemised statement"]


@pytest.mark.parametrize(
    ("left", "told"), [(0, "today"), (1, "1 day"), (-1, "passed 1 day ago"), (-12, "passed 12 days ago")]
)
def test_how_many_days_are_left(flat: Settled, left: int, told: str) -> None:
    due = tuple(one.model_copy(update={"plan_days_left": left, "days_left": left + 1}) for one in flat.settlement.due)
    shown = flat.with_fields(due=due).told()
    assert shown.due[0].left == told
    assert shown.due[0].late == (left < 0)
    assert any(alarm.startswith("THE DAY TO KEEP HAS PASSED") for alarm in shown.alarms) == (left == -1)
    assert any(alarm.startswith("THE LAST DAY HAS PASSED") for alarm in shown.alarms) == (left < -1)


def test_days_that_a_person_gave_are_never_given_for_a_statute(flat: Settled) -> None:
    given_days: tuple[DueDate, ...] = tuple(one.model_copy(update={"given": True}) for one in flat.settlement.due)
    for law in (flat.settlement.law, None):
        shown = flat.with_fields(due=given_days, law=law).told()
        assert {one.source for one in shown.due} == {"days given by a person, not by a statute of the table"}


def test_a_day_that_nothing_is_known_of_is_asked_for(flat: Settled) -> None:
    bare = {"day": None, "days_left": None, "plan_by": None, "plan_days_left": None, "asks": "Not known: vacated."}
    shown = flat.with_fields(due=(flat.settlement.due[0].model_copy(update=bare),)).told()
    assert [(one.keep, one.left, one.by_words, one.asks) for one in shown.due] == [
        ("not known", "–", "not known", "Not known: vacated.")
    ]


@pytest.mark.parametrize("code", sorted(law_rows()))
def test_every_row_of_the_table_of_law_is_told_in_full(flat: Settled, code: str) -> None:
    law = law_rows()[code]
    told = flat.with_fields(law=law).told()
    values = " ".join(fact.value for fact in told.law)
    for column in ("statute", "objection_note", "cost_evidence_requirement", "special_rules", "facts_as_of", "source"):
        assert getattr(law, column) in values
    assert told.law_doubt == law.doubtful_cells
    can_do = " ".join(told.can_do)
    assert (law.objection_note in can_do) if law.objection_note else ("names no time" in can_do or "days" in can_do)
    if law.cost_evidence_requirement not in ("", "no", "none"):
        assert law.cost_evidence_requirement in can_do
    assert "local tenant advice office" in can_do
    assert "not legal advice" in can_do


def test_without_a_jurisdiction_nothing_is_said_of_its_law(flat: Settled) -> None:
    told = flat.with_fields(law=None, due=()).told()
    assert told.law == ()
    assert told.due == ()
    assert any("names no time" in one for one in told.can_do)


def test_a_resident_without_a_forwarding_address_is_asked_to_give_one(flat: Settled) -> None:
    unit = flat.settlement.unit.model_copy(update={"forwarding_address": None, "residents": ()})
    told = flat.with_fields(unit=unit).told()
    assert any("forwarding address in writing" in one for one in told.can_do)
    assert [fact.value for fact in told.facts if fact.name in {"Resident", "Forwarding address"}] == ["not known"] * 2


@pytest.mark.parametrize("side", ["before", "after"])
def test_an_entry_that_its_record_does_not_hold_is_refused_in_one_line(flat: Settled, side: str) -> None:
    first = flat.settlement.charges[0].model_copy(update={side: ("e404",)})
    with pytest.raises(BadInput, match=r"holds no entry e404, .*; compare again"):
        flat.with_fields(charges=(first, *flat.settlement.charges[1:])).told()


def test_an_entry_that_was_dropped_since_is_no_evidence(flat: Settled) -> None:
    entries = tuple(one.model_copy(update={"state": "dropped"}) for one in flat.after.entries)
    after = flat.after.model_copy(update={"entries": entries})
    with pytest.raises(BadInput, match="holds no entry"):
        Settled(flat.settlement, flat.comparison, flat.before, after).told()


def test_a_charge_with_fewer_judgements_than_changes_is_refused(flat: Settled) -> None:
    first = flat.settlement.charges[0].model_copy(update={"judgements": ()})
    with pytest.raises(BadInput, match="one outcome and one judgement for each change"):
        flat.with_fields(charges=(first, *flat.settlement.charges[1:])).told()
