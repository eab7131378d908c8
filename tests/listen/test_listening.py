"""The line from clips to transcript: order, progress, what is kept, and what is heard again."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from narrate2report.errors import BadInput
from narrate2report.listen import line
from narrate2report.listen.hearing import Hearer
from narrate2report.listen.listening import Progress, between, listen_with
from narrate2report.listen.models import Model
from narrate2report.listen.windows import cut_windows
from narrate2report.records.clip import Sound
from narrate2report.records.transcript import Recording, Transcript
from tests.listen.sounds import CountingHearer, LoudnessMeter, MadeClip, bursts

MODEL = Model("a model", "1" * 64, None)
TALK = [(start, start + 3.0) for start in (1.0, 10.0, 20.0, 30.0, 41.0)]
"""Five windows."""


@pytest.fixture(autouse=True)
def _loud_is_speech(monkeypatch: pytest.MonkeyPatch) -> None:
    def cut(blocks: Iterator[Sound]) -> object:
        return cut_windows(blocks, LoudnessMeter())

    monkeypatch.setattr(line, "cut_windows", cut)


def hear(hearer: Hearer, *clips: MadeClip, keep: Path | None = None, told: list[Progress] | None = None) -> Transcript:
    return listen_with(
        lambda: hearer,
        MODEL,
        hearer.settings,
        clips,
        keep=keep,
        on_progress=([] if told is None else told).append,
    )


def unused() -> Hearer:
    raise AssertionError("the model was loaded although everything is known")


def test_words_lie_where_they_were_spoken() -> None:
    transcript = hear(CountingHearer(), MadeClip("a.mp4", bursts(50, TALK)))
    assert [stretch.start for stretch in transcript.stretches] == [pytest.approx(start, abs=0.05) for start, _ in TALK]
    assert transcript.time_precision == "word"
    assert transcript.engine.model_sha256 == MODEL.sha256


def test_clips_follow_in_the_order_given_each_with_its_own_times() -> None:
    sound = bursts(5, [(1.0, 3.0)])
    transcript = hear(CountingHearer(), MadeClip("b.mp4", sound), MadeClip("a.mp4", sound))
    assert [stretch.recording for stretch in transcript.stretches] == ["b.mp4", "a.mp4"]
    assert transcript.stretches[0].start == transcript.stretches[1].start


def test_equal_sound_is_heard_once(tmp_path: Path) -> None:
    sound, hearer = bursts(5, [(1.0, 3.0)]), CountingHearer()
    hear(hearer, MadeClip("b.mp4", sound), MadeClip("a.mp4", sound), keep=tmp_path / "kept")
    assert hearer.heard == 1


def test_progress_goes_up_to_all_there_is() -> None:
    told: list[Progress] = []
    hear(
        CountingHearer(),
        MadeClip("a.mp4", bursts(50, TALK)),
        MadeClip("b.mp4", bursts(5, TALK[:1])),
        told=told,
    )
    done = [progress.done_s for progress in told]
    assert done == sorted(done)
    assert len(done) >= 4
    assert {progress.total_s for progress in told} == {55.0}
    assert done[-1] == pytest.approx(55.0)
    assert told[-1].recording == "b.mp4"


def test_an_interrupted_run_goes_on_where_it_stopped(tmp_path: Path) -> None:
    clip, keep = MadeClip("a.mp4", bursts(50, TALK)), tmp_path / "a.heard.jsonl"
    with pytest.raises(KeyboardInterrupt):
        hear(CountingHearer(fails_after=4), clip, keep=keep)
    second = CountingHearer()
    transcript = hear(second, clip, keep=keep)
    assert second.heard == 1
    assert transcript == hear(CountingHearer(), clip)


def test_an_unchanged_recording_is_not_even_decoded_again(tmp_path: Path) -> None:
    clip, keep = MadeClip("a.mp4", bursts(50, TALK)), tmp_path / "a.heard.jsonl"
    first = hear(CountingHearer(), clip, keep=keep)
    assert len(clip.plays) == 1
    settings = CountingHearer().settings
    again = listen_with(unused, MODEL, settings, [clip], keep=keep)
    assert len(clip.plays) == 1
    assert again == first


def test_changed_settings_and_models_are_noticed(tmp_path: Path) -> None:
    clip, keep = MadeClip("a.mp4", bursts(50, TALK)), tmp_path / "a.heard.jsonl"
    hear(CountingHearer(), clip, keep=keep)
    other = CountingHearer(text="other")
    assert hear(other, clip, keep=keep).stretches[0].text.startswith("other")
    assert other.heard == 5
    newer = CountingHearer()
    listen_with(lambda: newer, Model("b", "2" * 64, None), newer.settings, [clip], keep=keep)
    assert newer.heard == 5


def test_a_clip_in_which_nobody_speaks_is_refused_by_name() -> None:
    with pytest.raises(BadInput, match=r"no speech was heard in quiet\.mp4"):
        listen_with(unused, MODEL, {}, [MadeClip("quiet.mp4", bursts(5, []))])


def test_a_silent_clip_beside_a_spoken_one_is_only_told() -> None:
    transcript = hear(
        CountingHearer(), MadeClip("a.mp4", bursts(5, [(1.0, 3.0)])), MadeClip("quiet.mp4", bursts(5, []))
    )
    assert transcript.warnings[-1] == "no speech was heard in quiet.mp4"
    assert [stretch.recording for stretch in transcript.stretches] == ["a.mp4"]


@pytest.mark.parametrize(
    ("moments", "told"),
    [
        (("2026-03-04T09:00:00-05:00", "2026-03-04T09:12:30-05:00"), "about 12:20 lie between a.mp4 and b.mp4"),
        (("2026-03-04T09:00:00-05:00", "2026-03-04T14:12:30+00:00"), "about 12:20 lie between a.mp4 and b.mp4"),
        (("2026-03-04T09:12:30-05:00", "2026-03-04T09:00:00-05:00"), "b.mp4 was made before a.mp4"),
        (("2026-03-04T09:00:00-05:00", "2026-03-04T09:00:40-05:00"), None),
        (("2026-03-04T09:00:00", "2026-03-04T19:00:00+00:00"), None),
        ((None, "2026-03-04T19:00:00+00:00"), None),
    ],
)
def test_the_time_between_two_clips_is_told_by_their_clocks(moments: tuple[str | None, str], told: str | None) -> None:
    clips = [
        Recording(file=name, sha256="0" * 64, bytes=1, duration_s=10.0, recorded_at=moment)
        for name, moment in zip(("a.mp4", "b.mp4"), moments, strict=True)
    ]
    warnings = between(clips)
    assert warnings == [] if told is None else told in warnings[0]


def test_another_sound_track_is_listened_to_again(tmp_path: Path) -> None:
    sound, keep = bursts(5, [(1.0, 3.0)]), tmp_path / "kept"
    hear(CountingHearer(), MadeClip("a.mp4", sound), keep=keep)
    other = replace(MadeClip("a.mp4", sound), track=2)
    hear(CountingHearer(), other, keep=keep)
    assert len(other.plays) == 1


def test_sound_that_ends_too_early_is_told() -> None:
    class Torn(MadeClip):
        def blocks(self, tell: Callable[[str], None]) -> Iterator[Sound]:
            yield self.sound[: len(self.sound) // 2]
            tell("is damaged at its end")

    transcript = hear(CountingHearer(), Torn("a.mp4", bursts(80, [(1.0, 3.0)])))
    assert transcript.warnings == (
        "a.mp4: is damaged at its end",
        "a.mp4: its sound ends at 0:40, though the file says 1:20",
    )


def test_a_recording_that_does_not_tell_its_length_gets_it_from_its_sound() -> None:
    class Untold(MadeClip):
        @property
        def recording(self) -> Recording:
            return super().recording.model_copy(update={"duration_s": None})

    told: list[Progress] = []
    transcript = hear(CountingHearer(), Untold("a.webm", bursts(12, [(1.0, 3.0)])), told=told)
    assert transcript.recordings[0].duration_s == 12.0
    assert told[-1].done_s == pytest.approx(12.0)
    assert told[-1].total_s == 0.0


def test_importing_the_listener_loads_no_speech_library() -> None:
    code = (
        "import sys, narrate2report.listen.listening, narrate2report.listen.whisper\n"
        "print([m for m in ('faster_whisper', 'ctranslate2', 'onnxruntime', 'av') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
