"""Fall of the ground: what each foot needs under it so that the piece stands level.

What lies under each foot and what takes it up is worked out in fit/ground.py. Up to 3/8 in (10 mm) over the
piece is shimmed, more is cut to scribe on site: 0.5 to 1 h (common practice); up to 2 in a note where the
shop goes there and its price holds it, else a caution. Levelling feet take up what their thread reaches.
Always runs. mm. Nothing where the ground was said and does not fall.
Limits of validity: a plane; humps, hollows and settling ground are not seen. Source: data/limits/ground.toml.
"""

from __future__ import annotations

from ..finding import Finding, Level
from ..fit.ground import Foot, Levelling, has_levelling_feet, levelling
from ..measure import MM, SIXTEENTH, from_mm, round_to
from ..piece.model import AskedCheck, Piece
from ..site import Site
from .held_up import by_weight
from .rule import Case, Rule
from .surface import kind_of

MOST_NAMED = 16                  # feet in the working


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """How much is to be made up and how; *not checked* where a measured site says nothing of its ground."""
    ground, rule = case.site.ground, asked.rule.rule
    if not by_weight(case):
        return ()
    if not ground.fall_along and not ground.fall_away:
        return (_unsaid(rule),) if _measured(case.site) and not ground.surface else ()
    found = levelling(case.piece, ground, case.standing_mm, case.limit("ground.shimmed"),
                      case.limit("ground.foot_travel"))
    return () if found is None else (_told(rule, case, found),)


def _measured(site: Site) -> bool:
    return bool(site.walls or site.corners or site.depths)


def _unsaid(rule: str) -> Finding:
    return Finding(rule, Level.NOT_CHECKED, "Fall of the ground: not checked",
                   "Neither what the ground is nor how it falls was said.", limit="",
                   mend="Lay a level on a straightedge: drop at its low end over its length.")


def _told(rule: str, case: Case, found: Levelling) -> Finding:
    words, feet, most = case.words, found.feet, found.most_mm
    screwed = has_levelling_feet(case.piece)
    name = "ground.foot_travel" if screwed else "ground.shimmed"
    limit = case.limit(name)
    taken = (f" It is taken to fall to the {found.way} along the wall; the other way asks for no more."
             if case.site.ground.fall_along else "")
    detail = f"Level from the highest foot, the ground lies below the feet by: {_named(case, feet)}.{taken}"
    if found.how != "scribe":
        level, title = Level.NOTE, f"{'Levelling feet' if screwed else 'Shims'} take up the fall"
        mend = f"Screw the feet out by up to {_up(case, most)}." if screwed else (
            f"Bring shims that do not rot, up to {_up(case, most)} thick.")
    else:
        plain = case.worked_on_site and not screwed and most <= case.limit("ground.scribed_plain")
        level, title = Level.NOTE if plain else Level.CAUTION, (
            "The fall is more than the levelling feet reach" if screwed else "Legs to be cut to the ground")
        mend = _cut(case, found)
    working = "; ".join(f"{f.name} at {words.length(f.x_mm)} from the left, {words.length(f.y_mm)} from the "
                        f"front: {words.fine(f.drop_mm)}" for f in feet[:MOST_NAMED])
    working += f"; and {len(feet) - MOST_NAMED} more" if len(feet) > MOST_NAMED else ""
    return Finding(rule, level, title, detail, _up(case, most), words.length(limit), case.source(name),
                   mend, working)


def _cut(case: Case, found: Levelling) -> str:
    low, high = case.limit("ground.scribing_least"), case.limit("ground.scribing_most")
    soft = kind_of(case.site.ground.surface) == "soft"
    dig = "Dig or fill the ground level under it, or make" if soft else "Make"
    return (f"{dig} the legs {_up(case, found.most_mm)} longer, as the cut list does, and cut "
            f"{found.scribed} of them to scribe on site, {low:g} to {high:g} h for four. That is in the "
            "price where delivery or installing is.")


def _up(case: Case, mm: float) -> str:
    """Rounded up to a mark of the tape: what is made up is never short."""
    mark = MM if case.writer.units == "mm" else SIXTEENTH
    return case.writer.length(round_to(from_mm(mm), mark, "up"))


def _named(case: Case, feet: tuple[Foot, ...]) -> str:
    """The most at each place under the piece: ``back left 0 in; front right 3/8 in``."""
    most: dict[str, float] = {}
    for foot in feet:
        where = _where(case.piece, foot)
        most[where] = max(most.get(where, 0.0), foot.drop_mm)
    return "; ".join(f"{where} {_up(case, mm)}" for where, mm in most.items())


def _where(piece: Piece, foot: Foot) -> str:
    """``front left``: where a foot is under the piece."""
    low, high = piece.closed.low, piece.closed.high
    depth = "front" if foot.y_mm < (low[1] + high[1]) / 2 else "back"
    share = (foot.x_mm - low[0]) / max(high[0] - low[0], 1.0)
    return f"{depth} {'left' if share < 0.25 else 'right' if share > 0.75 else 'middle'}"


RULE = Rule("fall of the ground", check)
