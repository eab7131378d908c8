"""Whatever two speakers call one flaw: by any words of one list, at any words of one place, in any unit."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from tests.compare.walks import became, terms

THINGS = terms().likeness.places.things
SIDES = terms().likeness.places.sides
SAME = [[kind, kind] for kind in ("scuff", "stain", "hole", "burn", "loose", "mold")]
KINDS = [*terms().likeness.conditions.alike.values(), *SAME]
COMPONENTS = ("wall", "floor", "cabinet", "vanity", "closet_door", "furniture")
NEAR = ("by the {}", "next to the {}", "near the {}", "beside the {}", "close to the {}")
UNITS = {"in": 2.54, "cm": 1.0, "mm": 0.1, "ft": 30.48}

kinds = st.sampled_from(KINDS).flatmap(lambda names: st.tuples(st.sampled_from(names), st.sampled_from(names)))
things = st.sampled_from(sorted(THINGS)).flatmap(
    lambda name: st.tuples(st.sampled_from(THINGS[name]), st.sampled_from(THINGS[name]))
)
sides = st.sampled_from(sorted(SIDES)).flatmap(
    lambda name: st.tuples(st.sampled_from(SIDES[name]), st.sampled_from(SIDES[name]))
)


@st.composite
def retellings(draw: st.DrawFn) -> tuple[str, str]:
    """Two lines that tell one flaw, as `pair_files` reads them."""
    kind, place, size = draw(kinds), draw(st.one_of(things, sides)), draw(st.floats(1, 60))
    lines = []
    for which in (0, 1):
        unit = draw(st.sampled_from(sorted(UNITS)))
        told = draw(st.sampled_from(["", f" ~{size / UNITS[unit]:.2f}{unit}"]))
        where = draw(st.sampled_from(NEAR)).format(place[which])
        lines.append(f"{kind[which]}{told} @{where}@ | Here {where}.")
    return lines[0], lines[1]


@given(st.sampled_from(COMPONENTS), retellings())
def test_a_flaw_in_other_words_at_the_same_place_is_never_new(component: str, told: tuple[str, str]) -> None:
    before, after = (f"[bedroom]\n1 {component} {one}" for one in told)
    (change,) = became(before, after)
    assert change.partition(" ")[0] in {"unchanged", "worse", "better"}, told
