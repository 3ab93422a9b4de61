"""Wind: does a tall piece or screen stand, what must its anchors hold, and what is blown off a roof.

q = 0.613·v² (N/m², v in m/s), F = q·c_f·A on the whole upright area of its broad side, at half its height;
it stands while 0.6·W·a >= F·h/2 and otherwise needs anchors that hold T = (F·h/2 - 0.6·W·a)/B, B between the
foot lines. v by the site's exposure: sheltered, suburban, open, coast, roof. Always runs for pieces from
1.1 m high, and for slim ones from 0.9 m. Unknown exposure: not checked. Gaps between boards are counted as
solid: on the safe side. Lower pieces from 400 mm on, where the site says open, coast or roof: by the same
formula, empty, and they slide where F > r·0.6·W, r the rubbing under the feet; a caution at most, in the
open a note where it only slides, soil will hold it or its side is open work (judgement). Units N, mm.
Source: the form of ASCE 7 and EN 1991-1-4 (memory); the local code decides.
Limits of validity: solid faces, steady wind; gusts that shake it and lee of walls are not reckoned.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece.fixed import is_fixed
from ..piece.model import AskedCheck
from .anchorage import outcome, resting
from .held_up import by_weight, is_dug_in, is_hung
from .rule import Case, Rule, Unknown
from .stance import Level2, Unheld, stance_of
from .touches import UP, reach
from .words import GRAVITY

EXPOSURES = ("sheltered", "suburban", "open", "coast", "roof")
_HARD = ("coast", "roof")
_WINDY = ("open", *_HARD)
_SOLID = 0.7                 # of the broad side; less is open work; judgement, as wind_frame.py


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One finding for the broad side; nothing for low, broad pieces out of strong wind."""
    if not looked_at(case):
        return _loose(asked.rule.rule, case)
    if is_dug_in(case):
        return ()                        # dug_in.py and wind_frame.py
    if is_hung(case):
        raise Unknown("what hangs on a wall is not judged for wind")
    high, (force, arm, apart, _) = case.piece.standing_mm[2], pushed(case)
    weight = case.limit("wind.dead") * case.piece.mass_kg * GRAVITY
    turning = force * high / 2
    pull = max(0.0, (turning - weight * arm) / apart)
    words, stands = case.words, turning <= weight * arm
    level, title, more, mend = Level.OK, "Stands in the wind", "", ""
    if not stands:
        level, title, more, mend = outcome(
            resting(case, next(unheld(case))), Level.STOP, "Wind blows it over",
            "Wind: only its fixing holds it", "")
        more = f"Anchors on the windward side hold {words.force(pull)} together, from either side.{more}"
        mend = f"Anchor it to hold {words.force(pull)}; ask what the local code asks for. {mend}".rstrip()
    return (Finding(
        asked.rule.rule, level, title,
        f"Exposure {case.site.exposure}: {words.force(force)} of wind on its broad side, "
        f"{words.length(high)} high. {more}".rstrip(),
        words.turning(turning), words.turning(weight * arm),
        case.source("wind.air", "wind.shape", f"wind.speed.{exposure(case)}"),
        mend,
        f"q = {case.limit('wind.air'):g}·v² = {words.pressure(pressure(case))}; F = q·"
        f"{case.limit('wind.shape'):g}·A = {words.force(force)}; {case.limit('wind.dead'):g}·W·a = "
        f"{words.force(weight)} × {words.length(arm)} against F·h/2 = {words.force(force)} × "
        f"{words.length(high / 2)}"),)


