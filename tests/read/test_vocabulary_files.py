"""The words that come with the program reach every fixed id; mistakes in a file are refused where they stand."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
import spacy
import yaml

from narrate2report.cli import main
from narrate2report.errors import BadVocabulary
from narrate2report.read.lexis.lexicon import load_vocabulary
from narrate2report.read.lexis.vocabulary import ComponentTerm, Vocabulary
from narrate2report.read.lexis.word_files import SHAPES, WORDS
from narrate2report.read.lexis.words import SEVERAL, Tokenizer
from narrate2report.read.misheard.neighbours import neighbours_of
from narrate2report.records.files import read_record
from narrate2report.records.findings import Findings
from narrate2report.records.yaml_lines import LinedYaml
from narrate2report.shipped import shipped
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


@pytest.mark.parametrize(
    "file", sorted((Path(__file__).parents[2] / "vocab").glob("*.yaml")), ids=lambda path: path.stem
)
def test_no_word_stands_twice_in_one_list(file: Path) -> None:
    def twice(told: Any) -> Iterator[str]:
        if isinstance(told, dict):
            for one in told.values():
                yield from twice(one)
        elif isinstance(told, list):
            yield from (word for word, times in Counter(map(str, told)).items() if times > 1)

    assert list(twice(yaml.safe_load(file.read_text(encoding="utf-8")))) == []


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


def test_every_word_is_cut_up_as_a_sentence_would_be(tokenizer: Tokenizer) -> None:
    files = (LinedYaml(file, WORDS) for file in sorted(shipped("vocab").glob("*.yaml")))
    pieces = {piece for file in files for _, phrase in file.words() for piece in phrase.lower().split()}
    cut_up = spacy.blank("en").tokenizer
    differing = [
        piece
        for piece in pieces
        if piece.isalpha() and piece not in SEVERAL and len(cut_up(piece)) != len(tokenizer.phrase(piece))
    ]
    assert len(pieces) > 5000
    assert not differing


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


def test_words_that_are_known_already_change_nothing(tmp_path: Path, vocabulary: Vocabulary) -> None:
    known = vocabulary.components["bathtub"].say[0]
    own = load_vocabulary(_folder(tmp_path, components=f"bathtub:\n  say: [{known}]\n"))
    assert own.version == vocabulary.version


def test_a_file_saved_on_another_system_is_read_alike(tmp_path: Path) -> None:
    content = "bathtub:\n  say: [wallowing trough]\n"
    plain = load_vocabulary(_folder(tmp_path, components=content))
    other = tmp_path / "another"
    other.mkdir()
    (other / "components.yaml").write_bytes(b"\xef\xbb\xbf" + content.replace("\n", "\r\n").encode())
    assert load_vocabulary(other).version == plain.version


def test_a_word_given_to_another_component_means_that_one(tmp_path: Path, tokenizer: Tokenizer) -> None:
    own = _narrator(_folder(tmp_path, components="sink:\n  say: [tub]\n"), tokenizer)
    told = own("The tub has a chip.", "The bathtub has a crack.", room="bathroom")
    assert told.conditions() == {("sink", "chip", "present"), ("bathtub", "crack", "present")}


def test_a_word_given_to_another_condition_means_that_one(tmp_path: Path, tokenizer: Tokenizer) -> None:
    own = _narrator(_folder(tmp_path, conditions="worn:\n  adjectives: [chipped]\n"), tokenizer)
    told = own("The tub is chipped. There's a chip in the sink.", room="bathroom")
    assert told.conditions() == {("bathtub", "worn", "present"), ("sink", "chip", "present")}


def test_the_folder_named_last_has_the_last_word(tmp_path: Path, tokenizer: Tokenizer) -> None:
    folders = []
    for name, component in (("house", "sink"), ("street", "bathtub")):
        folder = tmp_path / name
        folder.mkdir()
        (folder / "components.yaml").write_text(f"{component}:\n  say: [trough]\n", encoding="utf-8")
        folders.append(folder)
    for order in (folders, folders[::-1]):
        last = "bathtub" if order[-1].name == "street" else "sink"
        told = Narrator(load_vocabulary(*order), tokenizer)("The trough has a chip.", room="bathroom")
        assert told.conditions() == {(last, "chip", "present")}


def test_a_folder_may_add_to_what_another_folder_made_up(tmp_path: Path, tokenizer: Tokenizer) -> None:
    made_up = _folder(tmp_path, components="dumbwaiter:\n  label: Dumbwaiter\n  say: [dumbwaiter]\n")
    more = tmp_path / "more"
    more.mkdir()
    (more / "components.yaml").write_text("dumbwaiter:\n  say: [little lift]\n", encoding="utf-8")
    told = Narrator(load_vocabulary(made_up, more), tokenizer)("The little lift has a dent.", room="kitchen")
    assert told.conditions() == {("dumbwaiter", "dent", "present")}
    with pytest.raises(BadVocabulary, match="label"):
        load_vocabulary(more)


def test_a_room_of_ones_own_is_walked_and_expects_what_it_should(tmp_path: Path, tokenizer: Tokenizer) -> None:
    added = "mail_alcove:\n  label: Mail alcove\n  say: [mail alcove]\n  expects: [mailbox, wall]\n"
    told = _narrator(_folder(tmp_path, rooms=added), tokenizer)("Into the mail alcove.", "The mailbox is dented.")
    assert [visit.room for visit in told.findings.rooms] == ["mail_alcove"]
    assert [(row.component, row.status) for row in told.findings.coverage] == [
        ("mailbox", "noted"),
        ("wall", "not_noted"),
    ]


def test_a_condition_of_ones_own_can_be_added(tmp_path: Path, tokenizer: Tokenizer) -> None:
    added = "graffiti:\n  label: Graffiti\n  class: soil\n  nouns: [spray tag]\n"
    own = _narrator(_folder(tmp_path, conditions=added), tokenizer)
    assert own("There's a spray tag on the fence.", room="yard").conditions() == {("fence", "graffiti", "present")}


def test_a_word_of_a_name_does_not_say_how_bad_a_flaw_is(tmp_path: Path, tokenizer: Tokenizer) -> None:
    added = "dumbwaiter:\n  label: Dumbwaiter\n  say: [little lift]\n"
    own = _narrator(_folder(tmp_path, components=added), tokenizer)
    plain, slight = own("The little lift's loose.", "The little lift's a little bent.", room="kitchen").entries
    assert (plain.severity, slight.severity) == (None, "slight")


def test_a_house_rule_is_told_from_what_is_there(tmp_path: Path, entries: Narrator, tokenizer: Tokenizer) -> None:
    said = "Page nine, a burn on the counter."
    assert entries(said, room="kitchen").conditions() == {("countertop", "burn", "present")}
    own = _narrator(_folder(tmp_path, cues="policy: [page nine]\n"), tokenizer)(said, room="kitchen")
    assert own.entries == ()
    assert own.reasons_from(1) == ["policy"]


def test_what_was_mined_names_words_of_the_vocabulary_each_heard_by_somebody(vocabulary: Vocabulary) -> None:
    known = neighbours_of(vocabulary)
    assert len(vocabulary.misheard) > 100
    assert {right for right in vocabulary.misheard if right not in known.words | known.parts} == set()
    assert all(1 <= told.voices <= told.times for heard in vocabulary.misheard.values() for told in heard.values())
    assert vocabulary.misheard["caulk"]["cock"].times >= 1


def test_what_ones_own_voice_is_misheard_as_can_be_added(tmp_path: Path, vocabulary: Vocabulary) -> None:
    own = load_vocabulary(_folder(tmp_path, misheard="newel:\n  nool: {times: 3, voices: 1}\n"))
    assert own.misheard["newel"]["nool"].times == 3
    assert own.misheard["caulk"] == vocabulary.misheard["caulk"]


# --- mistakes


MISTAKES: dict[str, tuple[str, str, int, str]] = {
    "unknown key": ("components", "bathtub:\n  say: [soaker]\n  sai: [soaker]\n", 3, "sai"),
    "no number of times": ("misheard", "caulk:\n  cock: {times: often, voices: 1}\n", 2, "whole number"),
    "never heard": ("misheard", "caulk:\n  cock: {times: 0, voices: 1}\n", 2, "above 0"),
    "no voices": ("misheard", "caulk:\n  cock: {times: 2}\n", 2, "voices"),
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
    "two documents": ("components", "bathtub:\n  say: [a]\n---\nsink:\n  say: [b]\n", 3, "---"),
    "a misspelt component": ("components", "# mine\nrange_hod:\n  say: [sucker]\n", 2, "did you mean range_hood"),
    "a new component that is not called new": ("components", "dumbwaiter:\n  say: [dumbwaiter]\n", 1, "label"),
    "a name of two words": ("components", "Dumb waiter:\n  label: Dumb waiter\n", 1, "small letters"),
    "a room of a kind that is not there": ("rooms", "spa.hall:\n  label: Spa\n", 1, "small letters"),
    "a named room of another kind": ("rooms", "bathroom:\n  named:\n    kitchen.x: [spa]\n", 3, "kitchen.x"),
    "a qualifier with a space": ("rooms", "bathroom:\n  qualifiers:\n    up there: [upper]\n", 3, "up there"),
    "unknown family": ("components", "bathtub:\n  group: hats\n", 2, "one of air, appliances"),
    "a kind of work that is none": ("actions", "polish:\n  verbs: [shine]\n", 1, "polish"),
    "a kind of cue that is none": ("cues", "policies: [house rule]\n", 1, "use policy"),
    "words without a list in cues": ("cues", "policy: house rule\n", 1, "list of words"),
    "a new condition of no class": ("conditions", "graffiti:\n  label: Graffiti\n", 1, "class"),
    "a new condition of praise": ("conditions", "superb:\n  label: Superb\n  class: sound\n", 1, "good"),
    "an empty word": ("components", "bathtub:\n  say:\n    - soaker\n    -\n", 4, "no word"),
    "a mark for a word": ("idioms", "- '?'\n", 1, "no word"),
    "a list for a name": ("components", "? [a, b]\n: c\n", 1, "before the colon"),
    "a terminal command": ("components", 'bathtub:\n  say: ["\\e[31m"]\n', 2, "cannot be shown"),
    "a turned direction": ("components", "bathtub:\n  say: [\u202esoaker]\n", 2, "cannot be shown"),
    "lists without end": ("components", "a: " + "[" * 5_000, 1, "without end"),
    "words that multiply": (
        "components",
        "a: &a [x]\n" + "".join(f"{b}: &{b} [{f'*{a}, ' * 20}]\n" for a, b in pairwise("abcdef")),
        5,
        "aliases",
    ),
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


UNREADABLE: dict[str, tuple[bytes, int, str]] = {
    "a zero byte": (b"bathtub:\n  say: [so\0aker]\n", 2, "control character"),
    "a control character": (b"bathtub:\n  say: [so\x07aker]\n", 2, "control character"),
    "no UTF-8": (b"bathtub:\n  say: [so\xffaker]\n", 2, "save the file as UTF-8"),
    "UTF-16": ("bathtub:\n  say: [soaker]\n".encode("utf-16"), 1, "save it as UTF-8"),
    "too much": (b"bathtub:\n  say: [" + b"soaker, " * 140_000 + b"]\n", 1, "too large"),
}


@pytest.mark.parametrize(("content", "line", "told"), UNREADABLE.values(), ids=UNREADABLE.keys())
def test_what_cannot_be_read_is_refused_in_one_line_that_names_the_place(
    content: bytes, line: int, told: str, tmp_path: Path
) -> None:
    folder = _folder(tmp_path)
    (folder / "components.yaml").write_bytes(content)
    with pytest.raises(BadVocabulary) as refused:
        load_vocabulary(folder)
    assert str(refused.value).startswith(f"{folder / 'components.yaml'}:{line}: ")
    assert told in str(refused.value)
    assert "\n" not in str(refused.value)


def test_a_folder_in_place_of_a_file_is_refused(tmp_path: Path) -> None:
    folder = _folder(tmp_path)
    (folder / "rooms.yaml").mkdir()
    with pytest.raises(BadVocabulary, match=r"rooms\.yaml"):
        load_vocabulary(folder)


@pytest.mark.parametrize(
    "name", ["component.yaml", "components.yml", "Components.yaml", "components.yaml.txt", "components.TXT"]
)
def test_a_file_of_nearly_the_right_name_is_refused_and_told_the_right_one(name: str, tmp_path: Path) -> None:
    folder = _folder(tmp_path)
    (folder / name).write_text("bathtub:\n  say: [soaker]\n", encoding="utf-8")
    with pytest.raises(BadVocabulary) as refused:
        load_vocabulary(folder)
    assert str(refused.value).startswith(f"{folder / name}:1: ")
    assert str(refused.value).endswith("components.yaml")


def test_a_file_of_quite_another_name_is_told_all_of_them(tmp_path: Path) -> None:
    with pytest.raises(BadVocabulary) as refused:
        load_vocabulary(_folder(tmp_path, house="bathtub:\n  say: [soaker]\n"))
    assert all(f"{name}.yaml" in str(refused.value) for name in SHAPES)


@pytest.mark.parametrize("name", ["README.md", ".DS_Store", "components.yaml~", "notes.txt", ".components.yaml.swp"])
def test_other_files_may_lie_beside_the_words(name: str, tmp_path: Path, vocabulary: Vocabulary) -> None:
    folder = _folder(tmp_path)
    (folder / name).write_text("bathtub: [", encoding="utf-8")
    assert load_vocabulary(folder).version == vocabulary.version


@pytest.mark.parametrize("there", [True, False], ids=["a file", "nothing"])
def test_a_folder_that_is_none_is_refused(tmp_path: Path, there: bool) -> None:
    place = tmp_path / "nowhere"
    if there:
        place.touch()
    with pytest.raises(BadVocabulary, match=r"is no folder|no such folder"):
        load_vocabulary(place)


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
