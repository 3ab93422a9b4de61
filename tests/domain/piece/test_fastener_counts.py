"""Fasteners contact by contact: one set for a housing, none in a strip, one in a short run."""

from __future__ import annotations

from yardwright.domain.piece.joints import _taking
from yardwright.domain.piece.model import Contact, MadeJoint, Vector
from yardwright.domain.template.model import Joint


def contact(first: str, second: str, normal: Vector, low: Vector, high: Vector) -> Contact:
    size = [b - a for a, b in zip(low, high, strict=True) if b - a > 0]
    middle = [(a + b) / 2 for a, b in zip(low, high, strict=True)]
    return Contact(first, second, size[0] * size[1], normal, (middle[0], middle[1], middle[2]), low, high)


def test_a_rail_let_into_a_side_is_screwed_through_its_largest_face_only() -> None:
    end = contact("Rail", "Side", (1, 0, 0), (12, 0, 0), (12, 38, 64))
    shoulder = contact("Rail", "Side", (0, 0, -1), (0, 0, 0), (12, 38, 0))
    wall = contact("Rail", "Side", (0, 1, 0), (0, 38, 0), (12, 38, 64))
    assert _taking((shoulder, end, wall)) == (False, True, False)


def test_of_two_faces_alike_one_is_screwed() -> None:
    one = contact("Board", "Post", (1, 0, 0), (40, 0, 0), (40, 40, 90))
    other = contact("Board", "Post", (0, 1, 0), (0, 40, 0), (40, 40, 90))
    assert _taking((one, other)) == (True, False)


def test_two_places_apart_are_both_screwed() -> None:
    low = contact("Post", "Beam", (0, 1, 0), (0, 0, 0), (40, 0, 40))
    side = contact("Post", "Beam", (1, 0, 0), (40, 100, 0), (40, 140, 40))
    assert _taking((low, side)) == (True, True)


def test_a_strip_too_narrow_for_a_screw_takes_none_where_its_member_is_held_elsewhere() -> None:
    strip = contact("Ledger", "Panel 1", (0, 1, 0), (0, 0, 0), (900, 0, 6))
    broad = contact("Ledger", "Panel 2", (0, 1, 0), (0, 0, 10), (900, 0, 40))
    assert _taking((strip, broad)) == (False, True)
    assert _taking((strip,)) == (True,)


def test_shares_are_each_contact_s_own_or_even() -> None:
    a = contact("A", "B", (0, 1, 0), (0, 0, 0), (900, 0, 40))
    b = contact("A", "C", (0, 1, 0), (0, 0, 0), (40, 0, 40))
    rule = Joint("J", ("A",), ("B", "C"), "screws")
    assert MadeJoint(rule, (a, b), 5, (4, 1)).shares == (4.0, 1.0)
    assert MadeJoint(rule, (a, b), 5).shares == (2.5, 2.5)
    assert MadeJoint(rule, (a,), 5, (4, 1)).shares == (5.0,)
    assert MadeJoint(rule, (), 0).shares == ()
