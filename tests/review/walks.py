"""A small invented walk to review, read from text, with a recording of noise beside it."""

from __future__ import annotations

from pathlib import Path

from narrate2report.commands.draft import Wanted, draft

NOTES = """\
[0:00] Okay, the kitchen.
[0:04] There's a scratch on the counter left of the sink.
[0:09] The oven works, I just tried it.
[0:14] No dents on the fridge.
[0:20] I'm checking the floor for any burns.
[0:25] Now the bathroom, and the toilet is loose.
[0:31] <script>document.title = 'taken over'</script> The mirror is cracked.
"""


def walk(folder: Path, notes: str = NOTES) -> Path:
    """The findings file of the walk, drafted in this folder."""
    given = folder / "walk.txt"
    given.write_text(notes, encoding="utf-8")
    out = folder / "walk.findings.json"
    draft(Wanted(inputs=(given,), out=out, quiet=True))
    return out
