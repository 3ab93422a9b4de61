"""A part that nothing holds holds the paper, whoever wrote the template; which parts touch by hand."""

from __future__ import annotations

from typing import Any

from builders import INCH, demo_shop
from planted import plank_bench
from yardwright.domain import checks
from yardwright.domain.finding import Finding, Level
from yardwright.domain.measure import Writer
from yardwright.domain.piece import build
from yardwright.domain.site import Site
from yardwright.domain.template import read_template


def found(data: dict[str, Any]) -> list[Finding]:
    piece = build(read_template(data), {"length": 40 * INCH}, {}, demo_shop(), "in")
    run = checks.run(piece, None, Site(), demo_shop(), Writer("in"))
    return [finding for finding in run if finding.rule == "held together"]


def bench() -> dict[str, Any]:
    """A plank bench with a lath along its back edge, screwed to the bearers' ends."""
    data = plank_bench("24 in", "60 in", "40 in")
    data["members"].append({"name": "Lath", "board": "seat",
                            "from": ["0*inch", "2*seat.width + 1/4*inch", "0*inch"],
                            "to": ["length", "2*seat.width + 1/4*inch", "0*inch"], "wide": "up",
                            "thick": "back"})
    data["joints"].append({"name": "Lath to bearers", "of": ["Lath"], "to": ["Bearer"], "fasten": "screws",
                           "per_contact": "1"})
    return data


def test_a_piece_that_is_held_says_nothing() -> None:
    assert found(bench()) == []


def test_a_lath_without_a_fastener_is_a_stop_that_the_customer_reads() -> None:
    data = bench()
    del data["joints"][1]
    (stop,) = found(data)
    assert stop.level is Level.STOP and stop.customer
    assert stop.detail == "Nothing holds Lath to the rest of the piece."


def test_a_lath_in_mid_air_is_a_stop_though_a_joint_names_it() -> None:
    data = bench()
    for end in ("from", "to"):
        data["members"][2][end][1] += " + 2*inch"
    held, apart = found(data)
    assert held.level is apart.level is Level.STOP and "Lath" in held.detail
    assert apart.detail == "Lath to bearers: Lath touches none of Bearer."


def test_many_parts_are_not_all_listed() -> None:
    data = plank_bench("24 in", "60 in", "40 in", bearers=8)
    data["joints"] = []
    (stop,) = found(data)
    assert stop.measured == "9 of 10 parts" and stop.detail.count(",") == 5 and "and 4 more" in stop.detail
