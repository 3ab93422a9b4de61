"""What must hold of every piece: units change nothing, what is spoilt is found, parts add up to the whole."""

from __future__ import annotations

import copy
import tomllib
from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builders import DATA, INCH, demo_shop
from yardwright import quoting
from yardwright.domain.errors import Refused
from yardwright.domain.job import Customer, Item, Job
from yardwright.domain.measure import Writer, read
from yardwright.domain.piece import build, faults_of
from yardwright.domain.site import Site
from yardwright.domain.template import read_template

RAW: dict[str, Any] = {path.stem: tomllib.loads(path.read_text(encoding="utf-8"))
                       for path in (DATA / "templates").glob("*.toml")}
NAMES = st.sampled_from(sorted(RAW))


@st.composite
def sized(draw: st.DrawFn) -> tuple[str, dict[str, int], dict[str, str]]:
    """A template of ours with sizes in range, to the sixteenth of an inch, and choices."""
    name = draw(NAMES)
    template = demo_shop().templates[name]
    sixteenth = INCH // 16
    sizes = {d.name: sixteenth * draw(st.integers(-(-d.least_nm // sixteenth), d.most_nm // sixteenth))
             for d in template.dimensions}
    chosen = {c.name: draw(st.sampled_from([o for o, _ in c.options])) for c in template.choices}
    return name, sizes, chosen


def job(name: str, sizes: dict[str, int], chosen: dict[str, str], units: str, quantity: int = 1) -> Job:
    return Job("P-1", units, date(2026, 11, 25), Customer(), Site(), (Item(name, sizes, chosen, quantity),))


@settings(max_examples=12, deadline=None, derandomize=True)
@given(sized())
def test_the_same_job_in_inches_or_millimetres_gives_the_same_piece_and_price(asked: Any) -> None:
    name, sizes, chosen = asked
    inches = {key: read(Writer("in").length(nm), "in").nm for key, nm in sizes.items()}
    assert inches == sizes                       # a sixteenth is written and read without loss
    made = [quoting.make_quote(job(name, sizes, chosen, units), demo_shop()) for units in ("in", "mm")]
    one, other = (quote.items[0].piece for quote in made)
    assert [m.key for m in one.members] == [m.key for m in other.members]
    assert all(a.frame == b.frame and a.volume_mm3 == b.volume_mm3
               for a, b in zip(one.members, other.members, strict=True))
    assert made[0].price.total == made[1].price.total
    assert made[0].items[0].mass_kg == made[1].items[0].mass_kg


@settings(max_examples=50, deadline=None, derandomize=True)
@given(NAMES, st.data())
def test_a_clash_planted_in_a_template_is_found(name: str, data: st.DataObject) -> None:
    """One rule's members are moved: the first of them lies in the middle of another board, or far off."""
    raw = copy.deepcopy(RAW[name])
    made = build(read_template(raw), {}, {}, demo_shop(), "in").members
    boards = [m for m in made if m.material == "board"]
    one = data.draw(st.sampled_from(boards))
    other = data.draw(st.sampled_from([m for m in boards if m.name != one.name]))
    far = data.draw(st.sampled_from([0.0, 0.0, 2540.0]))
    rule = next(m for m in raw["members"] if m["name"] == one.name)
    first = next(m for m in boards if m.name == one.name)
    for end in ("from", "to"):
        rule[end] = [f"{formula} + ({b - a + far:.6f})*mm" if b - a + far >= 0
                     else f"{formula} - {a - b - far:.6f}*mm"
                     for formula, a, b in zip(rule[end], first.centre, other.centre, strict=True)]
    try:
        piece = build(read_template(raw), {}, {}, demo_shop(), "in")
    except Refused:
        return
    found = list(faults_of(piece, demo_shop()))
    assert found, f"{first.key} moved to {other.key} by {far} went unseen"
    whole = first.solid.convex and other.solid.convex and "cuts" not in rule     # no cut that moves along
    if not far and "against" not in str(rule.get("ends")) and whole:
        assert any(first.key in (c.first, c.second) for c in piece.clashes)


@settings(max_examples=5, deadline=None, derandomize=True)
@given(sized(), st.integers(1, 6))
def test_one_piece_more_never_costs_less(asked: Any, quantity: int) -> None:
    few, more = (quoting.make_quote(job(*asked, "in", n), demo_shop()) for n in (quantity, quantity + 1))
    assert more.price.total.minor >= few.price.total.minor
    assert more.labour.hours >= few.labour.hours


@settings(max_examples=20, deadline=None, derandomize=True)
@given(sized())
def test_members_add_up_to_the_weight_and_the_centre_lies_within(asked: Any) -> None:
    name, sizes, chosen = asked
    piece = build(demo_shop().templates[name], sizes, chosen, demo_shop(), "in")
    assert piece.mass_kg == pytest.approx(sum(m.volume_mm3 * 1e-9 * m.density_kg_m3 for m in piece.members))
    for k in range(3):
        assert piece.closed.low[k] < piece.centre[k] < piece.closed.high[k]
        moment = sum(m.mass_kg * m.centre[k] for m in piece.members)
        assert piece.centre[k] == pytest.approx(moment / piece.mass_kg)
    halved = replace(piece, members=piece.members[::2])
    assert sum(m.mass_kg for m in halved.members) < piece.mass_kg
