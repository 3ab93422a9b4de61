"""Fall of the ground: what each foot needs under it so that the piece stands level.

The ground is a plane falling ``fall_along`` along the wall, whichever way is worse for the piece, and
``fall_away`` towards the front, rise over run; drop at a foot = fall along x its distance from one end + fall
away x its distance from the back, less the least of them. Up to 3/8 in (10 mm) over the piece is shimmed,
more is cut to scribe on site: 0.5 to 1 h (common practice). Levelling feet take up what their thread reaches.
Always runs. mm. Valid for a plane; humps and hollows are not seen. Nothing where the ground was said and does
not fall.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from ..finding import Finding, Level
from ..measure import MM, SIXTEENTH, from_mm, round_to
from ..piece.model import AskedCheck, Member, Piece
from ..site import Ground, Site
from .rule import Case, Rule
from .surface import kind_of
from .touches import corners

LONG_MM = 300.0                  # a foot longer than this stands at two places, its ends; judgement
MOST_NAMED = 16                  # feet in the working


@dataclass(frozen=True, slots=True)
class Foot:
    """One place where the piece stands, and how far the ground lies below it with the piece level."""

    name: str
    x_mm: float
    y_mm: float
    drop_mm: float = 0.0


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """How much is to be made up and how; *not checked* where a measured site says nothing of its ground."""
    ground, rule = case.site.ground, asked.rule.rule
    if not ground.fall_along and not ground.fall_away:
        return (_unsaid(rule),) if _measured(case.site) and not ground.surface else ()
    both = {way: drops(case.piece, replace(ground, fall_along=along), case.standing_mm)
            for way, along in (("right", abs(ground.fall_along)), ("left", -abs(ground.fall_along)))}
    way = max(both, key=lambda w: max((foot.drop_mm for foot in both[w]), default=0.0))
    most = max((foot.drop_mm for foot in both[way]), default=0.0)
    if most < 1.0:
        return ()
    return (_told(rule, case, both[way], most, way),)


def _measured(site: Site) -> bool:
    return bool(site.walls or site.corners or site.depths)


def _unsaid(rule: str) -> Finding:
    return Finding(rule, Level.NOT_CHECKED, "Fall of the ground: not checked",
                   "Neither what the ground is nor how it falls was said.", limit="",
                   mend="Lay a level on a straightedge: drop at its low end over its length.")


def drops(piece: Piece, ground: Ground, standing_mm: float) -> tuple[Foot, ...]:
    """Every foot with the drop under it, the highest at 0; a positive fall along is to the right."""
    feet = sorted(_feet(piece, standing_mm), key=lambda f: (-round(f.y_mm), round(f.x_mm)))
    if not feet:
        return ()
    low = [ground.fall_along * f.x_mm - ground.fall_away * f.y_mm for f in feet]
    return tuple(Foot(f.name, f.x_mm, f.y_mm, d - min(low)) for f, d in zip(feet, low, strict=True))


def _feet(piece: Piece, standing_mm: float) -> Iterator[Foot]:
    """Members that reach the ground; strips of one blank are one foot, a long one stands at its two ends."""
    blanks: dict[tuple[str, int], list[tuple[float, float]]] = {}
    alone: list[tuple[Member, list[tuple[float, float]]]] = []
    for member in piece.members:
        places = [(x, y) for x, y, z in corners(member) if z <= standing_mm]
        if places and member.glue_up:
            blanks.setdefault((member.glue_up, member.glue_up_no), []).extend(places)
        elif places:
            alone.append((member, places))
    for (name, _), places in blanks.items():
        yield from _ends(name, places)
    for member, places in alone:
        yield from _ends(member.name, places)


def _ends(name: str, places: list[tuple[float, float]]) -> Iterator[Foot]:
    (left, right), (front, back) = ((min(v), max(v)) for v in zip(*places, strict=True))
    xs = (left, right) if right - left > LONG_MM else ((left + right) / 2,)
    ys = (front, back) if back - front > LONG_MM else ((front + back) / 2,)
    for x in xs:
        for y in ys:
            yield Foot(name, x, y)


def _told(rule: str, case: Case, feet: tuple[Foot, ...], most: float, way: str) -> Finding:
    words, shim = case.words, case.limit("ground.shimmed")
    screwed = [h for h in case.piece.hardware if h.kind == "levelling foot" and h.count > 0]
    limit, name = (case.limit("ground.foot_travel"), "ground.foot_travel") if screwed else (
        shim, "ground.shimmed")
    taken = f" It is taken to fall to the {way} along the wall." if case.site.ground.fall_along else ""
    detail = f"Level from the highest foot, the ground lies below the feet by: {_named(case, feet)}.{taken}"
    if most <= limit:
        level, title = Level.NOTE, f"{'Levelling feet' if screwed else 'Shims'} take up the fall"
        mend = f"Screw the feet out by up to {_up(case, most)}." if screwed else (
            f"Bring shims that do not rot, up to {_up(case, most)} thick.")
    else:
        level, title = Level.CAUTION, ("The fall is more than the levelling feet reach" if screwed
                                       else "Legs to be cut to the ground")
        mend = _cut(case, most)
    working = "; ".join(f"{f.name} at {words.length(f.x_mm)} from the left, {words.length(f.y_mm)} from the "
                        f"front: {words.fine(f.drop_mm)}" for f in feet[:MOST_NAMED])
    working += f"; and {len(feet) - MOST_NAMED} more" if len(feet) > MOST_NAMED else ""
    return Finding(rule, level, title, detail, _up(case, most), words.length(limit), case.source(name),
                   mend, working)


def _cut(case: Case, most: float) -> str:
    low, high = case.limit("ground.scribing_least"), case.limit("ground.scribing_most")
    soft = kind_of(case.site.ground.surface) == "soft"
    dig = "Dig or fill the ground level under it, or make" if soft else "Make"
    return (f"{dig} the legs {_up(case, most)} longer and cut them to scribe on site: {low:g} to {high:g} h "
            "that are not in the price unless they were added.")


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
