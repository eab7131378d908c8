"""The words that come with the program reach every fixed id; mistakes in a file are refused where they stand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
import yaml

from narrate2report.cli import main
from narrate2report.errors import BadVocabulary
from narrate2report.read.lexicon import SHAPES, load_vocabulary
from narrate2report.read.vocabulary import ComponentTerm, Vocabulary
from narrate2report.read.words import Tokenizer
from narrate2report.records.files import read_record
from narrate2report.records.findings import Findings
from tests.read.told import Narrator
from tests.read.walks import Spoken, Walk

IDS: Mapping[str, Any] = yaml.safe_load((Path(__file__).parent / "data" / "ids.yaml").read_text(encoding="utf-8"))
"""The identifiers that a findings file uses; none may be renamed or dropped."""


# --- every id is there


def test_no_fixed_id_is_missing(vocabulary: Vocabulary) -> None:
    assert set(IDS["rooms"]) <= set(vocabulary.rooms)
    assert set(IDS["components"]) <= set(vocabulary.components)
    assert set(IDS["conditions"]) <= set(vocabulary.conditions)
    assert set(IDS["actions"]) <= set(vocabulary.actions)


def test_groups_and_classes_are_the_fixed_ones(vocabulary: Vocabulary) -> None:
    groups = {name: told["group"] for name, told in IDS["components"].items()}
    classes = {name: told["class"] for name, told in IDS["conditions"].items()}
    assert groups == {name: vocabulary.components[name].group for name in groups}
    assert classes == {name: vocabulary.conditions[name].class_ for name in classes}


# --- every id is reached by its own words


def _room_of(component: str, vocabulary: Vocabulary) -> str:
    """What people call the room where a component is at home."""
    for field in ("owns", "expects"):
        for term in vocabulary.rooms.values():
            if component in getattr(term, field):
                return term.say[0]
    return "living room"


def _name(component: str, vocabulary: Vocabulary) -> str:
    """A word that means a component by itself."""
    term = vocabulary.components[component]
    return (*term.say, *term.else_)[0]


def _shown(component: str, term: ComponentTerm, vocabulary: Vocabulary) -> str:
    """A sentence about a component: by its own word, or by a plain word beside its owner."""
    if term.say or term.else_:
        return f"The {_name(component, vocabulary)} is missing."
    owner, words = next(iter(term.near.items()))
    return f"Here's the {_name(owner, vocabulary)}. The {words[0]} is missing."


@pytest.fixture(scope="module")
def components(entries: Narrator, vocabulary: Vocabulary) -> Walk[str]:
    sentences = {
        name: Spoken(_room_of(name, vocabulary), _shown(name, vocabulary.components[name], vocabulary))
        for name in IDS["components"]
    }
    return Walk(entries, sentences)


@pytest.mark.parametrize("component", IDS["components"])
def test_a_component_is_reached_by_its_word(component: str, components: Walk[str]) -> None:
    given = [(entry.component, entry.condition) for entry in components.given(component)]
    assert component in [name for name, _ in given], given


def _bearer(condition: str, vocabulary: Vocabulary) -> str:
    """A component that a condition usually afflicts."""
    term = vocabulary.conditions[condition]
    usual = [one for one in term.usual if not one.startswith("group:")]
    return (*([term.default] if term.default else []), *usual, *term.only, "wall")[0]


def _stated(condition: str, vocabulary: Vocabulary) -> Iterator[tuple[str, str]]:
    """Sentences that state a condition by its first noun, its first adjective, else its first phrase or verb."""
    term, name = vocabulary.conditions[condition], _name(_bearer(condition, vocabulary), vocabulary)
    if term.nouns:
        yield "noun", f"There's some {term.nouns[0]} on the {name}."
    if term.adjectives:
        yield "adjective", f"The {name} is {term.adjectives[0]}."
    if not term.nouns and not term.adjectives:
        yield "words", f"The {name}, {(*term.phrases, *term.verbs)[0]}."


@pytest.fixture(scope="module")
def conditions(entries: Narrator, vocabulary: Vocabulary) -> Walk[tuple[str, str]]:
    sentences = {
        (name, form): Spoken(_room_of(_bearer(name, vocabulary), vocabulary), said)
        for name in IDS["conditions"]
        for form, said in _stated(name, vocabulary)
    }
    return Walk(entries, sentences)


@pytest.mark.parametrize("condition", IDS["conditions"])
def test_a_condition_is_reached_by_its_words(
    condition: str, conditions: Walk[tuple[str, str]], vocabulary: Vocabulary
) -> None:
    for form, said in _stated(condition, vocabulary):
        given = [(entry.component, entry.condition, entry.assertion) for entry in conditions.given((condition, form))]
        assert (_bearer(condition, vocabulary), condition, "present") in given, f"{said} -> {given}"


@pytest.fixture(scope="module")
def actions(entries: Narrator, vocabulary: Vocabulary) -> Walk[str]:
    sentences = {
        name: Spoken("kitchen", f"I'll have someone {vocabulary.actions[name].verbs[0]} the backsplash.")
        for name in IDS["actions"]
    }
    return Walk(entries, sentences)


@pytest.mark.parametrize("action", IDS["actions"])
def test_an_action_is_reached_by_its_verb(action: str, actions: Walk[str]) -> None:
    assert [(entry.component, entry.action) for entry in actions.given(action)] == [("backsplash", action)]


@pytest.mark.parametrize("room", IDS["rooms"])
def test_a_room_is_entered_by_its_name(room: str, entries: Narrator, vocabulary: Vocabulary) -> None:
    away = "garage" if room != "garage" else "kitchen"
    findings = entries(f"Okay, into the {vocabulary.rooms[room].say[0]}.", room=away).findings
    assert [visit.room for visit in findings.rooms] == [away, room]


@pytest.mark.parametrize(
    ("said", "outcome"),
    [
        ("I'll run the dishwasher... and it works.", "works"),
        ("The dishwasher doesn't work.", "fails"),
        ("The dishwasher was not tested.", "not_tested"),
    ],
)
def test_an_outcome_is_reached(said: str, outcome: str, entries: Narrator) -> None:
    assert outcome in IDS["outcomes"]
    given = entries(said, room="kitchen").entries
    same_fact = [entry for entry in given if entry.condition == "not_working" and outcome == "fails"]
    assert same_fact or [(entry.component, entry.outcome) for entry in given] == [("dishwasher", outcome)]


# --- a manager's own words


def _folder(tmp_path: Path, **files: str) -> Path:
    folder = tmp_path / "own words"
    folder.mkdir()
    for name, content in files.items():
        (folder / f"{name}.yaml").write_text(content, encoding="utf-8")
    return folder


def _narrator(folder: Path, tokenizer: Tokenizer) -> Narrator:
    return Narrator(load_vocabulary(folder), tokenizer)


def test_a_name_for_a_component_is_added_to_those_known(tmp_path: Path, tokenizer: Tokenizer) -> None:
    own = _narrator(_folder(tmp_path, components="bathtub:\n  say: [wallowing trough]\n"), tokenizer)
    told = own("The wallowing trough has a chip.", "The tub has a crack.", room="bathroom")
    assert told.conditions() == {("bathtub", "chip", "present"), ("bathtub", "crack", "present")}


def test_a_house_phrase_is_read_as_the_condition_it_stands_for(tmp_path: Path, tokenizer: Tokenizer) -> None:
    own = _narrator(_folder(tmp_path, conditions="dirty:\n  adjectives: [a grade four]\n"), tokenizer)
    told = own("The oven is a grade four.", room="kitchen")
    assert told.conditions() == {("oven", "dirty", "present")}


def test_a_house_phrase_that_means_nothing_is_passed_over(tmp_path: Path, tokenizer: Tokenizer) -> None:
    said = "The sink is cracking value."
    own = _narrator(_folder(tmp_path, idioms="- cracking value\n"), tokenizer)
    assert own(said, room="kitchen").conditions() == set()


def test_a_component_of_ones_own_can_be_added(tmp_path: Path, tokenizer: Tokenizer) -> None:
    added = "sauna_bench:\n  label: Sauna bench\n  group: furnished\n  say: [sauna bench]\n"
    own = _narrator(_folder(tmp_path, components=added), tokenizer)
    assert own("The sauna bench is cracked.", room="basement").conditions() == {("sauna_bench", "crack", "present")}


def test_words_that_yaml_takes_for_something_else_stay_words(tmp_path: Path, tokenizer: Tokenizer) -> None:
    own = _narrator(_folder(tmp_path, conditions="not_working:\n  adjectives: [off, no, 12, null]\n"), tokenizer)
    assert own("The ceiling fan is null.", room="bedroom").conditions() == {("ceiling_fan", "not_working", "present")}


@pytest.mark.parametrize("name", sorted(SHAPES))
@pytest.mark.parametrize("content", ["", "# nothing yet\n"], ids=["empty", "only a comment"])
def test_an_empty_file_adds_nothing(name: str, content: str, tmp_path: Path, vocabulary: Vocabulary) -> None:
    own = load_vocabulary(_folder(tmp_path, **{name: content}))
    assert own.version == vocabulary.version


def test_other_words_are_another_version(tmp_path: Path, vocabulary: Vocabulary) -> None:
    own = load_vocabulary(_folder(tmp_path, components="bathtub:\n  say: [wallowing trough]\n"))
    assert own.version != vocabulary.version
    assert load_vocabulary().version == vocabulary.version


# --- mistakes


MISTAKES: dict[str, tuple[str, str, int, str]] = {
    "unknown key": ("components", "bathtub:\n  say: [soaker]\n  sai: [soaker]\n", 3, "sai"),
    "unknown key of a word list": ("descriptions", "materials: [glass]\n", 1, "materials"),
    "a word for a list": ("components", "bathtub:\n  say: soaker\n", 2, "say"),
    "a list for a word": ("components", "bathtub:\n  label: [a, b]\n", 2, "label"),
    "a list for a mapping": ("components", "bathtub:\n  say: [soaker]\n  near: [sink]\n", 3, "near"),
    "a mapping in a list": ("rooms", "kitchen:\n  say:\n    - galley\n    - cook: house\n", 4, "say"),
    "nothing for a list": ("components", "bathtub:\n  say:\n", 2, "say"),
    "nothing for a term": ("components", "# mine\n\nbathtub:\n", 3, "bathtub"),
    "a list for the whole": ("components", "# mine\n- bathtub\n", 2, ""),
    "unknown component": ("components", "bathtub:\n  near:\n    sinkk: [bowl]\n", 3, "sinkk"),
    "unknown room": ("components", "bathtub:\n  in:\n    bathhouse: [bowl]\n", 3, "bathhouse"),
    "unknown component in a room": ("rooms", "kitchen:\n  expects:\n    - stove_pipe_hat\n", 3, "stove_pipe_hat"),
    "unknown group": ("conditions", "dent:\n  usual: ['group:hats']\n", 2, "group:hats"),
    "unknown default": ("conditions", "dent:\n  default: hat\n", 2, "hat"),
    "unknown component described": ("descriptions", "type:\n  hat: [tall]\n", 2, "hat"),
    "unknown class": ("conditions", "dent:\n  class: damaged\n", 2, "class"),
    "doubled key": ("components", "bathtub:\n  say: [a]\nbathtub:\n  say: [b]\n", 3, "bathtub"),
    "doubled key inside": ("components", "bathtub:\n  say: [a]\n  say: [b]\n", 3, "say"),
    "open bracket": ("components", "bathtub:\n  say: [soaker\nsink:\n  say: [b]\n", 3, ""),
    "tab": ("components", "bathtub:\n\tsay: [soaker]\n", 2, ""),
    "unknown anchor": ("components", "bathtub:\n  say: *soakers\n", 2, "soakers"),
    "a list that holds itself": ("components", "bathtub:\n  say: &a [*a]\n", 2, ""),
    "two documents": ("components", "bathtub:\n  say: [a]\n---\nsink:\n  say: [b]\n", 3, ""),
}  # fmt: skip


@pytest.mark.parametrize(("name", "content", "line", "told"), MISTAKES.values(), ids=MISTAKES.keys())
def test_a_mistake_is_refused_where_it_stands(name: str, content: str, line: int, told: str, tmp_path: Path) -> None:
    folder = _folder(tmp_path, **{name: content})
    with pytest.raises(BadVocabulary) as refused:
        load_vocabulary(folder)
    message = str(refused.value)
    assert message.startswith(f"{folder / name}.yaml:{line}: ")
    assert told in message
    assert "\n" not in message


UNREADABLE: dict[str, bytes] = {
    "a zero byte": b"bathtub:\n  say: [so\0aker]\n",
    "a control character": b"bathtub:\n  say: [so\x07aker]\n",
    "no UTF-8": b"bathtub:\n  say: [so\xffaker]\n",
}


@pytest.mark.parametrize("content", UNREADABLE.values(), ids=UNREADABLE.keys())
def test_what_cannot_be_read_is_refused_in_one_line_that_names_the_file(content: bytes, tmp_path: Path) -> None:
    folder = _folder(tmp_path)
    (folder / "components.yaml").write_bytes(content)
    with pytest.raises(BadVocabulary) as refused:
        load_vocabulary(folder)
    assert str(refused.value).startswith(f"{folder / 'components.yaml'}:")
    assert "\n" not in str(refused.value)


def test_a_folder_in_place_of_a_file_is_refused(tmp_path: Path) -> None:
    folder = _folder(tmp_path)
    (folder / "rooms.yaml").mkdir()
    with pytest.raises(BadVocabulary, match=r"rooms\.yaml"):
        load_vocabulary(folder)


def test_a_file_of_another_name_is_refused_and_told_the_right_ones(tmp_path: Path) -> None:
    with pytest.raises(BadVocabulary, match=r"component\.yaml.*components"):
        load_vocabulary(_folder(tmp_path, component="bathtub:\n  say: [soaker]\n"))


def test_a_folder_that_is_none_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BadVocabulary, match="not a folder"):
        load_vocabulary(tmp_path / "nowhere")


# --- from the command line


def test_the_program_takes_a_folder_of_own_words(tmp_path: Path) -> None:
    folder = _folder(tmp_path, components="bathtub:\n  say: [wallowing trough]\n")
    out = _draft(tmp_path, folder, status=0)
    (entry,) = read_record(out, Findings).entries
    assert (entry.component, entry.condition) == ("bathtub", "chip")


def test_the_program_refuses_a_mistake_in_one_line_and_writes_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = _folder(tmp_path, components="bathtub:\n  sai: [wallowing trough]\n")
    out = _draft(tmp_path, folder, status=2)
    told = capsys.readouterr()
    assert not out.exists()
    assert told.out == ""
    assert len(told.err.splitlines()) == 1
    assert "components.yaml:2: " in told.err


def _draft(tmp_path: Path, folder: Path, status: int) -> Path:
    notes, out = tmp_path / "walk.txt", tmp_path / "walk.findings.json"
    notes.write_text("[0:00] Okay, into the bathroom.\n[0:05] The wallowing trough has a chip.\n", encoding="utf-8")
    assert main(["draft", str(notes), "--out", str(out), "--vocab", str(folder), "--quiet"]) == status
    return out
