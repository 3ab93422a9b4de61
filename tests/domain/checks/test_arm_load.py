"""A person who presses down on an arm or leans out over it, worked by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handmade import asked, box, case, piece
from yardwright.domain.checks import arm_load, joints
from yardwright.domain.checks.strength import strength
from yardwright.domain.finding import Finding, Level
from yardwright.domain.piece.model import Piece

CHECK = asked("arm load", ["Armrest 0", "Armrest 1"])


def chair(thick: float = 38.0, screws: int = 4, apron: float = 400.0, leg: float = 45.0) -> Piece:
    """Two arms on two legs each, front and rear, aprons and side rails up to 400 mm tying the legs."""
    members = []
    for n, x in enumerate((0.0, 600.0 - leg)):
        members.append(box(f"Armrest {n}", (x - 20, 0, 600), (110, 600, thick), along="y", thick="z"))
        members += [box(f"Leg {n}{m}", (x, y, 0), (leg, 90, 600), along="z", thick="x")
                    for m, y in enumerate((0.0, 510.0))]
    members += [box(f"Apron {m}", (0, y, apron - 100), (600, 25, 100), thick="y")
                for m, y in enumerate((-25.0, 600.0))]
    made = piece(members, [CHECK], screwed=[("Armrest", "Leg"), ("Apron", "Leg")])
    return replace(made, joints=tuple(replace(j, fasteners=screws * len(j.contacts)) for j in made.joints))


def told(made: Piece) -> list[Finding]:
    return list(arm_load.check(CHECK, case(made)))


def test_a_stout_chair_holds() -> None:
    assert [f.title for f in told(chair()) if f.level is not Level.OK] == []
    assert len(told(chair())) == 5


def test_a_thin_arm_breaks_under_the_person_who_gets_up() -> None:
    """700 N in the middle of 420 to 510 mm on 12 mm of cedar: above 20 N/mm²."""
    found = told(chair(thick=12.0))
    assert found[0].level is Level.STOP and "Armrest" in found[0].title


def test_a_push_outward_bends_the_leg_about_the_apron() -> None:
    """F·h/S = 400·(638 - 400)·6/(90·45²) = 3.134 N/mm²."""
    post = next(f for f in told(chair()) if f.title.startswith("Leg"))
    assert post.measured == f"bending {3.1342 / 0.00689476:.0f} psi"
    wood = case(chair())
    allowed = strength(wood, wood.member("Leg 00"), False, False, "people").bending
    assert post.limit == f"bending {allowed / 0.00689476:.0f} psi"


@pytest.mark.parametrize(("apron", "leg", "level"), [(400.0, 45.0, Level.OK), (120.0, 32.0, Level.STOP)])
def test_a_leg_held_far_below_its_arm_is_too_weak_and_the_mend_says_where(apron: float, leg: float,
                                                                          level: Level) -> None:
    post = next(f for f in told(chair(apron=apron, leg=leg)) if f.title.startswith("Leg"))
    assert post.level is level
    assert ("no more than" in post.mend) is (level is Level.STOP)


def test_an_arm_on_one_screw_at_each_end_is_pushed_off() -> None:
    found = [f for f in told(chair(screws=1)) if "fastened" in f.title or "pushed off" in f.title]
    assert found and all(f.level in (Level.CAUTION, Level.STOP) for f in found)
    assert "times as many" in found[0].mend


def test_the_lever_puts_more_than_the_push_on_the_end_where_it_stands() -> None:
    """Legs' middles at 45 and 555 mm of 600: 400·555/510 = 435 N = 98 lbf."""
    arm = next(f for f in told(chair()) if "fastened against" in f.title)
    assert arm.measured == "98 lbf"


def test_an_arm_fastened_in_one_place_only_is_stopped() -> None:
    made = chair()
    arms = made.joints[0]
    front = replace(arms, contacts=tuple(c for c in arms.contacts if c.centre[1] < 300))
    found = told(replace(made, joints=(front, *made.joints[1:])))
    assert any(f.level is Level.STOP and "both ends" in f.title for f in found)


def test_the_joints_rule_follows_the_load_on_an_arm_down() -> None:
    """Arms hung on the inner faces of their legs by one screw each place: too weak, or told at least."""
    made = chair()
    low = [replace(m, frame=replace(m.frame, origin=(m.frame.origin[0], m.frame.origin[1], 0.0)))
           for m in made.members if m.key.startswith("Leg")]
    arm = box("Armrest 0", (45, 0, 500), (28, 600, 90), along="y", thick="x")
    hung = piece([arm, *low], [asked("arm load", ["Armrest 0"])], screwed=[("Armrest", "Leg")])
    one = replace(hung, joints=tuple(replace(j, fasteners=len(j.contacts)) for j in hung.joints))
    found = joints.check(asked("joints"), case(one))
    assert {f.level for f in found} & {Level.CAUTION, Level.STOP}


def test_someone_who_sits_on_an_arm_far_outside_the_legs_tips_the_chair() -> None:
    """A 20 kg chair 600 mm wide on legs 260 mm from its middle: 20·9.81·260 = 51 N·m hold 1112 N at 46 mm."""
    for out, level in ((40, Level.OK), (50, Level.STOP)):
        legs = [replace(box(f"Leg {n}", (x, y, 0), (40, 40, 500), along="z", thick="y"), density_kg_m3=0.001)
                for n, (x, y) in enumerate(((40, 0), (520, 0), (40, 460), (520, 460)))]
        seat = replace(box("Seat", (40, 0, 400), (520, 500, 30)), density_kg_m3=20 / (520 * 500 * 30e-9))
        arm = replace(box("Arm", (560 + out - 50, 0, 500), (100, 500, 30), along="y"), density_kg_m3=0.001)
        found = arm_load._perched(asked("arm load", ["Arm"]), case(piece([*legs, seat, arm])), arm)
        assert found.level is level, out
