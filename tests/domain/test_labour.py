"""Labour: minutes from counts, set-up once, allowance on top, days with the waiting."""

from dataclasses import replace

import pytest

import builders as b
from yardwright.domain import labour, parts
from yardwright.domain.errors import BadTemplate
from yardwright.domain.fit import SiteWork
from yardwright.domain.job import Delivery
from yardwright.domain.piece.model import DoneOperation, FittedHardware, ShapeWork
from yardwright.domain.shop import TimeStandard
from yardwright.domain.template.model import GlueUp, OperationRule

SHOP = b.shop()


def bench(**changes):
    slats = [b.member(f"Slat {i}", 1000, name="Slat") for i in (1, 2)]
    cleat = b.member("Cleat", 500, 88.9, 38.1, section="2x4", stock_width_mm=88.9)
    held = b.joint("Slats to cleat", "screws", [b.contact(s.key, "Cleat") for s in slats], 8)
    return b.piece([*slats, cleat], [held], **changes)


def estimate(*pieces, job=None, shop=SHOP):
    asked = [piece if isinstance(piece, tuple) else (piece, 1) for piece in pieces]
    lines = parts.cut_list(asked, shop)
    _, groups = b.cut(lines, shop)
    return labour.estimate(asked, lines, groups, (), replace(job or b.job(), units="mm"), shop)


def operation(found, standard):
    got, = (o for o in found.operations if o.standard == standard)
    return got


def test_minutes_are_set_up_and_count_times_each_and_the_allowance():
    screws = operation(estimate(bench()), "drive-screw")
    standard = SHOP.times["drive-screw"]
    assert screws.count == 8
    assert screws.minutes == pytest.approx(1.15 * (standard.setup_minutes + 8 * standard.minutes))


def test_runs_and_areas_are_told_in_the_jobs_units_and_take_as_long():
    """1 ft = 0.3048 m, 1 ft2 = 0.09290304 m2 (NIST SP 811, from memory)."""
    lines = parts.cut_list([(bench(finish="clear-oil"), 1)], SHOP)
    _, groups = b.cut(lines, SHOP)
    metric, inches = (labour.estimate([(bench(finish="clear-oil"), 1)], lines, groups, (),
                                      replace(b.job(), units=units), SHOP) for units in ("mm", "in"))
    assert [o.minutes for o in metric.operations] == pytest.approx([o.minutes for o in inches.operations])
    sanded, brushed = operation(metric, "sand"), operation(inches, "sand")
    assert (sanded.per, brushed.per) == ("m2", "ft2")
    assert brushed.count * 0.09290304 == pytest.approx(sanded.count)
    assert brushed.count * brushed.each_minutes == pytest.approx(sanded.count * sanded.each_minutes)
    assert not any(f" {unit} x " in o.working for o in inches.operations for unit in ("m", "m2", "km"))


def test_set_up_is_once_a_job_and_each_work_twice_for_two():
    one, two = (operation(estimate((bench(), n)), "drive-screw") for n in (1, 2))
    standard = SHOP.times["drive-screw"]
    assert two.minutes - one.minutes == pytest.approx(1.15 * 8 * standard.minutes)


def test_a_batch_gets_no_learning_discount():
    one, four = (operation(estimate((bench(), n)), "drive-screw") for n in (1, 4))
    each = SHOP.times["drive-screw"].minutes
    assert four.minutes == pytest.approx(one.minutes + 3 * 8 * each * 1.15)


def test_minutes_of_the_items_add_up_to_the_operation_and_the_job():
    found = estimate(bench(), (bench(finish="clear-oil"), 3))
    for done in found.operations:
        assert sum(done.by_item) == pytest.approx(done.minutes)
    assert found.hours * 60 == pytest.approx(sum(o.minutes for o in found.operations))


def test_boards_are_fetched_and_cut_as_the_plan_says():
    found = estimate(bench())
    assert operation(found, "fetch-board").count == pytest.approx(3)
    assert operation(found, "crosscut").count == pytest.approx(3)
    assert not [o for o in found.operations if o.standard == "rip"]


