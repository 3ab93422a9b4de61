"""What a shop cannot make of a built piece is told before anything is planned or priced."""

from __future__ import annotations

import copy
from datetime import date
from typing import Any

import pytest

from builders import demo_shop
from small_templates import trestle
from yardwright.domain import piece
from yardwright.domain.errors import Refused
from yardwright.domain.job import Customer, Item, Job
from yardwright.domain.site import Site
from yardwright.domain.template import read_template
from yardwright.quoting import make_quote
from yardwright.quoting.makeable import not_makeable

SHOP = demo_shop()


def spoilt(**entries: Any) -> dict[str, Any]:
    return copy.deepcopy(trestle()) | entries


def told(data: dict[str, Any]) -> list[tuple[str, str]]:
    made = piece.build(read_template(data), {}, {}, SHOP, "in")
    return [(fault.pointer, fault.detail) for fault in not_makeable(made, SHOP)]


GLUED = {"glue_ups": [{"name": "Lid", "kind": "edge", "members": ["Lid board"]}]}
LID = {"repeat": [{"index": "n", "count": "2"}],
       "from": ["0*inch", "n*top.width", "under"], "to": ["length", "n*top.width", "under"]}


def lid_of_full_boards() -> dict[str, Any]:
    """Two boards of full width glued edge to edge: their trimmed edges need a wider board."""
    data = spoilt(**GLUED)
    data["boards"]["top"]["sections"] = ["1x8"]      # the widest of its thickness
    data["members"][2] |= LID
    return data


def cut_too_wide() -> dict[str, Any]:
    """A sound piece but for its glued lid."""
    data = lid_of_full_boards()
    data["overall"]["depth"] = "choose(lid == 'yes', 2*top.width, post.width)"
    data["fit"]["envelope"] |= {"depth": "15*inch", "open_height": "height + 16*inch", "open_front": "8*inch",
                                "open_behind": "16*inch"}
    return data


def test_a_sound_piece_can_be_made() -> None:
    assert told(trestle()) == []


def test_goods_and_times_the_shop_does_not_have_are_told_at_their_entry() -> None:
    found = dict(told(spoilt(
        hardware=[{"name": "Hinge", "kind": "hindge", "count": "2"}],
        operations=[{"name": "Rest", "standard": "sandd", "count": "1"}])))
    assert "did you mean 'hinge'?" in found["/hardware/0/kind"]
    assert "did you mean 'sand'?" in found["/operations/0/standard"]


def test_a_strip_whose_trimmed_edges_no_board_gives_is_told() -> None:
    ((pointer, said), *_) = told(lid_of_full_boards())
    assert pointer == "" and "Lid board" in said and "once its edges are trimmed" in said


def test_a_template_sent_with_a_job_is_refused_before_the_plan(monkeypatch: pytest.MonkeyPatch) -> None:
    asked = Item("trestle", {}, {}, inline=cut_too_wide())
    job = Job("M-1", "in", date(2026, 11, 25), Customer(), Site(), (asked,))
    monkeypatch.setattr("yardwright.domain.cutting.plan_job", None)
    with pytest.raises(Refused, match="once its edges are trimmed") as refused:
        make_quote(job, SHOP)
    assert refused.value.faults[0].pointer == "/items/0/template"
