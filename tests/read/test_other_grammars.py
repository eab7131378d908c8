"""English built as other languages and regions build it: what is left out, put elsewhere or said twice."""

from __future__ import annotations

import pytest

from narrate2report.records.findings import Entry
from tests.read.told import Narrator


def _said(entry: Entry) -> str:
    """An entry in short: `wall hole`, `no sink leak`, `perhaps wall damp`, `lock fails`."""
    if entry.kind == "check":
        return f"{entry.component} {entry.outcome}"
    sure = {"absent": "no ", "possible": "perhaps "}.get(entry.assertion or "", "")
    return f"{sure}{entry.component} {entry.condition}"


def _read(entries: Narrator, room: str, line: str) -> set[str]:
    told = entries(line, room=room).said_from(1)
    return {_said(one) for one in told if one.kind in {"condition", "check"}}


def _holds(entries: Narrator, room: str, line: str, *wanted: str) -> None:
    """That exactly these are read, where `a|b` is met by either."""
    read = _read(entries, room, line)
    missed = [want for want in wanted if not read & set(want.split("|"))]
    asked = {one for want in wanted for one in want.split("|")}
    assert not missed, f"{line}\nread {sorted(read)}, missed {missed}"
    assert read <= asked, f"{line}\nread {sorted(read)}, wanted {wanted}"


@pytest.mark.parametrize(
    ("room", "line", "wanted"),
    [
        ("bedroom", "Lock not work.", ("lock fails|lock not_working",)),
        ("bedroom", "Door of this room not lock.", ("door not_working|door fails|lock fails",)),
        ("kitchen", "Oven door not close.", ("oven_door sticking|oven_door fails",)),
        ("kitchen", "Dishwasher no start.", ("dishwasher not_working|dishwasher fails",)),
        ("living room", "Blind no go down.", ("blinds sticking|blinds fails",)),
        ("bathroom", "Shower drain not drain.", ("drain clog|drain fails",)),
        ("bedroom", "Heater no get warm.", ("heater not_working|heater fails",)),
        ("living room", "This socket no have power.", ("outlet not_working|outlet fails",)),
        ("living room", "This socket does not have power.", ("outlet not_working|outlet fails",)),
        ("living room", "Outlet by the window no electric.", ("outlet not_working|outlet fails",)),
        ("laundry", "Dryer not spin.", ("dryer not_working|dryer fails",)),
        ("kitchen", "Range hood no pull.", ("range_hood not_working|range_hood fails",)),
        ("bathroom", "The fan, it not turn on.", ("exhaust_fan not_working|exhaust_fan fails",)),
    ],
)
def test_a_denied_verb_without_its_auxiliary(room: str, line: str, wanted: tuple[str, ...], entries: Narrator) -> None:
    read = _read(entries, room, line)
    assert read & {one for want in wanted for one in want.split("|")}, f"{line}: {sorted(read)}"
    assert not {one for one in read if one.endswith((" works", " good"))}, f"{line}: {sorted(read)}"


@pytest.mark.parametrize(
    ("room", "line"),
    [
        ("kitchen", "Dishwasher not run."),
        ("kitchen", "Oven not tested."),
        ("living room", "Fireplace not lit."),
    ],
)
def test_what_was_left_alone_is_no_failure(room: str, line: str, entries: Narrator) -> None:
    read = _read(entries, room, line)
    assert len(read) == 1
    assert next(iter(read)).endswith("not_tested")


@pytest.mark.parametrize(
    ("room", "line"),
    [
        ("bathroom", "Please not put the paper in the toilet."),
        ("bathroom", "Not put paper in the toilet, it get block."),
        ("kitchen", "You not put hot pan on the counter."),
        ("kitchen", "Don't open the oven when it is hot."),
        ("kitchen", "Not use the metal sponge on the sink."),
    ],
)
def test_an_order_without_its_auxiliary_is_no_finding(room: str, line: str, entries: Narrator) -> None:
    assert not _read(entries, room, line)


