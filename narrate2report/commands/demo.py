"""`demo [--folder F]`: the sample flat, from its first film to the settlement of its deposit, with every file named."""

from __future__ import annotations

import filecmp
import shutil
import tempfile
from pathlib import Path

from rich.console import Console

from narrate2report.commands.demo_settlement import settle_sample
from narrate2report.commands.draft import Wanted, draft
from narrate2report.commands.typed import command
from narrate2report.errors import BadInput
from narrate2report.publish.summary import first_to_look_at
from narrate2report.records.beside import transcript_beside
from narrate2report.shipped import shipped

SAMPLES = ("move-in.mp4", "move-out.mp4", "unit.yaml", "judged.yaml")


def demo(folder: Path | None) -> None:
    """Take the sample through in a folder of its own, show what comes of it, and say what to try next."""
    place = _prepared(folder)
    video = place / SAMPLES[0]
    out = place / "move-in.findings.json"
    console = Console(highlight=False, markup=False)
    console.print(f"An invented flat, walked and narrated: {video}", soft_wrap=True)
    console.print(f"$ {command('draft', video, '--out', out)}\n", soft_wrap=True)
    findings = draft(Wanted(inputs=(video,), out=out, say_next=False))
    settled = settle_sample(place, console)
    console.print("\nFiles:", style="bold")
    for path, what in (
        (video, "the recording, never changed"),
        (transcript_beside(out), "every word heard, with its time"),
        (out, "the entries, each linked to where it was said"),
        *settled,
    ):
        console.print(f"  {what}:\n    {path}", soft_wrap=True)
    console.print("\nTry next:", style="bold")
    first = first_to_look_at(findings)
    for line, what in (
        (
            command("show", out, *([first.id] if first else [])),
            "the first flaw: its words, its link, why it was read so",
        ),
        (command("review", out), "decide each entry beside the video, then seal the record"),
        (command("report", out, "--to", place), "print it, as a draft until it is reviewed and sealed"),
        (command("draft", video, "--out", out, "--explain"), "every sentence and what became of it"),
        (command("review", place / "changes.json"), "judge what changed, both recordings side by side"),
        (command("guide", "speaking"), "how to speak on a walk of your own"),
    ):
        console.print(f"  {what}:\n    {line}", soft_wrap=True)


def _prepared(folder: Path | None) -> Path:
    """A folder with the sample in it; what is there already is never overwritten."""
    samples = [shipped("samples") / name for name in SAMPLES]
    if missing := [sample for sample in samples if not sample.is_file()]:
        raise BadInput(f"{missing[0]}: the sample is not there; install narrate2report again")
    if folder is None:
        folder = Path(tempfile.mkdtemp(prefix="narrate2report-demo-"))
    for sample in samples:
        if (folder / sample.name).exists() and not filecmp.cmp(folder / sample.name, sample, shallow=False):
            raise BadInput(f"{folder / sample.name}: is another file than the sample's; choose another folder")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for sample in samples:
            shutil.copyfile(sample, folder / sample.name)
    except OSError as error:
        reason = error.strerror or error
        raise BadInput(f"{folder}: cannot be used ({reason}); choose another folder") from error
    return folder
