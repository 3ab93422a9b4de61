"""The case a trial shows first: the greatest clash, else the first fault that could be built."""

from __future__ import annotations

from builders import INCH, demo_shop
from small_templates import changed, trestle
from yardwright.documents import svg
from yardwright.documents.drawing.pointed import pointed_out
from yardwright.domain.piece.trial import trial
from yardwright.domain.piece.worst import named_in, worst
from yardwright.domain.template import read_template


def found(data: dict) -> object:
    template = read_template(data)
    return worst(trial(template, demo_shop(), 4), template, demo_shop())


def test_the_greatest_clash_is_shown_with_both_members() -> None:
    data = changed("members/1/to", ["length - post.width", "0*inch", "under - post.width"])
    data["members"][1]["from"] = ["post.width/2", "0*inch", "under - post.width"]
    data["members"][1]["ends"] = ["square", "square"]
    shown = found(data)
    assert set(shown.members) == {"Post 1", "Beam"}
    assert "overlap" in shown.fault.detail
    greatest = max(c.volume_mm3 for c in shown.piece.clashes)
    assert shown.piece.clashes and greatest == max(
        c.volume_mm3 for c in shown.piece.clashes if {c.first, c.second} == set(shown.members))


def test_a_lid_that_strikes_is_shown_at_the_angle_where_it_shares_most() -> None:
    data = trestle()
    data["groups"]["lid"] |= {"at": ["0*inch", "0*inch", "under"], "opens": "-90*deg"}
    shown = found(data)
    assert shown.opened_deg != 0
    text = svg(pointed_out(shown.piece, shown.members, shown.fault.detail, "in", shown.opened_deg))
    assert all(key in text for key in shown.members)


def test_without_a_clash_the_first_fault_that_can_be_built_is_shown() -> None:
    shown = found(changed("overall/length", "length + 1*inch"))
    assert shown.fault.pointer == "/overall/length" and shown.members == () and shown.instead == ""
    assert "<svg" in svg(pointed_out(shown.piece, shown.members, shown.fault.detail, "mm"))


def test_nothing_is_shown_where_nothing_is_wrong_or_nothing_can_be_built() -> None:
    assert found(trestle()) is None
    no_member = trestle(members=[trestle()["members"][0] | {"when": "1 > 2"}], joints=[], checks=[])
    assert found(no_member) is None


def test_where_no_faulty_point_can_be_built_the_nearest_that_can_is_shown() -> None:
    """The beam as wide as a sixth of the length: beyond 21 in it is wider than a 4x4 gives."""
    shown = found(changed("members/1/width", "length/6"))
    assert not shown.fault.built and "Beam is " in shown.fault.detail
    assert 20 * INCH <= shown.piece.dimensions_nm["length"] <= 21 * INCH and shown.members == ("Beam",)
    assert shown.fault.point.dimensions_nm["length"] > 21 * INCH
    assert shown.instead.startswith("Drawn at length 2") and "can be built" in shown.instead


def test_where_no_point_at_all_can_be_built_it_is_shown_without_what_cannot_be_made() -> None:
    """The posts have no way to grow, and the beam ends against them."""
    shown = found(changed("members/0/wide", ["0", "0", "0"]))
    assert {m.name for m in shown.piece.members} == {"Lid board"}
    assert shown.instead == "Drawn without Post, Beam, which cannot be made"


def test_all_members_of_a_rule_are_shown_where_its_fault_names_none() -> None:
    half = [{"index": "n", "count": "choose(length > 59*inch, 1, 1/2)"}]
    shown = found(trestle(members=[*trestle()["members"][:2], trestle()["members"][2] | {"repeat": half}]))
    assert shown.fault.pointer == "/members/2/repeat/0/count" and shown.members == ("Lid board",)
    assert shown.piece.dimensions_nm["length"] == 60 * INCH


def test_a_longer_name_is_not_taken_for_the_one_it_begins_with() -> None:
    piece = found(changed("overall/length", "length + 1*inch")).piece
    assert named_in("Post 2 hangs on nothing", piece) == ("Post 2",)
