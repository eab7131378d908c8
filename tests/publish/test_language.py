"""Every language says everything, and nothing that was spoken is translated."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args

import pytest
import yaml
from babel import Locale

from narrate2report.errors import BadInput
from narrate2report.publish.language import language
from narrate2report.publish.report_cautions import CAUTIONS
from narrate2report.publish.report_values import Mark, Reader, Standing
from narrate2report.publish.report_whole import Around, report_of, telling_of
from narrate2report.publish.wording_files import FOLDER, wording_file
from narrate2report.records.findings import Action, Assertion, Looked, Outcome, Party, Reason, Severity
from narrate2report.records.labels import LANGUAGES, Labels
from narrate2report.shipped import shipped
from narrate2report.wording import said
from tests.publish.walk import entry, evidence, findings

OTHERS = [tag for tag in LANGUAGES if tag != "en"]
TEMPLATE = FOLDER.parent / "report.typ"


def texts(content: object, at: str = "") -> Iterator[tuple[str, str]]:
    if isinstance(content, str):
        yield at, content
    elif isinstance(content, dict):
        for key, value in content.items():
            yield from texts(value, f"{at}.{key}")


def raw(tag: str) -> dict[str, Any]:
    return dict(yaml.safe_load(wording_file("report", tag).read_text("utf-8")))


def ids(name: str) -> dict[str, Any]:
    return dict(yaml.safe_load((shipped("vocab") / f"{name}.yaml").read_text("utf-8")))


@pytest.mark.parametrize("tag", OTHERS)
def test_a_language_says_everything_that_english_says_with_the_same_gaps_to_fill(tag: str) -> None:
    own, english = (
        {at: text for at, text in texts(raw(one)) if not at.startswith((".phrases", ".courtesy"))}
        for one in (tag, "en")
    )
    assert set(own) == set(english)
    assert all(text.strip() for text in own.values())
    for at, text in own.items():
        assert set(re.findall(r"{\w+}", text)) == set(re.findall(r"{\w+}", english[at])), at


@pytest.mark.parametrize("tag", LANGUAGES)
def test_there_is_a_word_for_all_that_can_stand_in_a_record(tag: str) -> None:
    words = language(tag)
    assert set(words.marks) == set(get_args(Mark))
    assert set(words.readers) == set(get_args(Reader))
    assert set(words.standings) == set(get_args(Standing))
    assert set(words.looked) == {*get_args(Looked), "nobody"}
    assert set(words.reasons) == set(get_args(Reason))
    assert set(words.phrases.checked) == set(get_args(Outcome))
    assert {one.key for one in CAUTIONS} == set(words.cautions)
    assert len(set(words.marks.values())) == len(words.marks)
    assert set(re.findall(r"\bw\.([a-z_0-9]+)", TEMPLATE.read_text("utf-8"))) <= set(words.page)
    needed = Locale.parse(words.locale).plural_form.tags | {"other"}
    assert all(set(forms) >= needed & {"one", "other"} for forms in words.counts.values())


@pytest.mark.parametrize("tag", OTHERS)
def test_every_id_of_the_vocabulary_has_a_name_in_every_other_language(tag: str) -> None:
    labels = Labels.model_validate(yaml.safe_load((shipped("vocab") / f"labels_{tag}.yaml").read_text("utf-8")))
    rooms = ids("rooms")
    suffixes = {suffix for room in rooms.values() for suffix in room.get("qualifiers", {})}
    suffixes |= {named.split(".")[1] for room in rooms.values() for named in room.get("named", {})}
    assert set(labels.rooms) == set(rooms)
    assert set(labels.suffixes) == {suffix for suffix in suffixes if not suffix[0].isdigit()}
    assert set(labels.components) == set(ids("components"))
    assert set(labels.conditions) == set(ids("conditions"))
    assert set(labels.actions) == set(ids("actions")) == set(get_args(Action))
    words = language(tag).phrases
    assert set(words.parties) == set(get_args(Party))
    assert set(words.severities) == set(get_args(Severity))
    for names in (labels.rooms, labels.components, labels.conditions):
        assert len(set(names.values())) == len(names), "two ids would read alike"


def test_in_english_a_report_says_what_every_other_page_says() -> None:
    told = entry(where="by the sink", severity="slight", pre_existing=True)
    assert language().says(told, "en") == (said(told), "")


@pytest.mark.parametrize("assertion", get_args(Assertion))
def test_what_was_said_stays_in_the_words_of_the_speaker(assertion: str) -> None:
    chip = entry(assertion=assertion, where="by the sink", severity="slight", pre_existing=True)
    says, spoken = language("es").says(chip, "en")
    assert "desportilladura" in says
    assert "leve, ya estaba antes" in says
    assert "sink" not in says
    assert spoken == "by the sink"
    assert language("es").says(entry(kind="description", attribute={"name": "colour", "value": "white"}), "en") == (
        "color",
        "white",
    )


@pytest.mark.parametrize(
    ("tag", "day", "number", "one", "many"),
    [("en", "March 6, 2026", "2,000", "1 day", "14 days"), ("es", "6 de marzo de 2026", "2,000", "1 día", "14 días")],
)
def test_dates_and_numbers_are_those_of_the_language(tag: str, day: str, number: str, one: str, many: str) -> None:
    words = language(tag)
    assert words.day("2026-03-06") == day
    assert words.day("2026-03-06T15:20:00Z", with_time=True) == f"{day}, 15:20 UTC"
    assert words.day("some day") == "some day"
    assert words.number(2000) == number
    assert (words.counted("days", 1), words.counted("days", 14)) == (one, many)


def test_rooms_are_named_as_the_language_names_them() -> None:
    rooms = ["bathroom.hall", "bedroom.2", "kitchen", "sauna.small"]
    assert [language("es").room(room) for room in rooms] == [
        "Baño del pasillo",
        "Dormitorio 2",
        "Cocina",
        "Sauna pequeño",
    ]


def test_where_a_fact_comes_from_is_translated_and_what_is_unknown_stays() -> None:
    told = [language("es").source(one) for one in ("given", "spoken at 0:09", "the recording's own clock", "a note")]
    assert told == ["indicado por escrito", "dicho en 0:09", "el reloj de la propia grabación", "a note"]


def test_labels_of_ones_own_are_laid_over(tmp_path: Path) -> None:
    (tmp_path / "labels_es.yaml").write_text("components:\n  dumbwaiter: montaplatos\n  sink: pila\n", "utf-8")
    words = language("es", tmp_path)
    assert [words.component(one) for one in ("dumbwaiter", "sink", "oven")] == ["montaplatos", "pila", "horno"]
    assert language("es").component("dumbwaiter") == "dumbwaiter"


@pytest.mark.parametrize("content", ["components: [a]", "{", "colours: {a: b}"])
def test_a_broken_file_of_labels_is_told_in_one_line(tmp_path: Path, content: str) -> None:
    (tmp_path / "labels_es.yaml").write_text(content, "utf-8")
    with pytest.raises(BadInput, match=r"labels_es\.yaml: holds no labels; see: narrate2report vocab check"):
        language("es", tmp_path)


def test_in_spanish_nothing_of_the_print_is_english() -> None:
    """Every fixed word of an English report is looked for in the Spanish one, of a record full of everything."""
    around = Around()
    record = findings(
        entry(evidence=(evidence(1, "xx"),), where="yy"), entry(id="b", kind="handover", component="key", quantity=2)
    )
    told = repr(report_of(telling_of(record, "resident", around, language("es")), "walk", "draft", around))
    english = [text for _, text in texts(language().model_dump()) if len(text) > 12 and "{" not in text]
    assert [text for text in english if text in told] == []