@pytest.mark.parametrize(
    ("room", "line", "wanted"),
    [
        ("kitchen", "There is not humidity here.", ("no room_general damp",)),
        ("bathroom", "There are not scratches in the bathtub.", ("no bathtub scratch",)),
        ("bathroom", "Not there is any crack in the basin.", ("no sink crack",)),
        ("bedroom", "There are not curtains.", ("curtain missing",)),
        ("bathroom", "There is not towel bar.", ("towel_bar missing",)),
        ("bathroom", "On the mirror there is not nothing.", ()),
        ("bedroom", "The wall doesn't have no holes.", ("no wall hole",)),
        ("bathroom", "The faucet don't drip no more.", ("no faucet leak",)),
        ("bathroom", "The tub ain't got a scratch on it.", ("no bathtub scratch",)),
        ("bathroom", "The tap doesnae drip at all.", ("no faucet leak",)),
        ("bathroom", "There's nowt wrong with the bath.", ("bathtub good",)),
        ("bathroom", "Ain't nothing wrong with that toilet.", ("toilet good",)),
        ("bathroom", "There ain't no mold on this tile.", ("no tile mold",)),
    ],
)
def test_a_denial_built_otherwise(room: str, line: str, wanted: tuple[str, ...], entries: Narrator) -> None:
    _holds(entries, room, line, *wanted)


@pytest.mark.parametrize(
    ("room", "line", "wanted"),
    [
        ("bedroom", "The window doesnae shut.", "window sticking|window fails"),
        ("kitchen", "The oven willnae light.", "oven not_working|oven fails"),
        ("living room", "The door isnae straight.", "door misaligned"),
        ("bedroom", "The window doesn't half stick.", "window sticking"),
        ("kitchen", "That burner don't light no more.", "burner fails|burner not_working"),
    ],
)
def test_a_fault_in_regional_grammar(room: str, line: str, wanted: str, entries: Narrator) -> None:
    assert _read(entries, room, line) & set(wanted.split("|")), line


@pytest.mark.parametrize("where", ["Near of the tub", "Next of the tub", "Close of the tub", "Behind of the tub"])
def test_a_preposition_with_of_still_tells_only_where(where: str, entries: Narrator) -> None:
    _holds(entries, "bathroom", f"{where} there is a crack in the tile.", "tile crack")
    _holds(entries, "bathroom", f"A tile is cracked {where.lower()}.", "tile crack")


def test_the_inside_of_a_thing_is_still_that_thing(entries: Narrator) -> None:
    _holds(entries, "kitchen", "The inside of the oven is dirty.", "oven dirty")


@pytest.mark.parametrize(
    ("room", "line", "wanted"),
    [
        ("bathroom", "In the tub there is a scratch.", "bathtub scratch"),
        ("bathroom", "In the mirror is a crack.", "mirror crack"),
        ("living room", "On the ceiling there are two stains.", "ceiling stain"),
        ("living room", "In the floor is one long scratch.", "floor scratch"),
        ("kitchen", "On the counter there is a burn.", "countertop burn"),
        ("hallway", "Across the door there's a crack.", "door crack"),
    ],
)
def test_the_place_may_come_first(room: str, line: str, wanted: str, entries: Narrator) -> None:
    _holds(entries, room, line, wanted)


@pytest.mark.parametrize(
    ("room", "line", "wanted"),
    [
        ("bedroom", "Wall no hole, no stain, all clean.", ("no wall hole", "no wall stain", "wall clean")),
        ("kitchen", "No crack, no burn, everything clean.", ("no room_general crack|no countertop crack",
         "no room_general burn|no countertop burn", "room_general clean|countertop clean")),
    ],
)  # fmt: skip
def test_praise_after_denied_flaws_is_no_denied_praise(
    room: str, line: str, wanted: tuple[str, ...], entries: Narrator
) -> None:
    _holds(entries, room, line, *wanted)


@pytest.mark.parametrize(
    ("room", "line"),
    [
        ("bathroom", "The owner has had it cleaned."),
        ("bathroom", "We had it fixed, the toilet."),
        ("kitchen", "They've had it since March, the fridge."),
    ],
)
def test_having_had_it_done_is_not_the_end_of_a_thing(room: str, line: str, entries: Narrator) -> None:
    assert not {one for one in _read(entries, room, line) if one.endswith("broken")}