def _loose(rule: str, case: Case) -> tuple[Finding, ...]:
    """What is too low to count as a screen, where the wind is strong: blown over, pushed along, or not."""
    words, high, given = case.words, case.piece.standing_mm[2], case.site.exposure.strip().lower()
    if given not in _WINDY or high < case.limit("wind.low_from") or not by_weight(case):
        return ()
    force, arm, _, _ = pushed(case)
    push = pressure(case) * case.limit("wind.shape") * max(case.piece.standing_mm[:2]) * high
    weight, rubs = case.limit("wind.dead") * case.piece.mass_kg * GRAVITY, case.limit("wind.rubbing")
    soil = case.limit("wind.dead") * _soil_kg(case) * GRAVITY
    over, along = force * high / 2 > weight * arm, push > rubs * weight
    filled = soil > 0.0 and force * high / 2 <= (weight + soil) * arm and push <= rubs * (weight + soil)
    level, title, more, mend = Level.OK, "Stands in the wind", "", ""
    if over or along:
        level, title, more, mend = outcome(
            resting(case, next(unheld(case))),
            Level.CAUTION if given in _HARD or (over and not filled and _closed(case)) else Level.NOTE,
            "Wind can blow it over" if over else "Wind can push it along", "Wind: only its fixing holds it",
            ("Fill it as soon as it stands; until then tie" if filled else "Tie")
            + " it down, or bring it in before a storm.")
        if level is Level.STOP:
            level = Level.CAUTION
        if not over and is_fixed(case.piece):
            level, title, mend = Level.NOTE, "Wind: only its fixing holds it", ""
    return (Finding(
        rule, level, title,
        f"Exposure {case.site.exposure}: {words.force(push)} of wind on its broad side, {words.length(high)} "
        f"high, gaps as solid; empty it weighs {words.mass(case.piece.mass_kg)}.{more}",
        words.turning(force * high / 2) if over else words.force(push),
        words.turning(weight * arm) if over else words.force(rubs * weight),
        case.source("wind.air", "wind.shape", f"wind.speed.{given}", "wind.rubbing"), mend,
        f"F·h/2 = {words.force(force)} × {words.length(high / 2)} against {case.limit('wind.dead'):g}·W·a = "
        f"{words.force(weight)} × {words.length(arm)}; F = {words.force(push)} against r·"
        f"{case.limit('wind.dead'):g}·W = {rubs:g} × {words.force(weight)}"),)


def _closed(case: Case) -> bool:
    """Whether its members, each as wide and high as it reaches, cover most of its broad side."""
    length, depth, high = case.piece.standing_mm
    across = (1.0, 0.0, 0.0) if length >= depth else (0.0, 1.0, 0.0)
    sides = ((reach(m, across), reach(m, UP)) for m in case.piece.members)
    return sum((x1 - x0) * (z1 - z0) for (x0, x1), (z0, z1) in sides) >= _SOLID * max(length, depth) * high


def _soil_kg(case: Case) -> float:
    """Dry mix that a planter is filled with, by its checks; 0 where it holds none."""
    room = max((float(c.values.get("soil_volume") or 0.0) for c in case.piece.checks), default=0.0)
    return case.limit("soil.dry_density") * 1e-9 * room if room else 0.0


def looked_at(case: Case) -> bool:
    """Whether it is tall or slim enough for the wind to matter."""
    length, depth, high = case.piece.standing_mm
    slim = high > case.limit("wind.slim") * min(length, depth) and high >= case.limit("wind.screen_from")
    return slim or high >= case.limit("wind.checked_from")


def unheld(case: Case) -> Iterator[Unheld]:
    """What is left to anchors in the wind, at half the height that it blows on."""
    high, (force, arm, _, way) = case.piece.standing_mm[2], pushed(case)
    weight = case.limit("wind.dead") * case.piece.mass_kg * GRAVITY
    yield Unheld("wind", force * high / 2 - weight * arm, high / 2, way)


def exposure(case: Case) -> str:
    """The site's exposure as a word of the list; Unknown where it is not given."""
    given = case.site.exposure.strip().lower()
    if given not in EXPOSURES:
        said = f"'{given}' is none of" if given else "give one of"
        raise Unknown(f"a piece this tall needs the site's exposure; {said} {', '.join(EXPOSURES)}")
    return given


def pressure(case: Case) -> float:
    """q in N/mm²."""
    return case.limit("wind.air") * case.limit(f"wind.speed.{exposure(case)}") ** 2 * 1e-6


def pushed(case: Case) -> tuple[float, float, float, Level2]:
    """(force on a broad side N, arm of the weight mm, distance of the foot lines mm, way), the worse way."""
    length, depth, high = case.piece.standing_mm
    on, (x, y, _) = stance_of(case.piece, case.standing_mm), case.piece.centre
    q = pressure(case) * case.limit("wind.shape")
    ways = []
    for broad, (one, other) in ((length, ((0.0, -1.0), (0.0, 1.0))), (depth, ((-1.0, 0.0), (1.0, 0.0)))):
        (near, way), (far, _) = sorted(((on.room(x, y, one), one), (on.room(x, y, other), other)))
        ways.append((q * broad * high, near, max(near + far, 1.0), way))
    return max(ways, key=lambda w: w[0] / max(w[1], 1.0))


RULE = Rule("wind", check)