def test_a_narrower_part_is_ripped_along_its_length():
    found = estimate(b.piece([b.member("Strip", 1000, 60.0)]))
    assert operation(found, "rip").count == pytest.approx(1.0, abs=0.002)


def test_shape_work_is_counted_by_its_kind():
    shape = [ShapeWork("bevel", "both ends bevelled", metres=0.3, count=2),
             ShapeWork("round over", "round over top front", metres=1.1), ShapeWork("hole", "hole 20 mm"),
             ShapeWork("outline", "edge cut to a curve", metres=1.2), ShapeWork("pocket", "pocket")]
    found = estimate(b.piece([b.member("Rail", 1000, shape=shape)]))
    assert {s: operation(found, s).count for s in ("bevel", "rout", "curve", "drill", "pocket")} == {
        "bevel": 2, "rout": 1.1, "curve": 1.2, "drill": 1, "pocket": 1}


def test_a_lag_screw_takes_longer_than_a_screw_and_less_than_a_bolt():
    rail, leg = b.member("Rail", 1000), b.member("Leg", 500, 88.9, 38.1, section="2x4", stock_width_mm=88.9)
    lags = b.piece([rail, leg], [b.joint("Rail to leg", "lags", [b.contact("Rail", "Leg")], 4)])
    shop = b.demo_shop()
    done = operation(estimate(lags, shop=replace(SHOP, times=shop.times)), "drive-lag")
    assert done.count == 4
    each = {s: shop.times[s].minutes for s in ("drive-screw", "drive-lag", "bolt")}
    assert each["drive-screw"] < each["drive-lag"] < each["bolt"]


def test_strips_of_a_blank_are_glued_once_for_each_joint_and_wait_for_the_clamps():
    strips = [b.member(f"Strip {i}", 400, 60, glue_up="Leg", glue_up_no=1) for i in (1, 2, 3)]
    faces = (b.contact("Strip 1", "Strip 2"), b.contact("Strip 2", "Strip 3"))
    piece = b.piece(strips, glue_ups=[GlueUp("Leg", "L", ("Strip*",))], contacts=faces)
    found = estimate(piece)
    assert operation(found, "glue-up").count == 2
    assert operation(found, "assemble").count == 1
    assert operation(found, "crosscut").count == pytest.approx(3 + 2)      # each strip, then the blank's ends
    assert found.wait_hours == 24


def test_every_coat_has_its_own_minutes_and_dries_a_day():
    bare, oiled = estimate(bench()), estimate(bench(finish="clear-oil"))
    coats = [o for o in oiled.operations if o.standard == "coat"]
    finish = SHOP.market.finishes["clear-oil"]
    assert [o.each_minutes for o in coats] == pytest.approx(list(finish.minutes_m2[:2]))
    assert [o.setup_minutes > 0 for o in coats] == [True, False]
    assert oiled.wait_hours - bare.wait_hours == 48
    assert oiled.elapsed_days >= bare.elapsed_days + 2


def test_everything_is_sanded_with_two_grits_whatever_discs_are_listed():
    area_m2 = sum(m.surface_mm2 for m in bench().members) * 1e-6
    assert operation(estimate(bench()), "sand").count == pytest.approx(2 * area_m2)


def test_both_ends_of_treated_wood_are_brushed():
    pine = b.member("Rail", 1000, 88.9, 38.1, section="2x4", timber="southern-pine-uc4a", stock_width_mm=88.9)
    assert operation(estimate(b.piece([pine])), "preserve-cut").count == 2
    assert not [o for o in estimate(bench()).operations if o.standard == "preserve-cut"]


def test_two_alike_finishes_are_cleaned_up_once():
    found = estimate(bench(finish="clear-oil"), bench(finish="clear-oil"))
    assert operation(found, "clean-up").count == pytest.approx(2)


