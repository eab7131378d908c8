"""What was added to a sealed record is read with it, from comparison to statement; what is broken is refused."""

from __future__ import annotations

import json
import shutil
from dataclasses import dataclass
from pathlib import Path

import pytest

from narrate2report.cli import main
from narrate2report.records.compared import read_comparison
from narrate2report.records.comparison import Comparison
from narrate2report.records.files import read_record, write_record
from narrate2report.records.findings import Findings
from narrate2report.records.settlement import Settlement
from narrate2report.review.desk import Desk
from narrate2report.review.judging_desk import JudgingDesk
from narrate2report.review.judging_requests import Judge
from narrate2report.review.judging_view import whole_view
from narrate2report.review.requests import Add, Facts, Withdraw
from tests.journeys.test_seal import DECLARED
from tests.journeys.test_settle import BARE_UNIT, sealed_walk
from tests.publish.pdf import ReadBack

MOVE_IN = "[0:01] In the kitchen.\n[0:03] The countertop has a burn.\n[0:06] The sink looks good.\n"
MOVE_OUT = "[0:01] In the kitchen.\n[0:03] The countertop has a burn.\n[0:06] The sink has a chip.\n"


@dataclass(frozen=True)
class Tenancy:
    """Two sealed walks in one folder, and what the commands say of them."""

    folder: Path
    capsys: pytest.CaptureFixture[str]

    @property
    def before(self) -> Path:
        return self.folder / "in" / "walk.findings.json"

    @property
    def changes(self) -> Path:
        return self.folder / "changes.json"

    @property
    def out(self) -> Path:
        return self.folder / "flat.settlement.json"

    def run(self, *words: str | Path) -> str:
        assert main([str(word) for word in words]) == 0
        return self.capsys.readouterr().out

    def refused(self, *words: str | Path) -> str:
        assert main([str(word) for word in words]) == 2
        told = self.capsys.readouterr()
        assert told.out == ""
        assert told.err.count("\n") == 1
        return told.err

    def compares(self) -> tuple[str, ...]:
        return "compare", self.before, self.folder / "out" / "walk.findings.json", "--out", self.changes  # type: ignore[return-value]

    def settles(self) -> tuple[str, ...]:
        files = (self.changes, "--unit", self.folder / "unit.yaml", "--out", self.out, "--today", "2026-05-12")
        return "settle", *files  # type: ignore[return-value]

    def outcomes(self) -> list[str]:
        return sorted(change.outcome for change in read_comparison(self.changes).changes)

    def judge(self) -> None:
        desk = JudgingDesk(self.changes)
        for change in desk.comparison.changes:
            verdict = "beyond_ordinary_wear" if change.outcome == "new" else "ordinary_wear"
            desk.decide(Judge(changes=(change.id,), verdict=verdict), "Ida Pell", len(desk.lines))
        desk.put_down()

    def added(self, to: Path, *, withdrawing: str | None = None, adding: str | None = None, seal: bool = True) -> Path:
        """An addendum in which a flaw is withdrawn, or a crack added to what was said last."""
        self.run("amend", to)
        place = sorted(to.parent.glob("*.addendum-*.findings.json"))[-1]
        desk = Desk(place)
        if withdrawing:
            entry = next(one for one in desk.findings.entries if one.condition == withdrawing)
            desk.decide(Withdraw(entry=entry.id, why="It was a crumb."), "Ida Pell", 0)
        if adding:
            said = desk.findings.entries[-1].evidence[0].sentences
            facts = Facts(kind="condition", room="kitchen", component="sink", condition=adding, assertion="present")
            desk.decide(Add(sentences=said, facts=facts), "Ida Pell", len(desk.lines))
        desk.put_down()
        if seal:
            self.run("seal", place, *DECLARED, "--quiet")
        return place


