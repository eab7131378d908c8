"""What the camera shows at each line of the two walks, and which flaws the flat has on each day.

A shot is (room, centre x, centre y, width shown) in room units, plus what is open or switched on in it.
The narrations themselves are samples/move-in.txt and samples/move-out.txt; the n-th shot belongs to the
n-th line.
"""

from __future__ import annotations

from dataclasses import dataclass

from studio.canvas import WIDTH


@dataclass(frozen=True)
class Shot:
    """What one line shows.

    Attributes:
        room: a key of `rooms.ROOMS`.
        x: centre of the view, in room units; likewise y.
        y: see x.
        width: how much of the room's 1920 units is in view.
        shown: marks beyond the flaws of the day: things open, lit, running.
    """

    room: str
    x: float = WIDTH / 2
    y: float = 540.0
    width: float = WIDTH
    shown: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Walk:
    """One of the two videos.

    Attributes:
        name: stem of all its files.
        caption: shown at the foot of every picture.
        recorded_at: written into the video as its time of creation.
        seed: of the pauses between the lines.
        flaws: marks of everything that is wrong on that day.
        shots: one for each line of the narration.
    """

    name: str
    caption: str
    recorded_at: str
    seed: int
    flaws: frozenset[str]
    shots: tuple[Shot, ...]


def _shot(room: str, x: float, y: float, width: float, *shown: str) -> Shot:
    return Shot(room, x, y, width, frozenset(shown))


MOVE_IN = Walk(
    name="move-in",
    caption="Unit 2B  |  move-in  |  March 6, 2025",
    recorded_at="2025-03-06T15:20:00.000000Z",
    seed=2503,
    flaws=frozenset(
        "baseboard_scuff floor_scratch screen_tear counter_chip knob_missing shelf_crack caulk_gap "
        "ceiling_stain slats_two bed_nail_holes closet_off_track tile_crack".split()
    ),
    shots=(
        Shot("street"),
        _shot("street", 1060, 680, 1000),
        _shot("street", 960, 560, 1500),
        _shot("street", 960, 720, 760),
        Shot("entry"),
        _shot("entry", 720, 520, 1060),
        _shot("entry", 836, 530, 520),
        _shot("entry", 1030, 740, 480),
        _shot("entry", 960, 150, 640, "alarm_sounding"),
        _shot("entry", 960, 150, 640),
        _shot("entry", 1180, 300, 560),
        Shot("living"),
        _shot("living", 1240, 340, 1300),
        _shot("living", 1480, 420, 620),
        _shot("living", 1560, 400, 700),
        _shot("living", 960, 880, 1240),
        _shot("living", 985, 850, 520),
        _shot("living", 985, 860, 700),
        _shot("living", 960, 390, 820),
        _shot("living", 1130, 470, 460),
        _shot("living", 1086, 400, 620),
        _shot("living", 980, 680, 760),
        Shot("kitchen"),
        _shot("kitchen", 970, 580, 480),
        _shot("kitchen", 900, 540, 760),
        _shot("kitchen", 1270, 590, 620, "burners_lit"),
        _shot("kitchen", 1200, 610, 460),
        _shot("kitchen", 1220, 600, 620),
        _shot("kitchen", 1270, 560, 980),
        _shot("kitchen", 330, 500, 1040, "fridge_open"),
        _shot("kitchen", 330, 590, 520, "fridge_open"),
        _shot("kitchen", 680, 660, 620, "sink_open"),
        _shot("kitchen", 680, 680, 540, "sink_open"),
        _shot("kitchen", 990, 680, 620),
        Shot("bathroom"),
        _shot("bathroom", 570, 620, 960),
        _shot("bathroom", 650, 590, 460),
        _shot("bathroom", 640, 600, 640),
        _shot("bathroom", 600, 440, 760),
        _shot("bathroom", 1000, 240, 860, "fan_running"),
        _shot("bathroom", 1124, 620, 680, "flushing"),
        _shot("bathroom", 640, 150, 620),
        Shot("bedroom"),
        _shot("bedroom", 600, 380, 760),
        _shot("bedroom", 690, 350, 480),
        _shot("bedroom", 760, 850, 1160),
        _shot("bedroom", 982, 380, 520),
        _shot("bedroom", 1430, 540, 940),
        Shot("balcony"),
        _shot("balcony", 1160, 620, 1200),
        _shot("balcony", 1180, 560, 900),
        _shot("balcony", 560, 950, 560),
        Shot("keys"),
        _shot("keys", 1350, 540, 1300),
        _shot("street", 960, 600, 1500),
    ),
)

MOVE_OUT = Walk(
    name="move-out",
    caption="Unit 2B  |  move-out  |  May 7, 2026",
    recorded_at="2026-05-07T14:05:00.000000Z",
    seed=2605,
    flaws=frozenset(
        "baseboard_scuff door_dent wall_nail_holes floor_scratch floor_gouge counter_chip_big counter_burn "
        "oven_grease hood_dirt shelf_crack tub_chip grout_mold seat_loose ceiling_stain slats_four "
        "carpet_stain bed_nail_holes closet_off_track tile_crack fob_missing".split()
    ),
    shots=(
        Shot("street"),
        _shot("street", 1060, 680, 1000),
        _shot("street", 960, 560, 1500),
        _shot("street", 960, 720, 760),
        _shot("street", 960, 740, 640),
        Shot("entry"),
        _shot("entry", 690, 670, 500),
        _shot("entry", 1030, 740, 480),
        _shot("entry", 836, 530, 520),
        _shot("entry", 960, 150, 640, "alarm_silent"),
        _shot("entry", 960, 150, 760, "alarm_silent"),
        Shot("living"),
        _shot("living", 1540, 380, 560),
        _shot("living", 985, 860, 520),
        _shot("living", 950, 940, 620),
        _shot("living", 1086, 400, 640),
        _shot("living", 960, 680, 760, "radiator_warm"),
        Shot("kitchen"),
        _shot("kitchen", 970, 580, 480),
        _shot("kitchen", 880, 550, 560),
        _shot("kitchen", 1270, 600, 560),
        _shot("kitchen", 1270, 570, 620, "burners_lit"),
        _shot("kitchen", 1270, 710, 560, "oven_open"),
        _shot("kitchen", 1270, 720, 700, "oven_open"),
        _shot("kitchen", 1270, 360, 560),
        _shot("kitchen", 330, 590, 520, "fridge_open"),
        _shot("kitchen", 990, 700, 600, "dishwasher_open"),
        Shot("bathroom"),
        _shot("bathroom", 650, 650, 480),
        _shot("bathroom", 640, 590, 560),
        _shot("bathroom", 640, 560, 480),
        _shot("bathroom", 640, 540, 660),
        _shot("bathroom", 1140, 620, 560, "flushing"),
        _shot("bathroom", 640, 150, 620),
        _shot("bathroom", 1115, 140, 620),
        Shot("bedroom"),
        _shot("bedroom", 640, 390, 600),
        _shot("bedroom", 570, 880, 640),
        _shot("bedroom", 760, 860, 1000),
        _shot("bedroom", 982, 380, 520),
        Shot("balcony"),
        _shot("balcony", 1160, 620, 1200),
        _shot("balcony", 560, 950, 560),
        Shot("keys"),
        _shot("keys", 1350, 660, 900),
        _shot("keys", 1100, 560, 1500),
        _shot("street", 960, 600, 1500),
    ),
)

WALKS = (MOVE_IN, MOVE_OUT)
