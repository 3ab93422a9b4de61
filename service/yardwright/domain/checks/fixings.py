"""What one joint place may carry, and how stiff it is: screws, lag screws, nails, bolts and
glue between two members.

Sideways: the NDS yield modes (screws.py); pulled: withdrawal and the head's pull; wet 0.7, end grain 0.67
sideways and nothing in withdrawal. The fastener goes through the thinner piece into the thicker (hardware).
Less than 6 diameters (lag screws 4) in the holding piece counts less in proportion. Lag screws may be
pulled from end grain at 0.75, not by more than their washer bears. Glue counts half of the wood's shear
over the touching face, never on end grain. Staples carry nothing. Units N, mm, N/mm.
Sources: NDS (memory, withdrawal seen) through data/limits/joints.toml.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..hardware.screws import LAG, held_and_holding, length_mm, shank_mm, through_mm
from ..piece.model import Contact, Member, Vector
from .rule import Case, NoneSold, Unknown
from .screws import (
    LAG_ROOT,
    LAG_TIP,
    ROOT,
    head_pull,
    lag_thread,
    lag_withdrawal,
    lateral,
    slip_modulus,
    withdrawal,
)
from .strength import strength
from .touches import Touch, dot
from .words import INCH_MM

PULLED = 0.7                 # cosine between a joint's face and the load from which it is pulled apart
GENERIC_LAG_SHANKS_MM = (6.35, 7.9375, 9.525, 12.7)
GENERIC_LAG_MM = tuple(n * INCH_MM for n in (1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 5.0, 6.0))
GENERIC_MM = tuple(n * INCH_MM for n in (1.25, 1.625, 2.0, 2.5, 3.0, 3.5, 4.0))
KINDS = {"screws": "screw", "lags": LAG, "nails": "nail", "bolts": "bolt"}
NAIL_PULLED = 0.25           # NDS Table 11.3.3: nails driven dry, used wet (memory)


@dataclass(frozen=True, slots=True)
class Fixing:
    """One fastener in one place: what it may carry and how far it gives."""

    allowed_n: float
    stiffness: float
    working: str


def one_fastener(case: Case, member: Member, touch: Touch, push: Vector) -> Fixing:
    """One of the joint's fasteners, loaded the way of ``push``; Unknown without the timber's gravity."""
    other = case.member(touch.other)
    contact = Contact(member.key, other.key, touch.area_mm2, touch.normal, touch.centre, touch.low,
                      touch.high)
    held, holding = held_and_holding(member, other, contact)
    thinner = through_mm(member, contact) <= through_mm(other, contact)
    side, main = (member, other) if thinner else (other, member)
    end = abs(dot(main.frame.along, touch.normal)) > PULLED
    pulled = dot(touch.normal, push) < -PULLED
    shank, length = _size(case, touch.kind, held, holding)
    side_g, main_g = _gravity(case, side), _gravity(case, main)
    wet, inside = case.limit("joints.wet"), length - held
    along = abs(dot(side.frame.along, push)) > PULLED, abs(dot(main.frame.along, push)) > PULLED
    washer = 2 * 3.141592653589793 * shank**2 * case.limit("joints.washer")
    if touch.kind == "bolts":
        allowed = washer if pulled else lateral(side_g, main_g, shank, held, holding, *along) * wet
    elif touch.kind == "lags" and pulled:
        dry = lag_withdrawal(main_g, shank, lag_thread(shank, length, inside),
                             case.limit("structure.lag_withdrawal"))
        allowed = min(dry * wet * (case.limit("joints.lag_end_grain") if end else 1.0), washer)
    elif touch.kind == "lags":
        gripped = max(0.1, inside - LAG_TIP * shank)
        deep = min(1.0, gripped / (case.limit("joints.lag_penetration") * shank))
        allowed = lateral(side_g, main_g, shank * LAG_ROOT, held, gripped, *along, shank) * (
            wet * deep * (case.limit("joints.end_grain") if end else 1.0))
    elif pulled:
        dry = withdrawal(main_g, shank, inside, case.limit("structure.screw_withdrawal"))
        factor = NAIL_PULLED if touch.kind == "nails" else wet
        allowed = 0.0 if end else min(dry * factor, head_pull(side_g, shank, held) * wet)
    else:
        deep = min(1.0, inside / (case.limit("joints.penetration") * shank))
        allowed = lateral(side_g, main_g, shank * ROOT, held, inside) * wet * deep * (
            case.limit("joints.end_grain") if end else 1.0)
    how = ("pulled" if pulled else "sideways") + (" in end grain" if end else "")
    words = case.words
    return Fixing(allowed, slip_modulus(shank),
                  f"{words.fine(shank)} {KINDS.get(touch.kind, 'fastener')} {how}, {words.length(held)} "
                  f"held, {words.length(inside)} in: {words.force(allowed)} wet")


def fastener_size(case: Case, member: Member, touch: Touch) -> tuple[float, float]:
    """(shank mm, length mm) of the fasteners of a touch; NoneSold where nothing suits it."""
    other = case.member(touch.other)
    contact = Contact(member.key, other.key, touch.area_mm2, touch.normal, touch.centre, touch.low,
                      touch.high)
    return _size(case, touch.kind, *held_and_holding(member, other, contact))


def glued_force(case: Case, member: Member, touch: Touch) -> float:
    """What the glue of a touch may carry; nothing on end grain."""
    other = case.member(touch.other)
    if not touch.glued or any(abs(dot(m.frame.along, touch.normal)) > PULLED for m in (member, other)):
        return 0.0
    shear = min(strength(case, m, False, False, "people").shear for m in (member, other))
    return touch.area_mm2 * shear * case.limit("joints.glue_share")


def _size(case: Case, kind: str, held: float, holding: float) -> tuple[float, float]:
    """(shank mm, length mm) of the fastener the quote counts for this place."""
    sold = [g for g in case.shop.market.goods if g.kind == KINDS.get(kind) and g.size.get("length_nm")]
    if kind == "bolts":
        shanks = [g.size["diameter_nm"] / 1e6 for g in sold if g.size.get("diameter_nm")]
        return min(shanks, default=INCH_MM / 4), held + holding
    lag, words = kind == "lags", case.words
    lengths = {g.size["length_nm"] / 1e6 for g in sold} or set(GENERIC_LAG_MM if lag else GENERIC_MM)
    length = length_mm(held, holding, lengths, case.shop, KINDS[kind])
    if length is None:
        raise NoneSold(f"no {KINDS[kind]} suits {words.length(held)} on {words.length(holding)}")
    target = shank_mm(KINDS[kind], held, case.shop)
    shanks = [g.size["diameter_nm"] / 1e6 for g in sold
              if g.size.get("diameter_nm") and abs(g.size["length_nm"] / 1e6 - length) < 0.1]
    offered = shanks or (GENERIC_LAG_SHANKS_MM if lag else (target,))
    return min(offered, key=lambda s: abs(s - target)), length


def _gravity(case: Case, member: Member) -> float:
    timber = case.timber(member)
    if not timber.known("specific_gravity"):
        raise Unknown(f"{timber.name} has no specific gravity")
    return timber.value("specific_gravity")
