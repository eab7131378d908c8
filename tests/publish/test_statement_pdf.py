"""The deposit statement as a PDF, read back with another library: people, screen readers, archives, machines."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from narrate2report.publish.report_pdf import Paper
from narrate2report.publish.statement_pdf import statement_pdf
from narrate2report.publish.statement_values import Reader
from narrate2report.records.findings import Findings
from narrate2report.records.plain import NOT_TEXT
from tests.publish.injected import SHA, STILL
from tests.publish.pdf import ReadBack
from tests.publish.test_report_pdf import INJECTED, still_on_disk
from tests.settle.hand_made import sample
from tests.settled import Settled, injected, settled

NOON = datetime(2026, 5, 20, 12, tzinfo=UTC)
JSON = b'{"schema": "narrate2report/settlement/1"}'


def content(made: Settled, reader: Reader = "resident", stills: Any = None, paper: Paper = "letter") -> bytes:
    return statement_pdf(made.told(reader), stills or {}, JSON, NOON, paper)


def pdf(made: Settled, reader: Reader = "resident", stills: Any = None, paper: Paper = "letter") -> ReadBack:
    return ReadBack(content(made, reader, stills, paper))


@pytest.fixture(scope="module")
def harmless(flat: Settled) -> Counter[str]:
    """The structure of a statement with the same plain word in every field."""
    return Counter(kind for kind, _ in pdf(injected(flat, "plain")[0], "office").structure())


def with_still(made: Settled) -> Settled:
    """Every entry of both walks with the same picture."""

    def seen(record: Findings) -> Findings:
        entries = tuple(one.model_copy(update={"stills": (STILL,)}) for one in record.entries)
        return record.model_copy(update={"entries": entries})

    return Settled(made.settlement, made.comparison, seen(made.before), seen(made.after))


def test_it_is_tagged_titled_archival_and_holds_its_fonts(flat: Settled, tmp_path: Path) -> None:
    read = pdf(with_still(flat), stills=still_on_disk(tmp_path))
    assert read.title == "Itemised deposit statement, unit 2B"
    assert read.root["/Lang"] == "en"
    assert read.root["/MarkInfo"]["/Marked"]
    assert read.root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert "<pdfuaid:part>1<" in read.metadata
    assert "<pdfaid:part>3<" in read.metadata
    assert read.fonts
    assert all(any(name.startswith("/FontFile") for name in font) for font in read.fonts)


def test_tables_have_heads_headings_are_in_order_and_pictures_are_told(flat: Settled, tmp_path: Path) -> None:
    structure = list(pdf(with_still(flat), stills=still_on_disk(tmp_path)).structure())
    counted = Counter(kind for kind, _ in structure)
    assert counted["/Table"] == counted["/THead"] == 5
    assert counted["/TH"] >= 3 + 4 + 4 + 4 + 4
    assert {"/H1", "/H2", "/H3"} <= counted.keys()
    assert "/H4" not in counted
    alts = [alt for kind, alt in structure if kind == "/Figure"]
    assert "Move-in, 6 March 2025. Picture from the recording at 1:16. Bedroom, blinds: broken ×4" in alts
    assert "Move-out, 7 May 2026. Picture from the recording at 1:16. Bedroom, blinds: broken ×4" in alts


def test_times_open_both_recordings(flat: Settled) -> None:
    assert {"in.mp4#t=75.30,78.30", "out.mp4#t=75.30,78.30"} <= set(pdf(flat).links)


def test_the_first_page_holds_balance_days_and_account(flat: Settled) -> None:
    first = pdf(flat).pages[0]
    for told in ("goes back to the resident", "6 June 2026", "17 days", "Ohio R.C. 5321.16", "Deposit held 1,500.00"):
        assert told in first
    assert f"To be returned to the resident {flat.told().total.amount}" in first


def test_the_settlement_itself_travels_inside(flat: Settled) -> None:
    read = pdf(flat)
    names = read.root["/Names"]["/EmbeddedFiles"]["/Names"]
    assert names[0] == "settlement.json"
    file = names[1].get_object()
    assert file["/AFRelationship"] == "/Source"
    assert file["/EF"]["/F"].get_object().get_data() == JSON


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_what_is_provisional_or_unsealed_says_so_on_every_page(tmp_path: Path, paper: Paper) -> None:
    pair = sample()
    pair.changes[6]["judgement"] = None
    read = pdf(settled(tmp_path, pair), paper=paper)
    assert len(read.pages) > 3
    for page in read.pages:
        assert page.count("PROVISIONAL – not to be sent as final · RECORD NOT SEALED") == 2


def test_a_statement_with_nothing_to_mark_is_not_marked(flat: Settled) -> None:
    made = ReadBack(statement_pdf(replace(flat.told(), marks="", alarms=()), {}, JSON, NOON))
    assert "NOT SEALED" not in made.pages[0]
    assert "Statement as of 20 May 2026" in made.pages[1]


def test_a_missing_still_is_said_in_its_place(flat: Settled) -> None:
    made = with_still(flat)
    made.missing = {SHA: "its file is missing"}
    read = pdf(made)
    assert "Picture not shown: its file is missing." in read.text
    assert "/Figure" not in {kind for kind, _ in read.structure()}


def test_the_office_reads_the_whole_reasoning(flat: Settled) -> None:
    office, resident = pdf(flat, "office").text, pdf(flat).text
    for told in ("From the comparison: made by hand", "What other sources say of the useful life"):
        assert told in office
        assert told not in resident


def test_a_long_table_goes_on_with_its_heads_on_the_next_page(flat: Settled) -> None:
    many = flat.settlement.not_charged * 12
    read = pdf(flat.with_fields(not_charged=many))
    assert sum("What became of it" in page and "Why no charge" in page for page in read.pages) >= 4


def test_without_any_charge_or_law_it_can_still_be_read(flat: Settled) -> None:
    nothing = flat.settlement.balance.model_copy(update={"amount": 0, "to": "nobody"})
    bare = flat.with_fields(charges=(), sums=(), interest=None, law=None, due=(), not_charged=(), without_baseline=())
    held = nothing.model_copy(update={"amount": bare.settlement.balance.held, "to": "resident"})
    text = pdf(bare.with_fields(balance=held)).text
    assert "Nothing is charged." in text
    assert "No jurisdiction of the table is named" in text
    assert "No day is counted" in text


@pytest.mark.parametrize("text", INJECTED)
def test_no_word_of_a_settlement_or_a_record_is_ever_markup(flat: Settled, harmless: Counter[str], text: str) -> None:
    made, fields = injected(flat, text)
    assert fields > 400
    read = pdf(made, "office")
    kinds = Counter(kind for kind, _ in read.structure())
    for kind in ("/H1", "/H2", "/H3", "/Table", "/TR", "/Figure", "/L"):
        assert kinds[kind] == harmless[kind], kind
    if text.isascii():
        assert "".join(read.text.split()).count("".join(text.split())) >= 60


@given(
    st.text(st.characters(exclude_categories=("Cs", "Cc")), min_size=1, max_size=60).filter(
        lambda text: not NOT_TEXT.search(text)
    )
)
@settings(max_examples=8, suppress_health_check=[HealthCheck.too_slow])
def test_any_text_can_be_set(flat: Settled, text: str) -> None:
    assert pdf(injected(flat, text)[0], "office").pages


def test_the_same_settlement_gives_the_same_bytes(flat: Settled) -> None:
    assert content(flat) == content(flat)
