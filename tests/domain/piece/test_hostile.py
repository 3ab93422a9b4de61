"""Templates may come from outside: whatever stands in them, they build or are refused in words."""

from __future__ import annotations

import copy
from importlib import import_module
from random import Random
from typing import Any

import pytest

from builders import demo_shop, demo_shop_metric
from small_templates import trestle
from yardwright.domain.errors import BadFormula, BadTemplate, Refused
from yardwright.domain.piece import INLINE, Allowance, build, edges, faces
from yardwright.domain.shop import Shop
from yardwright.domain.template import read_template

PLACES = ["0*inch", "length", "-length", "height*100", "0*inch - 1*mm", "post.width", "0.01*mm", "under/2"]
WAYS: list[Any] = ["left", "up", "back", ["0.3", "1", "0.2"], ["1", "1", "1"], ["0", "0", "0"]]
ENDS: list[Any] = [
    ["level", "plumb"],
    ["plumb", "plumb"],
    [{"angle": "45*deg"}, {"angle": "-45*deg"}],
    [{"angle": "80*deg", "about": "wide"}, "square"],
    [{"angle": "90*deg"}, "square"],
]
CUTS: list[Any] = [
    {
        "kind": "outline",
        "points": [
            ["0*mm", "0*mm"],
            ["length", "0*mm"],
            ["0*mm", "0*mm"],
            {"to": ["5*mm", "100*mm"], "through": ["6*mm", "50*mm"]},
        ],
    },
    {
        "kind": "outline",
        "points": [
            ["0*mm", "0*mm"],
            ["length", "0*mm"],
            ["length", "50*mm"],
            {"to": ["0*mm", "50*mm"], "through": ["length/2", "50.001*mm"]},
        ],
    },
    {"kind": "plane", "at": ["length/2", "0*mm", "0*mm"], "normal": ["1", "1", "0"]},
    {"kind": "plane", "at": ["length/2", "0*mm", "0*mm"], "normal": ["0", "0", "0"]},
    {"kind": "hole", "at": ["10*mm", "10*mm"], "diameter": "0*mm"},
    {"kind": "hole", "at": ["10*mm", "10*mm"], "diameter": "900*mm"},
    {"kind": "pocket", "from": ["0*mm", "0*mm", "0*mm"], "to": ["0*mm", "5*mm", "5*mm"]},
    {"kind": "pocket", "from": ["5*mm", "0*mm", "0*mm"], "to": ["90*mm", "50*mm", "9*mm"]},
]
ANYTHING: list[Any] = [
    "",
    "x" * 700,
    [],
    {},
    None,
    True,
    -1,
    3.5,
    "'x'",
    ["0", "0", "0"],
    {"against": "Post"},
]


