"""Templates are read whole: every fault with its pointer, names nearly right with what was meant."""

from __future__ import annotations

from typing import Any

import pytest

from small_templates import changed, trestle
from yardwright.domain.errors import BadTemplate
from yardwright.domain.template import read_template


def faults(data: dict[str, Any]) -> dict[str, str]:
    with pytest.raises(BadTemplate) as refused:
        read_template(data)
    return {f.pointer: f.detail for f in refused.value.faults}


def test_a_good_template_is_read_with_its_formulas_checked() -> None:
    template = read_template(trestle(), "trestle.toml")
    assert template.id == "trestle" and template.source == "trestle.toml"
    assert [m.name for m in template.members] == ["Post", "Beam", "Lid board"]
    assert template.members[0].end[2].tree == ["name", "under"]
    assert template.dimensions[1].default_nm == {"in": 508_000_000, "mm": 508_000_000}
    assert template.fit.priority == ("length", "height")
    assert template.hardware[0].count.tree == 1


@pytest.mark.parametrize(
    ("path", "value", "pointer", "said"),
    [
        ("members/0/wyde", "right", "/members/0/wyde", "did you mean 'wide'"),
        ("members/0/wide", "rigth", "/members/0/wide", "did you mean 'right'"),
        ("members/0/board", "pots", "/members/0/board", "did you mean 'post'"),
        ("members/0/board", None, "/members/0", "board, sheet or roll"),
        ("members/2/group", "lit", "/members/2/group", "did you mean 'lid'"),
        ("members/1/ends/0", {"against": "Psot"}, "/members/1/ends/0/against", "did you mean 'Post'"),
        ("members/1/ends/0", "levle", "/members/1/ends/0", "did you mean 'level'"),
        ("members/0/name", "Post 3", "/members/0/name", "no digit"),
        ("members/2/name", "Post", "/members/2/name", "a second member 'Post'"),
        ("members/0/to/2", "undre", "/members/0/to/2", "under"),
        ("members/0/to/2", "length*height", "/members/0/to/2", "area"),
        ("members/0/to", ["length"], "/members/0/to", "3 formulas"),
        ("members/0/cuts", [{"kind": "rond over"}], "/members/0/cuts/0/kind", "did you mean 'round over'"),
        (
            "members/0/cuts",
            [{"kind": "round over", "edges": "tpo", "radius": "3*mm"}],
            "/members/0/cuts/0/edges",
            "did you mean 'top'",
        ),
        (
            "members/0/cuts",
            [{"kind": "outline", "points": [["0*mm", "0*mm"]]}],
            "/members/0/cuts/0/points",
            "3 to 40 points",
        ),
        (
            "members/0/repeat",
            [{"index": "length", "count": "2"}],
            "/members/0/repeat/0/index",
            "already a name",
        ),
        ("joints/0/of", ["Seat bord"], "/joints/0/of", "no member 'Seat bord'"),
        ("joints/0/to", ["Pots*"], "/joints/0/to", "did you mean 'Post'"),
        ("joints/0/fasten", "srews", "/joints/0/fasten", "did you mean 'screws'"),
        ("joints/0/per_contact", None, "/joints/0", "say how many screws"),
        ("joints/0", {"name": "L", "of": ["Seat board"], "to": ["Post"], "fasten": "lags"}, "/joints/0",
         "say how many lags"),
        ("checks/0/members", ["Led*"], "/checks/0/members", "no member 'Led*'"),
        ("values/inch", "3*mm", "/values/inch", "cannot be a name"),
        ("values/length", "3*mm", "/values/length", "declared twice"),
        ("values/under", "hieght", "/values/under", "height"),
        ("dimensions/length/min", "20", "/dimensions/length/min", "20 in"),
        ("dimensions/length/max", "10 in", "/dimensions/length/max", "less than min"),
        ("dimensions/length/default", "70 in", "/dimensions/length/default", "outside"),
        ("choices/lid/default", "yse", "/choices/lid/default", "did you mean 'yes'"),
        ("default_timber", "oak", "/default_timber", "not in the list"),
        ("fit/envelope/height", "under", "/fit/envelope/height", "under"),
        ("fit/priority", ["lenght"], "/fit/priority", "did you mean 'length'"),
        ("overall/depth", None, "/overall/depth", "missing"),
        ("id", "Big Bench", "/id", "small letters"),
        ("membres", [], "/membres", "did you mean 'members'"),
        ("groups/lid/opens", "90", "/groups/lid/opens", "angle"),
        ("members/2/when", "lid == 'maybe'", "/members/2/when", "maybe"),
    ],
)
def test_what_is_wrong_is_told_with_its_pointer_and_what_would_be_right(
    path: str, value: Any, pointer: str, said: str
) -> None:
    found = faults(changed(path, value))
    assert pointer in found and said in found[pointer], found


def test_all_faults_are_told_at_once() -> None:
    data = changed("members/0/wide", "rigth")
    data["joints"][0]["fasten"] = "srews"
    data["sumary"] = "x"
    assert set(faults(data)) == {"/members/0/wide", "/joints/0/fasten", "/sumary"}


def test_a_wrong_value_is_told_once_and_not_again_where_it_is_used() -> None:
    assert list(faults(changed("values/under", "height - nothing"))) == ["/values/under"]


def test_a_fit_formula_may_not_use_the_stock() -> None:
    data = trestle()
    data["fit"]["envelope"]["depth"] = "top.width"
    assert "/fit/envelope/depth" in faults(data)


def test_more_members_than_one_template_may_have_are_refused() -> None:
    member = trestle()["members"][0]
    data = trestle(
        members=[member | {"name": f"Post {chr(65 + i % 26)}{'x' * (i // 26)}"} for i in range(201)]
    )
    assert "201 entries" in faults(data)["/members"]


def test_the_pointer_is_escaped_as_rfc_6901_says() -> None:
    data = trestle()
    data["a/b~c"] = 1
    assert "/a~1b~0c" in faults(data)


def test_data_that_is_no_table_at_all_is_refused() -> None:
    assert "must be a table" in faults([])[""]  # type: ignore[arg-type]
    assert "/members/0" in faults(trestle(members=["Post"]))


def test_a_piece_with_a_wing_says_at_which_end_how_long_and_how_deep() -> None:
    envelope = trestle()["fit"]["envelope"] | {"wing_length": "30*inch", "wing_depth": "10*inch"}
    side = "choose(lid == 'yes', 'left', 'none')"
    read = read_template(changed("fit", {"envelope": envelope, "wing": side}))
    assert read.fit.wing is not None and read.fit.wing.kind == "text"
    assert {"wing_length", "wing_depth"} < set(read.fit.envelope)
    assert "is missing" in faults(changed("fit", {"envelope": envelope}))["/fit/wing"]
    bare = trestle()["fit"]["envelope"]
    assert "wing_length and wing_depth" in faults(changed("fit", {"envelope": bare, "wing": "'left'"}))[
        "/fit/envelope"]
    assert "text is wanted" in faults(changed("fit", {"envelope": envelope, "wing": "length"}))["/fit/wing"]


def test_how_a_piece_stands_is_one_of_three_ways_the_ground_unless_said() -> None:
    assert read_template(trestle()).stands == "on the ground"
    assert read_template(trestle(stands="hung on a wall")).stands == "hung on a wall"
    assert faults(trestle(stands="hung on the wall")) == {
        "/stands": "'hung on the wall' is not known here; did you mean 'hung on a wall'?"}
