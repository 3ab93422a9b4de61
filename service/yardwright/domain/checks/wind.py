"""Wind on tall pieces and screens: does it stand, and what must its anchors hold.

q = 0.613·v² (N/m², v in m/s), F = q·c_f·A on the whole upright area of its broad side, at half its height;
it stands while 0.6·W·a >= F·h/2 and otherwise needs anchors that hold T = (F·h/2 - 0.6·W·a)/B, B between the
foot lines. v by the site's exposure: sheltered, suburban, open, coast, roof. Always runs for pieces from
1.1 m high, and for slim ones from 0.9 m. Unknown exposure: not checked. Gaps between boards are counted as
solid: on the safe side. Units N, mm.
Source: the form of ASCE 7 and EN 1991-1-4 (memory); the local code decides.
Limits of validity: solid faces, steady wind; gusts that shake it and lee of walls are not reckoned.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from .anchorage import outcome, resting
from .held_up import is_dug_in, is_hung
from .rule import Case, Rule, Unknown
from .stance import Level2, Unheld, stance_of
from .words import GRAVITY

EXPOSURES = ("sheltered", "suburban", "open", "coast", "roof")


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """One finding for the broad side; nothing for low, broad pieces."""
    if not looked_at(case):
        return ()
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


def looked_at(case: Case) -> bool:
    """Whether it is tall or slim enough for the wind to matter."""
    length, depth, high = case.piece.standing_mm
    slim = high > case.limit("wind.slim") * min(length, depth) and high >= case.limit("wind.screen_from")
    return slim or high >= case.limit("wind.checked_from")


def unheld(case: Case) -> Iterator[Unheld]:
    """What is left to anchors in the wind, at half the height that it blows on."""
    high, (force, arm, _, way) = case.piece.standing_mm[2], pushed(case)
    weight = case.limit("wind.dead") * case.piece.mass_kg * GRAVITY
    yield Unheld("wind", force * high / 2 - weight * arm, high, way)


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
