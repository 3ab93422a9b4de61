"""What a board may be stressed to, wet outdoors, and how stiff it is.

Two ways, the first that serves:
  * Dimension lumber (2 in nominal and thicker) in a structural grade: published design values
    F' = F x C_F x C_M x C_fu (laid flat) x C_r (sharing) x C_i (incised) x C_D (duration).
  * Everything else: clear wood. F' = rupture at 12 % x grade share / safety x wet x C_r x C_D.
Units N/mm². Valid for sound boards of the stated grade; not for round or notched stock.
Sources: NDS Supplement 4A/4B and EN 338 through data/limits/strength.toml and structure.toml; the
clear-wood shares are judgement and editable. A timber without figures raises Unknown.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..market import Timber
from ..piece.model import Member
from .rule import Case, Unknown

FAMILY = ("elasticity", "shear", "bending", *(f"bending-{n}" for n in (4, 5, 6, 8, 10, 12)))
NOMINAL = ((4, 100.0), (5, 127.0), (6, 160.0), (8, 210.0), (10, 260.0), (12, 9e9))   # up to this width, mm


@dataclass(frozen=True, slots=True)
class Strength:
    """Allowed stresses and stiffness in N/mm², and how they arose."""

    bending: float
    shear: float
    elasticity: float
    working: str
    source: str


def strength(case: Case, member: Member, flat: bool, sharing: bool, duration: str) -> Strength:
    """Allowed stresses of a member. ``flat``: bent over its thin way; ``sharing``: three or more boards
    joined so that they help each other (C_r); ``duration``: "people", "permanent" (soil) or "wind"."""
    timber = case.timber(member)
    grade = written_small(member.grade)
    family = _family(case, timber, grade)
    thick = min(member.width_mm, member.thickness_mm)
    european = "_en" if duration == "wind" and "en338" in family else ""
    lasting = case.limit(f"structure.duration_{duration}{european}")
    share = case.limit("structure.repetitive") if sharing else 1.0
    if family and thick >= case.limit("strength.clear_wood.thickness_from"):
        return _dimension_lumber(case, member, family, timber, flat, share, lasting)
    return _clear_wood(case, timber, grade, share, lasting)


def written_small(grade: str) -> str:
    """``No.2`` -> ``no-2``, ``Select Structural`` -> ``select-structural``."""
    kept = "".join(c if c.isalnum() else "-" for c in grade.lower().replace("#", "no-"))
    return "-".join(part for part in kept.split("-") if part)


def _family(case: Case, timber: Timber, grade: str) -> str:
    """The published values that serve a timber and grade, as a prefix of limit names; "" = none."""
    if _given(case, f"strength.en338.{grade}"):
        return f"strength.en338.{grade}"
    parts = timber.id.split("-")
    for n in range(len(parts), 0, -1):
        name = f"strength.{'-'.join(parts[:n])}.{grade}"
        if _given(case, name):
            return name
    return ""


def _given(case: Case, family: str) -> bool:
    """Whether any figure of the family is there; one of it left out is then missed, not passed over."""
    return any(f"{family}.{figure}" in case.shop.limits for figure in FAMILY)


def _dimension_lumber(case: Case, member: Member, family: str, timber: Timber, flat: bool,
                      share: float, lasting: float) -> Strength:
    width = max(member.width_mm, member.thickness_mm)
    size = next(n for n, up_to in NOMINAL if width <= up_to)
    # Published by some widths only: a ripped board is taken at the next wider one, which allows less.
    wider = (f"{family}.bending-{n}" for n, _ in NOMINAL if n >= size)
    sized = next((name for name in wider if name in case.shop.limits), "")
    steps: list[tuple[str, float]] = []
    if sized in case.shop.limits:
        base = case.limit(sized)
    else:
        sized, base = f"{family}.bending", case.limit(f"{family}.bending")
        if "en338" not in family:
            steps.append(("C_F", case.limit(f"strength.size_factor.{size}")))
            base *= steps[-1][1]
    european = "en338" in family
    wet = 1.0 if european or base <= case.limit("structure.wet_bending_free") else case.limit(
        "structure.wet_bending")
    wide = min(size, 10)
    laid_flat = case.limit(f"structure.flat_use.{wide}") if flat and not european else 1.0
    steps += [("C_M", wet), ("C_fu", laid_flat), ("C_r", share), ("C_D", lasting)]
    incised = bool(timber.treated) and "southern-pine" not in family and not european
    if incised:
        steps.append(("C_i", case.limit("structure.incised_bending")))
    bending = case.limit(sized)
    for _, factor in steps:
        bending *= factor
    weak = case.limit("structure.incised_bending") if incised else 1.0
    shear = case.limit(f"{family}.shear") * lasting * weak * (
        1.0 if european else case.limit("structure.wet_shear"))
    stiff = case.limit(f"{family}.elasticity") * case.limit("structure.wet_elasticity") * (
        case.limit("structure.incised_elasticity") if incised else 1.0)
    told = " × ".join([case.words.stress(case.limit(sized)), *(f"{n} {f:g}" for n, f in steps if f != 1.0)])
    return Strength(bending, shear, stiff, f"F_b' = {told} = {case.words.stress(bending)}",
                    case.source(sized, "structure.wet_bending"))


def _clear_wood(case: Case, timber: Timber, grade: str, share: float, lasting: float) -> Strength:
    for figure in ("rupture_mpa", "elasticity_mpa"):
        if not timber.known(figure):
            raise Unknown(f"{timber.name} has no {figure.split('_')[0]} figure")
    known = _grade_share(case, grade)
    safety, wet = case.limit("strength.clear_wood.safety"), case.limit("structure.wet_bending")
    part = case.limit(f"strength.grade_share.{known}")
    bending = timber.value("rupture_mpa") * part / safety * wet * share * lasting
    shear = (timber.value("rupture_mpa") * case.limit("strength.clear_wood.shear_share")
             / case.limit("strength.clear_wood.shear_safety") * case.limit("structure.wet_shear") * lasting)
    stiff = timber.value("elasticity_mpa") * case.limit("structure.wet_elasticity")
    extra = "".join(f" × {n} {f:g}" for n, f in (("C_r", share), ("C_D", lasting)) if f != 1.0)
    told = (f"F_b' = clear wood {case.words.stress(timber.value('rupture_mpa'))} × grade {part:g} ({known})"
            f" / {safety:g} × wet {wet:g}{extra} = {case.words.stress(bending)}")
    rupture = timber.figures["rupture_mpa"]
    return Strength(bending, shear, stiff, told,
                    f"{rupture.source} ({rupture.status}); grade share and safety: "
                    + case.source(f"strength.grade_share.{known}", "strength.clear_wood.safety"))


def _grade_share(case: Case, grade: str) -> str:
    """The longest known grade that begins this one: ``no-2-prime`` is taken as ``no-2``."""
    parts = grade.split("-")
    for n in range(len(parts), 0, -1):
        if f"strength.grade_share.{'-'.join(parts[:n])}" in case.shop.limits:
            return "-".join(parts[:n])
    return "other"
