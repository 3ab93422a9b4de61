"""Posts in the ground: how deep they reach, and that the ground is not known.

A third of the height above the ground, 24 in at least, is common practice for screens and fence posts; less
is a caution and the piece is judged as standing by its weight (held_up.py), less than half of it a stop. What
soil and footing hold is never known here: always *not checked*, with what each post turns its foot with in
the wind, M = w·h²/2. The posts' own bending: wind_frame.py. Always runs, for pieces whose template stands
with posts in the ground; nothing tips over its feet where they are deep. Units N, mm, N·mm.
Source: common practice, no source; frost and wind are the local code's.
Limits of validity: posts in firm ground; sand, made-up ground and frost ask for more.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..piece.model import AskedCheck
from ..template.stands import IN_GROUND
from .held_up import asked_depth_mm, dug_mm
from .rule import Case, Rule
from .surface import kind_of
from .wind import EXPOSURES, looked_at, pressure
from .wind_posts import lines, posts_of


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """The depth; then the ground."""
    if case.piece.template.stands != IN_GROUND:
        return ()
    rule, depth = asked.rule.rule, dug_mm(case)
    if depth <= 0.0:
        return (Finding(rule, Level.STOP, "No post reaches into the ground",
                        "Its template stands with posts in the ground, and nothing upright reaches below 0.",
                        source="geometry of the piece", mend="Let its posts begin below 0."),)
    surface = case.site.ground.surface
    if kind_of(surface) == "raised":
        return (Finding(rule, Level.STOP, f"No post stands in a {surface}",
                        f"Its posts reach into the ground, and it is to stand on a {surface}.",
                        source="the site", mend="Choose a piece on feet, or another place."),)
    return _depth(rule, case, depth), _ground(rule, case)


def _depth(rule: str, case: Case, depth: float) -> Finding:
    words, high, need = case.words, case.piece.standing_mm[2], asked_depth_mm(case)
    share, least = case.limit("ground.dug_share"), case.limit("ground.dug_least")
    good, shallow = depth >= need, depth < case.limit("ground.dug_stop") * need
    return Finding(
        rule, Level.NOTE if good else Level.STOP if shallow else Level.CAUTION,
        "Posts deep enough, where the ground is firm" if good else "Posts far too shallow" if shallow
        else "Posts not deep enough",
        f"They reach {words.length(depth)} into the ground and {words.length(high)} above it."
        + ("" if good else " It is judged as standing by its weight."),
        words.length(depth), f"{words.length(need)} at least",
        case.source("ground.dug_share", "ground.dug_least", *(() if good else ("ground.dug_stop",))),
        "" if good else f"Set them {words.length(need)} deep.",
        f"the greater of {words.length(high)} × {share:g} and {words.length(least)}")


def _ground(rule: str, case: Case) -> Finding:
    turned = ""
    if looked_at(case) and case.site.exposure.strip().lower() in EXPOSURES:
        load = pressure(case) * case.limit("wind.shape")
        dug, high = posts_of(case), case.piece.standing_mm[2]
        most = max(max(lines(case, dug, way, load).values()) for way in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)))
        turned = (f" The wind pushes a post with {case.words.force(most * high)} and turns it with "
                  f"{case.words.turning(most * high * high / 2)} at the ground.")
    return Finding(rule, Level.NOT_CHECKED, "What the ground holds: not checked",
                   f"Neither the soil, nor the footing, nor the frost depth is known here.{turned}",
                   source="the site", mend="Set posts in concrete or rammed gravel below the frost as the "
                   "local code asks; call before you dig; have a person who knows look at soft ground.")


RULE = Rule("posts in the ground", check)