def spots(data: Any, way: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """Every place in a structure that holds a value."""
    rows = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    return [w for key, value in rows for w in ((*way, key), *spots(value, (*way, key)))]


@pytest.mark.parametrize("seed", range(120))
def test_a_member_turned_and_cut_at_random_builds_with_its_true_volume_or_is_refused(seed: int) -> None:
    random, data = Random(seed), copy.deepcopy(trestle())
    for _ in range(random.randint(1, 3)):
        member = random.choice(data["members"])
        key, values = random.choice(
            [("wide", WAYS), ("thick", WAYS), ("ends", ENDS), ("width", PLACES), ("thickness", PLACES)]
        )
        member[key] = copy.deepcopy(random.choice(values))
        member["cuts"] = [copy.deepcopy(random.choice(CUTS))]
        member[random.choice(["from", "to"])][random.randrange(3)] = random.choice(PLACES)
    try:
        piece = build(read_template(data), {}, {}, demo_shop(), "in")
    except Refused as refused:
        assert all(f.detail for f in refused.faults)
        return
    for m in piece.members:
        assert faces(m) and edges(m)
        assert m.volume_mm3 == pytest.approx(float(m.solid.kernel.volume()), rel=1e-6, abs=1.0)


@pytest.mark.parametrize("seed", range(120))
def test_anything_anywhere_is_read_or_refused(seed: int) -> None:
    random, data = Random(seed), copy.deepcopy(trestle())
    way = random.choice(spots(data))
    at: Any = data
    for key in way[:-1]:
        at = at[key]
    at[way[-1]] = copy.deepcopy(random.choice(ANYTHING))
    try:
        build(read_template(data), {}, {}, demo_shop(), "in")
    except Refused as refused:
        assert all(f.detail for f in refused.faults)


def test_a_lid_turns_once_at_most() -> None:
    data = trestle()
    data["groups"]["lid"]["opens"] = "1000000*deg"
    with pytest.raises(BadTemplate, match="more than a full turn"):
        build(read_template(data), {}, {}, demo_shop(), "in")


def test_the_work_of_all_formulas_together_is_bounded() -> None:
    data = trestle()
    heavy = " + ".join(["0*inch"] * 40)
    data["members"][2] |= {
        "repeat": [{"index": "n", "count": "590"}],
        "from": [heavy, heavy, f"n*inch + {heavy}"],
        "to": [f"length + {heavy}", heavy, f"n*inch + {heavy}"],
        "width": f"1*inch + {heavy}",
    }
    with pytest.raises(BadFormula, match="more work than one template may ask for"):
        build(read_template(data), {}, {}, demo_shop(), "in")


@pytest.mark.parametrize("shop", [demo_shop(), demo_shop_metric()], ids=["in", "mm"])
@pytest.mark.parametrize("name", sorted(demo_shop().templates))
def test_each_of_ours_with_its_last_options_at_its_largest_may_be_sent_with_a_job(
        name: str, shop: Shop) -> None:
    template = shop.templates[name]
    largest = {d.name: d.most_nm for d in template.dimensions}
    last = {c.name: c.options[-1][0] for c in template.choices}
    assert build(template, largest, last, shop, shop.units, INLINE).members


def test_a_piece_none_of_whose_members_is_there_is_refused_in_words() -> None:
    data = trestle()
    for member in data["members"]:
        member["when"] = "length < 1*mm"
    with pytest.raises(BadTemplate, match="none of them is there with these sizes and choices"):
        build(read_template(data), {}, {}, demo_shop(), "in")


def test_copies_without_number_are_refused_before_any_is_placed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("yardwright.domain.piece.members.place", None)
    data = trestle()
    data["members"][2]["repeat"] = [{"index": "i", "count": "590"}, {"index": "j", "count": "90"}]
    with pytest.raises(BadTemplate, match="more than 600 members"):
        build(read_template(data), {}, {}, demo_shop(), "in", INLINE)
    data["members"][2]["repeat"] = [{"index": "i", "count": "590"}]
    with pytest.raises(BadTemplate, match="more work than one template may ask for"):
        build(read_template(data), {}, {}, demo_shop(), "in", INLINE)


def test_members_that_share_room_are_told_before_contacts_are_looked_for(
        monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(import_module("yardwright.domain.piece.build"), "contacts", None)
    data = trestle()
    data["members"].append(copy.deepcopy(data["members"][1]) | {"name": "Second beam"})
    with pytest.raises(BadTemplate, match="Beam and Second beam overlap") as refused:
        build(read_template(data), {}, {}, demo_shop(), "in", INLINE)
    assert {f.pointer for f in refused.value.faults} <= {f"/members/{k}" for k in range(4)}


def test_a_cut_of_many_chords_is_counted_before_the_kernel_makes_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("yardwright.domain.piece.solid.of_kernel", None)
    arcs = [{"to": [f"{900 - 24 * k}*mm", f"{60 + k % 2}*mm"], "through": [f"{912 - 24 * k}*mm", "80*mm"]}
            for k in range(1, 37)]
    data = trestle()
    points = [["0*mm", "0*mm"], ["900*mm", "0*mm"], *arcs]
    data["members"][2]["cuts"] = [{"kind": "outline", "points": points}]
    with pytest.raises(BadTemplate, match="more work than one template may ask for"):
        build(read_template(data), {}, {}, demo_shop(), "in", Allowance(10_000))