@pytest.mark.parametrize(
    ("room", "line", "wanted"),
    [
        ("bathroom", "Loo seat's had it.", "toilet_seat broken"),
        ("bedroom", "Door wants a good tug.", "door sticking"),
        ("bedroom", "The sash wants a good shove.", "window sticking"),
        ("bedroom", "The drawer goes hard.", "drawer sticking|furniture sticking"),
        ("entry", "The lock turns with difficulty.", "lock sticking"),
        ("bedroom", "The window closes bad.", "window misaligned"),
        ("living room", "The table dances a bit.", "furniture loose"),
        ("kitchen", "Oven's minging.", "oven dirty"),
        ("living room", "The plaster's blown under the window.", "wall loose"),
        ("living room", "The fan is making sound.", "ceiling_fan noise"),
        ("living room", "The fan makes a strange sound.", "ceiling_fan noise"),
    ],
)
def test_what_a_region_or_a_translation_says_of_a_flaw(room: str, line: str, wanted: str, entries: Narrator) -> None:
    read = _read(entries, room, line)
    assert read & set(wanted.split("|")), f"{line}: {sorted(read)}"
    assert not {one for one in read if one.endswith((" works", " good"))}, f"{line}: {sorted(read)}"


@pytest.mark.parametrize(
    ("room", "line", "wanted"),
    [
        ("bedroom", "The blind lacks one slat.", ("blinds missing",)),
        ("kitchen", "It misses one shelf in the fridge.", ("refrigerator_shelf missing",)),
        ("kitchen", "Lack of one shelf in the fridge.", ("refrigerator_shelf missing",)),
        ("bathroom", "This basin not have plug.", ("drain_stopper missing",)),
        ("bathroom", "The toilet doesn't have seat.", ("toilet_seat missing",)),
        ("bedroom", "Curtains I took to wash, so now there are not.", ("curtain missing",)),
        ("bathroom", "Towel bar, there is not.", ("towel_bar missing",)),
    ],
)
def test_a_verb_of_lacking(room: str, line: str, wanted: tuple[str, ...], entries: Narrator) -> None:
    _holds(entries, room, line, *wanted)


@pytest.mark.parametrize(
    ("room", "line"),
    [
        ("kitchen", "If the fridge lacks a shelf you tell me."),
        ("kitchen", "We don't have time for the oven."),
        ("kitchen", "You do not have the key."),
        ("living room", "I miss the old sofa."),
        ("living room", "Scratches, there are not."),
        ("hallway", "No carpet here, there is not."),
    ],
)
def test_what_is_lacked_by_somebody_or_may_be_absent(room: str, line: str, entries: Narrator) -> None:
    assert not {one for one in _read(entries, room, line) if one.endswith("missing")}, line


@pytest.mark.parametrize(
    "aside", ["how do you say", "how you say it", "how to say", "how is it called", "I don't know the word"]
)
def test_looking_for_a_word_changes_nothing(aside: str, entries: Narrator) -> None:
    _holds(
        entries,
        "bathroom",
        f"The sink is fine but, {aside}, the stopper is broken.",
        "sink good",
        "drain_stopper broken",
    )
    _holds(entries, "bathroom", f"The mirror has, {aside}, a crack in the corner.", "mirror crack")


@pytest.mark.parametrize(
    ("room", "line", "wanted"),
    [
        ("kitchen", "Four gas rings on the hob, nothing doing on the front right.", "burner fails|burner not_working"),
        ("kitchen", "The cooktop works, only the left back does not get warm.", "burner fails|burner not_working"),
        ("kitchen", "On the stove the rear right doesn't light.", "burner fails|burner not_working"),
    ],
)
def test_a_burner_named_by_its_corner(room: str, line: str, wanted: str, entries: Narrator) -> None:
    assert _read(entries, room, line) & set(wanted.split("|")), line


def test_a_corner_of_the_stove_is_no_burner(entries: Narrator) -> None:
    read = _read(entries, "kitchen", "The stove has a scratch on the front left corner.")
    assert read == {"range scratch"}


def test_a_bare_no_denies_nothing_that_follows(entries: Narrator) -> None:
    assert "mirror crack" in _read(entries, "bathroom", "The mirror, is it whole? No, cracked.")