@pytest.fixture(scope="module")
def walks(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("walks")
    sealed_walk(folder / "in", MOVE_IN)
    sealed_walk(folder / "out", MOVE_OUT)
    unit = BARE_UNIT + (
        "  - room: kitchen\n    component: sink\n"
        "    remedies: [{work: repair, what: fill the chip, basis: invoice, amount: 50.00, receipt: invoice 13}]\n"
    )
    (folder / "unit.yaml").write_text(unit, encoding="utf-8")
    return folder


@pytest.fixture
def tenancy(
    walks: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> Tenancy:
    monkeypatch.setenv("COLUMNS", "300")
    folder = tmp_path / "flat"
    shutil.copytree(walks, folder)
    return Tenancy(folder, capsys)


def seal_of(path: Path) -> str:
    seal = read_record(path, Findings).seal
    assert seal is not None
    return seal.sha256


def test_a_flaw_that_an_addendum_withdraws_is_compared_no_more_and_the_comparison_names_the_addendum(
    tenancy: Tenancy,
) -> None:
    tenancy.run(*tenancy.compares(), "--quiet")
    assert tenancy.outcomes() == ["new", "unchanged"]
    addendum = tenancy.added(tenancy.before, withdrawing="burn")
    told = tenancy.run(*tenancy.compares())
    comparison = read_record(tenancy.changes, Comparison)
    assert [change.outcome for change in comparison.changes] == ["no_baseline", "new"]
    assert comparison.before.seal == seal_of(tenancy.before)
    ((named,), none) = comparison.before.addenda, comparison.after.addenda
    assert (named.file, named.seal, none) == (addendum.name, seal_of(addendum), ())
    assert f"with {addendum.name}, seal {named.seal[:12]}…" in told


def test_a_flaw_that_an_addendum_adds_is_a_flaw_of_its_record(tenancy: Tenancy) -> None:
    tenancy.added(tenancy.before, adding="chip")
    tenancy.run(*tenancy.compares(), "--quiet")
    assert tenancy.outcomes() == ["unchanged", "unchanged"]


def test_of_several_addenda_the_last_counts_and_all_are_named_in_their_order(tenancy: Tenancy) -> None:
    first = tenancy.added(tenancy.before, adding="chip")
    second = tenancy.added(first, withdrawing="chip")
    tenancy.run(*tenancy.compares(), "--quiet")
    assert tenancy.outcomes() == ["new", "unchanged"]
    comparison = read_record(tenancy.changes, Comparison)
    assert [one.seal for one in comparison.before.addenda] == [seal_of(first), seal_of(second)]
    assert comparison.before.stands_in == f"in/{second.name}"


def test_what_was_added_reaches_judging_settling_and_the_statement(tenancy: Tenancy, tmp_path: Path) -> None:
    addendum = tenancy.added(tenancy.folder / "out" / "walk.findings.json", withdrawing="burn")
    tenancy.run(*tenancy.compares(), "--quiet")
    tenancy.judge()
    desk = JudgingDesk(tenancy.changes)
    assert whole_view(desk)["records"]["after"] == {
        "name": "out/walk.findings.json",
        "file": f"out/{addendum.name}",
        "warning": None,
    }
    assert "850.00 USD goes back to the resident." in tenancy.run(*tenancy.settles())
    tenancy.run("statement", tenancy.out, "--to", tmp_path / "papers", "--only", "pdf")
    text = ReadBack(next((tmp_path / "papers").glob("*.pdf")).read_bytes()).text
    assert "burn" not in text.partition("How this statement was made")[0].partition("What was not charged")[0]
    assert addendum.name in text.replace("\n", "")
    assert seal_of(addendum) in text.replace(" ", "").replace("\n", "")


def test_an_addendum_after_the_comparison_is_told_wherever_the_comparison_is_used(
    tenancy: Tenancy, tmp_path: Path
) -> None:
    tenancy.run(*tenancy.compares(), "--quiet")
    tenancy.judge()
    tenancy.run(*tenancy.settles())
    assert not read_record(tenancy.out, Settlement).provisional
    name = tenancy.added(tenancy.before, adding="chip").name
    told = f"THE MOVE-IN RECORD HAS AN ADDENDUM THAT WAS NOT READ ({name})"
    papers = tmp_path / "papers"
    shown = tenancy.run("statement", tenancy.out, "--to", papers)
    assert shown.count(told) == 1
    text = ReadBack(next(papers.glob("*.pdf")).read_bytes()).text
    assert "PROVISIONAL" in text
    assert "".join(told.split()) in "".join(text.split())
    letter = next(papers.glob("*.letter.txt")).read_text("utf-8")
    assert letter.startswith(f"*** {told[:40]}")
    assert tenancy.run(*tenancy.settles()).count(told) == 1
    settlement = read_record(tenancy.out, Settlement)
    assert settlement.provisional
    assert settlement.provisional_because[0].startswith(told)
    assert tenancy.run("statement", tenancy.out, "--to", papers).count(told) == 1
    warning = whole_view(JudgingDesk(tenancy.changes))["records"]["before"]["warning"]
    assert warning == f"has an addendum that was sealed after it was compared ({name}); compare again"


def test_an_addendum_that_is_only_started_counts_for_nothing_and_is_said(tenancy: Tenancy) -> None:
    place = tenancy.added(tenancy.before, withdrawing="burn", seal=False)
    told = tenancy.run(*tenancy.compares())
    assert f"MIND: an addendum that nobody has sealed yet, {place.name}, is not read" in told
    assert tenancy.outcomes() == ["new", "unchanged"]
    assert f"An addendum that nobody has sealed yet, {place.name}" in tenancy.run(*tenancy.settles())


def test_an_addendum_to_the_earlier_record_from_after_the_later_walk_is_marked(tenancy: Tenancy) -> None:
    for side, day in (("in", "2020-01-05"), ("out", "2021-01-05")):
        shutil.rmtree(tenancy.folder / side)
        sealed_walk(tenancy.folder / side, MOVE_IN if side == "in" else MOVE_OUT, "--date", day)
    assert "when the later walk was made or after it" not in tenancy.run(*tenancy.compares())
    tenancy.added(tenancy.before, withdrawing="burn")
    assert "when the later walk was made or after it" in tenancy.run(*tenancy.compares()).replace("\n", " ")
    (tenancy.folder / "unit.yaml").write_text(
        BARE_UNIT.replace("2025-03-06", "2020-01-01").replace("2026-05-07", "2021-01-05"), "utf-8"
    )
    assert "when the later walk was made or after it" in tenancy.run(*tenancy.settles())


def test_a_broken_addendum_is_refused_by_name(tenancy: Tenancy) -> None:
    tenancy.run(*tenancy.compares(), "--quiet")
    addendum = tenancy.added(tenancy.before, withdrawing="burn")
    whole = addendum.read_bytes()
    for change in (
        lambda raw: raw.replace(b'"burn"', b'"hole"'),
        lambda raw: raw[: len(raw) // 2],
        lambda raw: raw.replace(seal_of(tenancy.before).encode(), b"0" * 64),
        lambda raw: json.dumps(json.loads(raw) | {"amends": None}).encode(),
    ):
        addendum.write_bytes(change(whole))
        for command in (tenancy.compares(), tenancy.settles()):
            assert addendum.name in tenancy.refused(*command)
        addendum.write_bytes(whole)
    assert "read" not in tenancy.run(*tenancy.compares()).partition("MIND")[0]


def test_an_addendum_whose_forerunner_is_gone_is_refused(tenancy: Tenancy) -> None:
    first = tenancy.added(tenancy.before, adding="chip")
    second = tenancy.added(first, withdrawing="chip")
    first.unlink()
    told = tenancy.refused(*tenancy.compares())
    assert second.name in told
    assert first.name in told


def test_two_addenda_to_one_record_are_refused_since_nothing_says_which_counts(tenancy: Tenancy) -> None:
    first = tenancy.added(tenancy.before, adding="chip")
    hidden = {path: path.rename(path.with_suffix(".away")) for path in first.parent.glob(f"{first.name[:15]}*")}
    other = tenancy.added(tenancy.before, withdrawing="burn")
    for path in (other, other.with_name(other.name.replace("findings.json", "journal.jsonl"))):
        path.rename(path.with_name(path.name.replace("addendum-1", "keys")))
    for path, away in hidden.items():
        if not path.exists():
            away.rename(path)
    told = tenancy.refused(*tenancy.compares())
    assert first.name in told
    assert "walk.keys.findings.json" in told
    assert "both add to it" in told


def test_an_addendum_can_be_named_itself(tenancy: Tenancy) -> None:
    addendum = tenancy.added(tenancy.before, withdrawing="burn")
    later = tenancy.folder / "out" / "walk.findings.json"
    tenancy.run("compare", addendum, later, "--out", tenancy.changes, "--quiet")
    assert tenancy.outcomes() == ["new", "no_baseline"]
    assert "same walk" in tenancy.refused("compare", tenancy.before, addendum, "--out", tenancy.folder / "none.json")


def test_a_comparison_that_names_an_addendum_to_another_record_is_refused(tenancy: Tenancy) -> None:
    tenancy.added(tenancy.before, adding="chip")
    tenancy.run(*tenancy.compares(), "--quiet")
    comparison = read_record(tenancy.changes, Comparison)
    before = comparison.before.model_copy(update={"seal": "0" * 64})
    write_record(tenancy.changes, comparison.model_copy(update={"before": before}))
    assert "does not add to in/walk.findings.json as the comparison says" in tenancy.refused(*tenancy.settles())


FILES = ("walk.txt", "walk.journal.jsonl")


@pytest.mark.parametrize("name", FILES)
def test_nothing_is_settled_on_a_file_that_was_changed_since_it_was_sealed(tenancy: Tenancy, name: str) -> None:
    tenancy.run(*tenancy.compares(), "--quiet")
    place = tenancy.folder / "out" / name
    place.write_bytes(place.read_bytes() + b"\n")
    told = tenancy.refused(*tenancy.settles())
    assert "does not match its seal, so nothing is settled on it" in told
    assert name in told
    assert not tenancy.out.exists()


@pytest.mark.parametrize("name", FILES)
def test_a_file_that_is_kept_elsewhere_is_said_and_hinders_nothing(tenancy: Tenancy, name: str) -> None:
    tenancy.run(*tenancy.compares(), "--quiet")
    (tenancy.folder / "in" / name).unlink()
    told = tenancy.run(*tenancy.settles())
    line = next(line for line in told.splitlines() if "NOT THERE" in line)
    assert "not held against the seal of the move-in record" in line
    assert name in line
    assert any(name in caution for caution in read_record(tenancy.out, Settlement).cautions)


def test_a_long_film_is_told_of_while_it_is_read_and_read_once(
    tenancy: Tenancy, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("narrate2report.commands.sealed_walk.LARGE", 1)
    tenancy.added(tenancy.before, adding="chip")
    tenancy.run(*tenancy.compares(), "--quiet")
    assert main([str(word) for word in tenancy.settles()]) == 0
    told = tenancy.capsys.readouterr().err.splitlines()
    assert sum(line.startswith("Reading walk.txt") for line in told) == 2, "once for each walk"
    assert main([*map(str, tenancy.settles()), "--quiet"]) == 0
    assert tenancy.capsys.readouterr().err == ""


def test_the_card_of_the_next_walk_looks_again_at_what_an_addendum_added_and_not_at_what_it_withdrew(
    tenancy: Tenancy,
) -> None:
    tenancy.added(tenancy.before, withdrawing="burn", adding="crack")
    wanted = ("plan", tenancy.folder / "unit.yaml", "--to", tenancy.folder, "--last", tenancy.before, "--only", "html")
    tenancy.run(*wanted)
    page = (tenancy.folder / "unit.move_out.card.html").read_text(encoding="utf-8")
    burn, crack = (
        next(one.id for one in read_record(place, Findings).entries if one.condition == condition)
        for place, condition in (
            (tenancy.before, "burn"),
            (tenancy.before.with_name("walk.addendum-1.findings.json"), "crack"),
        )
    )
    assert f'data-key="again/{crack}"' in page
    assert f'data-key="again/{burn}"' not in page


@pytest.mark.parametrize("made", ["report", "worklist"])
def test_whoever_prints_a_record_is_told_of_its_addendum(tenancy: Tenancy, made: str) -> None:
    printing = (made, tenancy.before, "--to", tenancy.folder / "printed")
    assert "addendum" not in tenancy.run(*printing)
    addendum = tenancy.added(tenancy.before, withdrawing="burn")
    assert f"A sealed addendum lies beside it, {addendum.name}" in tenancy.run(*printing)
    assert "lies beside it" not in tenancy.run(made, addendum, "--to", tenancy.folder / "printed")
    shutil.copy(addendum, addendum.with_name("other.findings.json"))
    assert "both add to it" in tenancy.run(*printing)
