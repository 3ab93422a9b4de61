"""What a piece takes at the customer's: parts to join, legs to scribe or shim."""

from __future__ import annotations

import pytest

from yardwright.domain import piece
from yardwright.domain.fit import site_work
from yardwright.domain.measure import MM
from yardwright.domain.piece.model import Piece
from yardwright.domain.shop import Shop
from yardwright.domain.site import Access, Corner, Ground, Measured, Site, Wall
from yardwright.domain.template import sizes


def built(shop: Shop, name: str) -> Piece:
    template = shop.templates[name]
    asked = sizes(template, {}, {"timber": template.default_timber, "finish": "none"}, "mm")
    return piece.build(template, *asked, shop, "mm")


def gate(width_mm: int) -> Site:
    return Site(access=(Access("gate", width_mm * MM, 2000 * MM),))


def test_what_goes_in_whole_on_level_ground_takes_nothing_more(demo_shop_metric: Shop) -> None:
    chair = site_work(built(demo_shop_metric, "lounge-chair"), Site(), demo_shop_metric)
    assert (chair.parts, chair.fasteners, chair.scribed, chair.shimmed, chair.words) == (0, 0, 0, 0, ())


def test_a_corner_bench_is_joined_on_site_unless_it_is_known_to_go_in_whole(demo_shop_metric: Shop) -> None:
    bench = built(demo_shop_metric, "corner-bench")
    unmeasured, narrow, wide = (site_work(bench, site, demo_shop_metric)
                                for site in (Site(), gate(900), gate(1200)))
    assert unmeasured == narrow and narrow.parts > 1 and narrow.fasteners > 40
    assert narrow.words == (f"joined from {narrow.parts + 1} parts",)
    assert (wide.parts, wide.fasteners) == (0, 0)


def test_the_narrower_the_gate_the_more_is_left_to_do(demo_shop_metric: Shop) -> None:
    table = built(demo_shop_metric, "picnic-table")
    done = [site_work(table, gate(mm), demo_shop_metric) for mm in (1000, 780, 500, 300)]
    assert done[0].parts == 0 < done[-1].parts
    assert [d.fasteners for d in done] == sorted(d.fasteners for d in done)


@pytest.mark.parametrize(("fall", "shimmed", "scribed"), [(0.0, 0, 0), (0.01, 2, 0), (0.05, 0, 2)])
def test_a_fall_is_shimmed_under_the_low_legs_or_sawn_off_the_high_ones(
        demo_shop_metric: Shop, fall: float, shimmed: int, scribed: int) -> None:
    chair = built(demo_shop_metric, "lounge-chair")
    work = site_work(chair, Site(ground=Ground("paving", fall_away=fall)), demo_shop_metric)
    assert (work.shimmed, work.scribed) == (shimmed, scribed)
    assert len(work.words) == (1 if fall else 0)


@pytest.mark.parametrize(("lean_mm", "spare", "corner_deg", "edges"), [
    (20, 60, 90, 1), (4, 60, 90, 0), (20, 300, 90, 0), (20, 100, 88, 2)])
def test_an_edge_is_scribed_where_it_stands_against_a_wall_out_of_plumb_or_square(
        demo_shop_metric: Shop, lean_mm: int, spare: int, corner_deg: float, edges: int) -> None:
    """Between walls it is fitted to both ends where little is left; then each open wedge is an edge."""
    bench = built(demo_shop_metric, "storage-bench")
    length = round(bench.standing_mm[0])
    walls = (Wall("back", (Measured((length + spare) * MM),)), Wall("left", (), lean_mm * MM, 1000 * MM),
             Wall("right", ()))
    site = Site("between walls", walls, (Corner("left", corner_deg), Corner("right", 90.0)))
    work = site_work(bench, site, demo_shop_metric, installed=True)
    assert len(work.edges_nm) == edges
    assert ("scribed to the walls" in " ".join(work.words)) is bool(edges)
    assert site_work(bench, site, demo_shop_metric).edges_nm == ()
    if edges == 1:
        assert work.edges_nm[0] == round(bench.standing_mm[2] * MM)
