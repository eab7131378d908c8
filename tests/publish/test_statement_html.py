"""The deposit statement as a web page: one file, no script, and no word that becomes markup."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from narrate2report.publish.statement_html import statement_html
from narrate2report.publish.statement_values import Reader
from narrate2report.records.plain import NOT_TEXT
from tests.publish.test_report_html import Parsed
from tests.publish.test_report_pdf import INJECTED, still_on_disk
from tests.publish.test_statement_pdf import with_still
from tests.settled import Settled, injected


def page(made: Settled, reader: Reader = "resident", stills: Any = None) -> Parsed:
    return Parsed(statement_html(made.told(reader), stills or {}))


@pytest.fixture(scope="module")
def harmless(flat: Settled) -> Parsed:
    """The page with the same plain word in every field."""
    return page(injected(flat, "plain")[0], "office")


def test_it_holds_everything_itself_and_runs_nothing(flat: Settled, tmp_path: Path) -> None:
    made = page(with_still(flat), stills=still_on_disk(tmp_path))
    assert {"script", "link", "iframe", "form"} & set(made.tags) == set()
    sources = {str(value).partition(",")[0] for name, value in made.attributes if name == "src"}
    assert sources == {"data:image/png;base64"}
    assert ("lang", "en") in made.attributes
    assert {("href", "in.mp4#t=75.30,78.30"), ("href", "out.mp4#t=75.30,78.30")} <= set(made.attributes)


def test_it_tells_what_the_paper_tells(flat: Settled) -> None:
    told, text = flat.told("office"), page(flat, "office").text
    for expected in (told.total_told, told.total.amount, *told.can_do, *told.cautions, *told.alarms):
        assert expected in text
    for charge in told.charges:
        for line in (*charge.working, *charge.cautions, *charge.sources, charge.says, charge.amount):
            assert line in text
    for kept in (*told.without_baseline, *told.not_charged):
        assert kept.says in text
        assert kept.why in text


def test_a_number_in_the_account_leads_to_its_charge(flat: Settled) -> None:
    made = page(flat)
    leads = {str(value)[1:] for name, value in made.attributes if name == "href" and str(value).startswith("#")}
    assert leads == {str(value) for name, value in made.attributes if name == "id"}
    assert len(leads) == len(flat.settlement.charges)


@pytest.mark.parametrize("text", INJECTED)
def test_no_word_of_a_settlement_or_a_record_is_ever_markup(flat: Settled, harmless: Parsed, text: str) -> None:
    made = page(injected(flat, text)[0], "office")
    assert made.tags == harmless.tags
    assert [name for name, _ in made.attributes] == [name for name, _ in harmless.attributes]
    assert made.text.count(text) >= 60


# An x before it: a text that is a number would also fill the sums, and make another settlement.
@given(st.text(st.characters(codec="utf-8")).filter(lambda text: not NOT_TEXT.search(text)).map("x{}".format))
@settings(max_examples=20, suppress_health_check=[HealthCheck.too_slow])
def test_any_text_stays_text(flat: Settled, harmless: Parsed, text: str) -> None:
    assert set(page(injected(flat, text)[0], "office").tags) <= set(harmless.tags)
