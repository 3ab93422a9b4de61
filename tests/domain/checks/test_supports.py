"""Supports are found in the contacts and followed down to the ground."""

from __future__ import annotations

import pytest

from handmade import asked, box, case, piece
from yardwright.domain.checks import seat_load
from yardwright.domain.checks.supports import footing, lies_along, places, supports
from yardwright.domain.finding import Level
from yardwright.domain.piece.model import Member

LEG = 70.0


def legs(*xs: float, top: float = 400.0, y: float = 0.0) -> list[Member]:
    """Uprights standing on the ground."""
    return [box(f"Leg {i}", (x, y, 0), (LEG, LEG, top), along="z", thick="y") for i, x in enumerate(xs)]


def slat(length: float = 1000.0, z: float = 400.0) -> Member:
    return box("Slat 1", (0, 0, z), (length, 90, 25))


def test_a_board_on_two_legs_has_two_supports_at_the_middle_of_each() -> None:
    made = case(piece([slat(), *legs(0, 930)]))
    found = supports(made, made.piece.member("Slat 1"), footing(made, frozenset({"Slat 1"})))
    assert places(found) == pytest.approx((35.0, 965.0))
    assert not any(s.hung for s in found)


def test_a_leg_that_does_not_touch_carries_nothing() -> None:
    made = case(piece([slat(), *legs(0), *legs(930, top=398)]))
    assert len(supports(made, made.piece.member("Slat 1"), footing(made, frozenset({"Slat 1"})))) == 1


def test_a_bearer_on_legs_carries_and_a_batten_that_hangs_does_not() -> None:
    bearers = [box(f"Bearer {i}", (x, 0, 350), (40, 400, 50), along="y") for i, x in enumerate((0, 930))]
    batten = box("Batten", (480, 0, 375), (40, 90, 25), along="y")
    stands = [leg for i, x in enumerate((0, 930)) for leg in (
        box(f"Leg {i}a", (x, 0, 0), (40, 40, 350), along="z", thick="y"),
        box(f"Leg {i}b", (x, 360, 0), (40, 40, 350), along="z", thick="y"))]
    made = case(piece([slat(), *bearers, batten, *stands], screwed=[("Batten", "Slat")]))
    found = supports(made, made.piece.member("Slat 1"), footing(made, frozenset({"Slat 1"})))
    assert {s.key for s in found} == {"Bearer 0", "Bearer 1"}


def test_a_cleat_hung_under_boards_that_lie_along_panels_carries_the_boards_between() -> None:
    panels = [box(f"Panel {n}", (0, y, 0), (1000, 20, 375), thick="y") for n, y in enumerate((0, 280))]
    boards = [box(f"Slat {n}", (0, n * 100, 375), (1000, 100, 25)) for n in range(3)]
    cleat = box("Cleat", (480, 20, 335), (40, 260, 40), along="y")
    made = case(piece([*panels, *boards, cleat], screwed=[("Cleat", "Slat")]))
    loaded = frozenset(b.key for b in boards)
    assert lies_along(made, made.piece.member("Slat 0"), footing(made, loaded))
    assert not lies_along(made, made.piece.member("Slat 1"), footing(made, loaded))
    assert [s.key for s in supports(made, made.piece.member("Slat 1"), footing(made, loaded))] == ["Cleat"]
    under = supports(made, made.piece.member("Cleat"), footing(made, loaded))
    assert {s.key for s in under} == {"Slat 0", "Slat 2"} and all(s.hung for s in under)


def test_a_cleat_that_hangs_by_two_screws_is_a_caution_and_on_ledgers_it_is_not() -> None:
    panels = [box(f"Panel {n}", (0, y, 0), (1000, 20, 375), thick="y") for n, y in enumerate((0, 280))]
    boards = [box(f"Slat {n}", (0, n * 100, 375), (1000, 100, 38)) for n in range(3)]
    cleat = box("Cleat", (480, 20, 335), (40, 260, 40), along="y")
    ledgers = [box(f"Ledger {n}", (0, y, 295), (1000, 30, 40)) for n, y in enumerate((20, 250))]
    keys = [b.key for b in boards]
    hung = case(piece([*panels, *boards, cleat], screwed=[("Cleat", "Slat")]))
    lying = case(piece([*panels, *boards, cleat, *ledgers],
                       screwed=[("Cleat", "Slat"), ("Ledger 0", "Panel 0"), ("Ledger 1", "Panel 1")]))
    title = "Cleat: hangs by its screws"
    told = {f.title: f for f in seat_load.check(asked("seat load", keys), hung)}
    assert told[title].level is Level.CAUTION and told[title].measured == "125 lbf"
    assert title not in {f.title for f in seat_load.check(asked("seat load", keys), lying)}


def test_a_ledger_screwed_to_a_leg_stands_and_a_loose_one_does_not() -> None:
    ledger = box("Ledger", (0, 70, 360), (1000, 40, 40))
    members = [box("Slat 1", (0, 70, 400), (1000, 90, 25)), ledger, *legs(0, 930)]
    held = case(piece(members, screwed=[("Ledger", "Leg")]))
    loose = case(piece(members))
    board, loaded = held.piece.member("Slat 1"), frozenset({"Slat 1"})
    assert len(places(supports(held, board, footing(held, loaded)))) > 2
    assert supports(loose, board, footing(loose, loaded)) == ()


def test_pushed_sideways_a_corner_post_tied_by_the_end_boards_stands_and_a_stake_does_not() -> None:
    side = box("Side 1", (0, 0, 0), (1000, 20, 140), thick="y")
    posts = [box(f"Post {i}", (x, 20, 0), (40, 40, 300), along="z", thick="y")
             for i, x in enumerate((0, 960))]
    ends = [box(f"End {i}", (x, 20, 0), (20, 400, 140), along="y", thick="x")
            for i, x in enumerate((-20, 1000))]
    stake = box("Stake", (480, 20, 0), (40, 40, 300), along="z", thick="y")
    made = case(piece([side, *posts, *ends, stake],
                      screwed=[("Side", "Post"), ("Side", "Stake"), ("End 0", "Post 0"),
                               ("End 1", "Post 1")]))
    found = supports(made, side, footing(made, frozenset({"Side 1"}), (0.0, -1.0, 0.0)))
    assert {s.key for s in found} == {"Post 0", "Post 1"}
