"""A quote never prints a piece of another size than was asked without saying so; figures by hand."""

from __future__ import annotations

from typing import Any

import pytest

from builders import INCH, demo_shop
from planted import plank_bench, shop_with
from yardwright.domain import checks
from yardwright.domain.finding import Finding, Level
from yardwright.domain.measure import Writer
from yardwright.domain.piece import build
from yardwright.domain.site import Site
from yardwright.domain.template import read_template


def found(data: dict[str, Any], units: str = "in") -> list[Finding]:
    piece = build(read_template(data), {"length": 40 * INCH}, {}, demo_shop(), units)
    run = checks.run(piece, None, Site(), demo_shop(), Writer(units))
    return [finding for finding in run if finding.rule == "as asked"]


def bench(longer: str) -> dict[str, Any]:
    """A plank bench whose seat boards, and what it says of itself, run longer than the customer's length."""
    data = plank_bench("24 in", "60 in", "40 in")
    data["overall"]["length"] = data["members"][1]["to"][0] = f"length + {longer}"
    data["fit"]["envelope"]["length"] = f"length + {longer}"
    return data


def test_a_piece_as_asked_says_nothing() -> None:
    assert found(bench("0*inch")) == found(bench("-1/16*inch")) == []


@pytest.mark.parametrize(("longer", "units", "said"), [
    ("5*inch", "in", "It comes out 45 in long where 40 in is asked, 5 in too much."),
    ("-1/4*inch", "in", "It comes out 39 3/4 in long where 40 in is asked, 1/4 in too little."),
    ("5*mm", "mm", "It comes out 1021 mm long where 1016 mm is asked, 5 mm too much."),
])
def test_another_size_than_asked_holds_the_paper_and_the_customer_reads_why(longer: str, units: str,
                                                                            said: str) -> None:
    (finding,) = found(bench(longer), units)
    assert finding.level is Level.STOP and finding.customer and finding.detail == said


def test_a_fit_told_by_too_small_a_box_holds_the_paper() -> None:
    data = bench("0*inch")
    data["fit"]["envelope"]["depth"] = "10*inch"        # two boards of 5 1/2 in and a gap of 1/4 in
    (finding,) = found(data)
    assert finding.level is Level.STOP and not finding.customer
    assert finding.detail == "fit.envelope.depth is 10 in; the piece needs 11 1/4 in, 1 1/4 in more."


def test_the_quote_itself_says_it() -> None:
    from datetime import date

    from yardwright import quoting
    from yardwright.domain.job import Customer, Item, Job

    shop = shop_with(bench("5*inch"))
    asked = Item("plank-bench", {"length": 40 * INCH}, {})
    job = Job("A-1", "in", date(2026, 11, 25), Customer(), Site(), (asked,))
    item = quoting.make_quote(job, shop).items[0]
    assert item.overall_nm()["length"] == 45 * INCH
    assert [f.level for f in item.findings if f.rule == "as asked"] == [Level.STOP]
