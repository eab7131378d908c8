"""Arguments of what teaches and explains: `vocab`, `evaluate`, `learn`, `doctor`, `completion`, `guide`."""

from __future__ import annotations

import argparse

from narrate2report.arguments.shared import Commands, add_words, path_text, plain_text

FAULTY = 2
"""Exit status of `doctor` where something that is needed is not here."""


def add_vocab(commands: Commands) -> None:
    """`vocab`."""
    vocab = commands.add_parser(
        "vocab",
        help="check words of your own, or see how a sentence is read",
        description="Check words of your own, or see how a sentence is read and by which words.",
    )
    tasks = vocab.add_subparsers(title="tasks", metavar="TASK", required=True)
    check = tasks.add_parser(
        "check",
        help="say what words add, and which mean something else already",
        description="Check the built-in words, your own and those in FOLDER, and say what each file adds.",
    )
    check.add_argument("folder", metavar="FOLDER", nargs="?", type=path_text, help="a folder of words")
    check.set_defaults(run=_run_vocab_check)
    trial = tasks.add_parser(
        "try",
        help="show how a sentence is read",
        description="Show how sentences are read: the words found, how each part is meant, and what it gives.",
    )
    trial.add_argument("sentences", metavar="SENTENCE", nargs="+", help="what is said; - for lines from standard input")
    trial.add_argument("--room", metavar="ROOM", type=plain_text, help="where it is said, such as kitchen or bedroom.2")
    trial.add_argument("--json", action="store_true", help="print the reading for machines")
    add_words(trial)
    trial.set_defaults(run=_run_vocab_try)


def add_evaluate(commands: Commands) -> None:
    """`evaluate`."""
    evaluate = commands.add_parser(
        "evaluate",
        help="say how well walks are read, by what you decided",
        description="Compare what was drafted with what is right: how much was found, missed, and not there.",
    )
    evaluate.add_argument(
        "files",
        metavar="GOLD FINDINGS",
        nargs="+",
        type=path_text,
        help="what is right (a reviewed record, or NAME.gold.json with NAME.txt beside it), then what was drafted; "
        "or several such pairs",
    )
    evaluate.add_argument("--errors", action="store_true", help="print everything that was missed or is not there")
    evaluate.add_argument("--json", action="store_true", help="print all of it for machines")
    evaluate.set_defaults(run=_run_evaluate)


def add_learn(commands: Commands) -> None:
    """`learn`."""
    learn = commands.add_parser(
        "learn",
        help="propose words of your own from what you put right",
        description="Read the sealed walks below a folder again, and propose words that would have been read right.",
    )
    learn.add_argument("folder", metavar="FOLDER", type=path_text, help="where your sealed walks lie")
    learn.add_argument(
        "--to",
        metavar="WORDS",
        type=path_text,
        help="the folder to write the proposals to, each a line that you may accept; without it they are only printed",
    )
    learn.add_argument("--json", action="store_true", help="print all of it for machines")
    add_words(learn)
    learn.set_defaults(run=_run_learn)


def add_doctor(commands: Commands) -> None:
    """`doctor`."""
    doctor = commands.add_parser(
        "doctor",
        help="check that everything needed is here",
        description="Try every part that the program needs, and say what to do about each that fails.",
    )
    doctor.set_defaults(run=_run_doctor)


def add_completion(commands: Commands, whole: argparse.ArgumentParser) -> None:
    """`completion`, made from the whole command line."""
    completion = commands.add_parser(
        "completion",
        help="print what your shell needs to complete commands",
        description="Print a script for your shell; 'narrate2report guide doctor' says where to put it.",
    )
    completion.add_argument("shell", choices=["bash", "zsh", "tcsh"], help="your shell")
    completion.set_defaults(run=_run_completion, whole=whole)


def add_guide(commands: Commands) -> None:
    """`guide`."""
    guide = commands.add_parser(
        "guide", help="read a guide", description="Print a guide, or the list of them when no topic is named."
    )
    guide.add_argument("topic", metavar="TOPIC", nargs="?", help="the guide to print")
    guide.set_defaults(run=_run_guide)


def _run_vocab_check(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.vocab_check import check_words

    check_words(chosen.folder)
    return 0


def _run_vocab_try(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.vocab_try import WantedTrial, try_words

    try_words(WantedTrial(tuple(chosen.sentences), chosen.room, chosen.vocab, chosen.json))
    return 0


def _run_evaluate(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.evaluate import WantedEvaluation, evaluate

    evaluate(WantedEvaluation(tuple(chosen.files), chosen.errors, chosen.json))
    return 0


def _run_learn(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.learn import WantedLearning, learn

    learn(WantedLearning(chosen.folder, chosen.to, chosen.vocab, chosen.json))
    return 0


def _run_doctor(_: argparse.Namespace) -> int:
    from narrate2report.commands.doctor import doctor

    return 0 if doctor() else FAULTY


def _run_completion(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.completion import completion

    completion(chosen.whole, chosen.shell)
    return 0


def _run_guide(chosen: argparse.Namespace) -> int:
    from narrate2report.commands.guide import guide

    guide(chosen.topic)
    return 0