@pytest.mark.parametrize(
    ("room", "line", "wanted"),
    [
        ("kitchen", "The rubber of the fridge door is torn.", ("door_gasket tear",)),
        ("living room", "The table has a mark of glass.", ("furniture mark",)),
        ("kitchen", "From this tap water is not coming.", ("faucet fails|faucet not_working",)),
        ("garage", "The garage door won't come down on the button.", ("garage_door sticking|garage_door not_working",)),
        ("living room", "The air conditioner is cold but some water is dripping inside.",
         ("air_conditioner works", "air_conditioner leak")),
        ("kitchen", "First drawer is good, the third one is coming off its rail.",
         ("drawer good", "drawer misaligned")),
        ("kitchen", "Wall units are straight.", ("cabinet good",)),
        ("stairs", "The stair carpet's thin.", ("carpet worn|stair worn",)),
    ],
)  # fmt: skip
def test_what_a_flaw_is_of(room: str, line: str, wanted: tuple[str, ...], entries: Narrator) -> None:
    _holds(entries, room, line, *wanted)


@pytest.mark.parametrize(
    ("line", "component"),
    [("The slider out to the balcony is stiff.", "sliding_door"), ("The door to the garage sticks.", "door")],
)
def test_a_door_that_leads_to_a_room_is_spoken_of_from_this_side(line: str, component: str, entries: Narrator) -> None:
    told = entries(line, room="living room")
    assert [(one.room, one.component, one.condition) for one in told.entries] == [
        ("living_room", component, "sticking")
    ]


@pytest.mark.parametrize(
    ("room", "line", "wanted"),
    [
        ("bedroom", "Carpets okay in here.", ("carpet good",)),
        ("bedroom", "Closet rods down.", ("closet_rod loose",)),
        ("entry", "And the door stops screwed to the skirting and it's tight.", ("door_stop good",)),
        ("hallway", "Closet, rods there, doors off the track.", ("closet_rod present", "closet_door misaligned")),
        ("hallway", "Hall closet, bifolds off, pins broken.", ("closet_door misaligned", "closet_door broken")),
        ("living room", "The screens in it.", ("window_screen present",)),
        ("bathroom", "The towel bars there and the shower heads loose.", ("towel_bar present", "shower_head loose")),
    ],
)
def test_an_s_with_no_verb_after_it_is_the_verb(
    room: str, line: str, wanted: tuple[str, ...], entries: Narrator
) -> None:
    _holds(entries, room, line, *wanted)


@pytest.mark.parametrize(
    ("room", "line", "described"),
    [
        ("kitchen", "The counter tops quartz.", "countertop quartz"),
        ("kitchen", "The backsplashes subway tile.", "backsplash subway tile"),
        ("bathroom", "Vanities the gray one.", "vanity gray"),
    ],
)
def test_an_s_before_what_a_thing_is_is_the_verb(room: str, line: str, described: str, entries: Narrator) -> None:
    told = [one for one in entries(line, room=room).entries if one.attribute is not None]
    assert [f"{one.component} {one.attribute.value}" for one in told if one.attribute] == [described]


@pytest.mark.parametrize(
    "line",
    ["Blinds down.", "Tiles on the floor.", "All the handles on the drawers.", "The gate sticks a little in the wet?"],
)
def test_a_plural_with_no_verb_may_tell_nothing(line: str, entries: Narrator) -> None:
    assert not _read(entries, "living room", line)


FLAWED = [
    ("bathroom", "mirror", "a crack", "mirror crack"),
    ("kitchen", "counter", "a burn", "countertop burn"),
    ("bedroom", "wall", "some dampness", "wall damp"),
    ("living room", "sofa", "a stain", "furniture stain"),
    ("entry", "front door", "two holes", "door hole"),
    ("bathroom", "flush tank", "a leak", "toilet_tank leak"),
]


