"""All that a sentence is weighed for: what it tells of tasks, and which of its findings are credible."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from narrate2report.read.credible.doubts import Doubts
from narrate2report.read.credible.signs import Observed
from narrate2report.read.credible.tasks import Tasks
from narrate2report.read.drafts.draft import Draft
from narrate2report.read.meant.scene import Scene
from narrate2report.read.things.focus import Focus


@dataclass(frozen=True)
class Weighing:
    """What was learned of how findings and tasks are worded."""

    doubts: Doubts = field(default_factory=Doubts)
    tasks: Tasks = field(default_factory=Tasks)

    def weigh(
        self, scene: Scene, drafts: Sequence[Draft], focus: Focus, *, owner_speaks: bool
    ) -> tuple[list[Draft], tuple[str, ...]]:
        """The drafts that are entered, and in words why others are not."""
        observed = Observed(scene, drafts)
        credible, doubted = self.doubts.sift(observed)
        tasks, talk = self.tasks.settle(observed, focus, owner_speaks=owner_speaks)
        return [*credible, *tasks], (*doubted, *talk)