def test_bought_parts_take_the_operation_named_or_that_of_their_kind():
    fitted = (FittedHardware("Hinge", "hinge", 1, {}, {}, ""), FittedHardware("Knob", "knob", 2, {}, {}, ""),
              FittedHardware("Stay", "stay", 1, {}, {}, "fit-stay"))
    found = estimate(bench(hardware=fitted))
    assert [operation(found, s).count for s in ("fit-hinge", "fit", "fit-stay")] == [1, 2, 1]


def test_an_operation_without_a_standard_is_refused_with_the_known_ones():
    polish = DoneOperation(OperationRule("Polish", "polish", b.number(1)), 1.0)
    with pytest.raises(BadTemplate, match=r"Polish: no time standard is called 'polish'.*drive-screw"):
        estimate(bench(operations=(polish,)))
    with pytest.raises(BadTemplate) as caught:
        estimate(bench(), bench(operations=(polish,)))
    assert caught.value.faults[0].pointer == "/items/1/template/operations"


def test_work_at_the_site_follows_the_delivery():
    collected = estimate(bench())
    brought = estimate(bench(), job=b.job(delivery=Delivery(30.0, install=True)))
    assert not [o for o in collected.operations if o.standard in ("unload", "install", "drive")]
    assert operation(brought, "install").count == operation(brought, "unload").count == 1


def test_a_heavy_piece_takes_two_people_there_and_back():
    heavy = replace(bench(), mass_kg=80.0)
    found = estimate(heavy, job=b.job(delivery=Delivery(30.0, install=True)))
    assert operation(found, "drive").count == pytest.approx(60.0)
    assert operation(found, "install").count == 2


def test_days_are_whole_working_days():
    slow = replace(SHOP, times={**SHOP.times, "office": TimeStandard("office", "Office", "office", "job", 0,
                                                                     60 * 14, "test", "judgement")})
    found = estimate(bench(), shop=slow)
    assert found.elapsed_days == -(-found.hours // SHOP.terms.hours_per_day)


def test_phases_stand_in_the_order_of_the_work():
    phases = [labour.PHASES.index(o.phase) for o in estimate(bench(finish="clear-oil")).operations]
    assert phases == sorted(phases)


def test_work_at_the_customers_is_counted_only_where_the_shop_goes_there():
    work = SiteWork(parts=3, fasteners=20, scribed=2, shimmed=0)
    item = bench()
    stays, goes = (b.job(delivery=d) for d in (Delivery(), Delivery(install=True)))
    lines = parts.cut_list([(item, 2)], SHOP)
    _, groups = b.cut(lines, SHOP)
    here, there = (labour.estimate([(item, 2)], lines, groups, (), job, SHOP, [work])
                   for job in (stays, goes))
    assert not any(o.standard in labour.SITE for o in here.operations)
    counts = {o.standard: o.count for o in there.operations if o.standard in labour.SITE}
    assert counts == {"site-setup": 1, "site-place": 6, "site-fasten": 40, "scribe-leg": 4}
    assert there.hours > here.hours


def test_edges_are_scribed_to_walls_by_the_metre():
    # 10 to 20 min a metre with two trials (common practice, no source), after 10 min of setting up.
    lines = parts.cut_list([(bench(), 2)], SHOP)
    _, groups = b.cut(lines, SHOP)
    found = labour.estimate([(bench(), 2)], lines, groups, (), b.job(delivery=Delivery(install=True)), SHOP,
                            [SiteWork(edges_nm=(900_000_000, 500_000_000))])
    scribed = operation(found, "scribe-wall")
    assert scribed.count == pytest.approx(2.8 / 0.3048)
    assert 38 <= scribed.minutes / 1.15 <= 66


def test_four_legs_are_scribed_in_half_an_hour_to_an_hour():
    # Legs cut to scribe on site take 0.5 to 1 h a bench (common practice, no source).
    lines = parts.cut_list([(bench(), 1)], SHOP)
    _, groups = b.cut(lines, SHOP)
    found = labour.estimate([(bench(), 1)], lines, groups, (), b.job(delivery=Delivery(install=True)), SHOP,
                            [SiteWork(scribed=3)])
    assert 30 <= operation(found, "scribe-leg").minutes <= 60