@pytest.mark.parametrize(("room", "thing", "flaw", "wanted"), FLAWED)
def test_what_is_there_told_after_it(room: str, thing: str, flaw: str, wanted: str, entries: Narrator) -> None:
    bare = flaw.removeprefix("a ").removeprefix("some ")
    being = "are" if bare.endswith("s") and not bare.endswith("ss") else "is"
    _holds(entries, room, f"{bare.capitalize()} {being} there on the {thing}.", wanted)
    _holds(entries, room, f"{bare.capitalize()} {being} also there in this {thing} only.", wanted)
    _holds(entries, room, f"The {thing} is having {flaw}.", wanted)
    _holds(entries, room, f"Any {bare} is not there on the {thing}.", f"no {wanted}")
    for asked in (
        f"If {bare} {being} there on the {thing} you tell me.",
        f"I will see whether any {bare} {being} there on the {thing}.",
        f"Let me check {bare} {being} there on the {thing} or not.",
        f"Is there {flaw} on the {thing}?",
    ):
        assert not _read(entries, room, asked), asked


@pytest.mark.parametrize(
    ("room", "line", "wanted"),
    [
        ("bedroom", "Some swelling must be there in the door.", ("perhaps door warp",)),
        ("bathroom", "Leakage is not there.", ("no pipe leak",)),
        ("living room", "All the sockets are having supply.", ("outlet works",)),
        ("living room", "This socket is not having current.", ("outlet fails|outlet not_working",)),
        ("living room", "Has a hole the carpet, near of the door.", ("carpet hole",)),
        ("bathroom", "The geyser is fine, one sticker is there.", ("water_heater good",)),
        ("entry", "The chain is there but it is broken.", ("lock broken",)),
        ("hallway", "Battery is not there in the smoke alarm.", ("smoke_alarm missing",)),
        ("kitchen", "Fridge light is coming.", ("light_bulb works",)),
        ("kitchen", "The oven works but the light inside no.", ("oven works", "light_bulb fails")),
        ("living room", "The lamp is burn.", ("light_fixture burned_out",)),
        ("bathroom", "The door of shower is not close.", ("shower_door sticking",)),
        ("kitchen", "Counter is having small small scratches.", ("countertop scratch",)),
        ("living room", "The fan is making a tak-tak sound.", ("ceiling_fan noise",)),
        ("bathroom", "The window is not getting locked.", ("window not_working|window fails",)),
        ("kitchen", "Handle is coming out.", ("door_knob loose",)),
    ],
)  # fmt: skip
def test_a_state_put_as_another_grammar_puts_it(
    room: str, line: str, wanted: tuple[str, ...], entries: Narrator
) -> None:
    _holds(entries, room, line, *wanted)


@pytest.mark.parametrize(
    ("room", "line", "wanted"),
    [
        ("bathroom", "Flush I am pressing, water is coming.", ("toilet works",)),
        ("bathroom", "Tap I am opening. Water is coming.", ("faucet works",)),
        ("bathroom", "Water is coming in full force.", ("faucet works",)),
        ("bathroom", "Water is coming very less in the shower.", ("shower low_pressure|faucet low_pressure",)),
        ("bathroom", "Water is going very slowly.", ("drain slow_drain",)),
        ("bathroom", "Water is falling from the geyser.", ("water_heater leak",)),
        ("bathroom", "Flush is not working.", ("toilet not_working",)),
        ("bathroom", "Water is not stopping in the tank.", ("toilet_tank running",)),
        ("entry", "I am turning the key in the lock, it is smooth.", ("lock works",)),
        ("entry", "I am pressing the intercom. Yes, he is hearing me.", ("intercom works",)),
        ("kitchen", "The fridge is off since yesterday, so cooling I cannot confirm.", ("refrigerator not_tested",)),
    ],
)
def test_a_trial_told_by_what_is_coming(room: str, line: str, wanted: tuple[str, ...], entries: Narrator) -> None:
    _holds(entries, room, line, *wanted)


@pytest.mark.parametrize(
    ("room", "line"),
    [
        ("kitchen", "The neighbour is having a problem with his tap."),
        ("living room", "He is having lunch."),
        ("bathroom", "I am having a look at the shower."),
        ("bathroom", "When water is not coming, you call the watchman."),
        ("living room", "Neighbour's wall is having crack."),
        ("kitchen", "Cook is coming daily at eight."),
        ("living room", "Don't put nails, holes will be there."),
    ],
)
def test_what_somebody_is_having_or_who_is_coming(room: str, line: str, entries: Narrator) -> None:
    assert not _read(entries, room, line), line
