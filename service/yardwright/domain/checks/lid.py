"""Lid: what it takes to lift it, and what its stays must hold.

Torque about the hinge line shut: T = m·g·r, r the level distance from the line to the lid's centre of
gravity; for an even lid W·L/2. Hand force at the far edge: F = T / reach. Stays together are rated for
1.1 x the greatest torque of the swing at least. Units kg, N, mm, N·mm; stay_torque as templates give it is in
N·m. Valid for a lid hinged on a level line.
Sources: lifting practice 11-15 kg (memory), 1.1 (common practice), moments (geometry).
Limits of validity: a lid hinged on a level line, lifted at its far edge; wind under an open lid is not
judged.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..hardware.bought import lid_moment_nmm
from ..piece.model import AskedCheck, Member, Piece, Vector
from .hinge_side import fingers
from .rule import Case, Rule, Unknown
from .touches import corners
from .words import GRAVITY

UPRIGHT = 0.7                # cosine with upright from which a hinge carries a door


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """The hand's force, the stays' torque; fingers at the hinge where no chest check tells of them."""
    group = asked.rule.words.get("group", "lid")
    members = case.piece.group(group)
    if group not in case.piece.moving or not members:
        return ()
    at, axis, _ = case.piece.moving[group]
    if is_door(case.piece, group):
        raise Unknown(f"the {group} hangs on an upright hinge: it is a door, not a lid")
    mass = sum(m.mass_kg for m in members)
    torque = sum(m.mass_kg * GRAVITY * lever(m.centre, at, axis) for m in members)
    far = max(lever(c, at, axis) for m in members for c in corners(m))
    swing = lid_moment_nmm(case.piece, group)
    told = any(other.rule.rule == "chest" for other in case.piece.checks)
    return (_hand(asked, case, members, mass, torque, far), _stays(asked, case, swing, group),
            *(() if told else (fingers(asked, case),)))


def lever(point: Vector, at: Vector, axis: Vector) -> float:
    """Level distance in mm of a point from a level hinge line."""
    x, y = point[0] - at[0], point[1] - at[1]
    return abs(axis[0] * y - axis[1] * x)


def _hand(asked: AskedCheck, case: Case, members: tuple[Member, ...], mass: float, torque: float,
          far: float) -> Finding:
    words = case.words
    force = torque / far
    held = force / GRAVITY
    most, easy = case.limit("people.lid_mass"), case.limit("people.lid_mass_easy")
    level = Level.OK if held <= easy else Level.NOTE if held <= most else Level.CAUTION
    title = {Level.OK: "Lid: light to lift", Level.NOTE: "Lid: a firm lift",
             Level.CAUTION: "Lid: too heavy for one hand"}[level]
    return Finding(
        asked.rule.rule, level, title,
        f"The lid weighs {words.mass(mass)}; its far edge takes {words.force(force)} to lift.",
        words.force(force), f"{words.force(easy * GRAVITY)} easy, {words.force(most * GRAVITY)} at most",
        case.source("people.lid_mass"),
        "" if level is Level.OK else "Split the lid in two, choose a lighter timber, or fit lifting stays.",
        f"T = Σ m·g·r = {words.turning(torque)}; F = T / {words.length(far)}")


def is_door(piece: Piece, group: str) -> bool:
    """Whether a group turns on an upright hinge; one that turns on another is a lid."""
    return group in piece.moving and abs(piece.moving[group][1][2]) > UPRIGHT


def stays_fitted(piece: Piece, group: str) -> int:
    """How many lid stays of the quote hold this lid: those of its own (words group), else an even share."""
    stays = [h for h in piece.hardware if h.kind == "stay"]
    named = {h.words["group"] for h in stays if h.words.get("group")}
    rest = [g for g in piece.moving if piece.group(g) and g not in named and not is_door(piece, g)] or [group]
    if group in named:
        return int(sum(h.count for h in stays if h.words.get("group") == group))
    return int(sum(h.count for h in stays if not h.words.get("group"))) // len(rest)


def _stays(asked: AskedCheck, case: Case, torque: float, group: str) -> Finding:
    words, stays = case.words, stays_fitted(case.piece, group)
    need = torque * case.limit("people.stay_factor")
    source = case.source("people.stay_factor")
    worked = (f"greatest of the swing {words.turning(torque)} × {case.limit('people.stay_factor'):g} = "
              f"{words.turning(need)}" + (f" / {stays} stays" if stays > 1 else ""))
    if stays <= 0:
        return Finding(asked.rule.rule, Level.CAUTION, "Lid: nothing holds it open",
                       "A lid that can slam hurts fingers and heads.", "no stay",
                       f"stays rated {words.turning(need)} together", source, "Fit a stay.", worked)
    each = need / stays
    rated = float(asked.values.get("stay_torque") or 0.0) * 1000
    if rated:
        good = rated >= each
        return Finding(asked.rule.rule, Level.OK if good else Level.CAUTION,
                       "Lid stays: strong enough" if good else "Lid stays: too weak for this lid",
                       f"{stays} stays of {words.turning(rated)} each hold the {group}.",
                       words.turning(rated), f"{words.turning(each)} each at least", source,
                       "" if good else f"Fit stays rated {words.turning(each)} each, or one more.", worked)
    hold = "stay holds" if stays == 1 else "stays hold"
    if any(g.kind == "stay" and "torque_nmm" in g.size for g in case.shop.market.goods):
        return Finding(asked.rule.rule, Level.OK, "Lid stays: chosen to hold the lid",
                       f"{stays} {hold} the {group} at any angle, from the rated ones of the goods list; "
                       "more where those asked for would be too weak.", words.turning(torque),
                       f"{words.turning(need)} together", source, working=worked, customer=False)
    return Finding(asked.rule.rule, Level.NOTE, f"Lid stays: rated {words.turning(each)} each at least",
                   f"{stays} {hold} the {group} at any angle.",
                   words.turning(torque), f"{words.turning(need)} together", source, working=worked,
                   customer=False)


RULE = Rule("lid", check, may={"stay_torque": "number", "hinge_gap": "length"}, words={"group": ()})
