"""From member rules to placed solid members: repeated, cut, mirrored, with their hands."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from ..errors import BadFormula, BadTemplate, Fault, NoStock
from ..measure import Writer
from ..template.model import End, MemberRule, Mirror
from .hands import is_handed
from .model import Frame, Member, ShapeWork
from .place import (
    Axes,
    EndPlane,
    Placed,
    angled_end,
    axes,
    end_against,
    level_end,
    place,
    plumb_end,
    square_end,
)
from .shape import least_steps, numbers_in, shaped
from .solid import Solid, mirrored_solid
from .stock import Pick, wide_enough
from .values import Values
from .vectors import AXES, Vector, cross, dot, mirrored, scaled, size, sub

MOST_MEMBERS = 600
MOST_MM = 100_000.0      # from the piece's corner: nothing lies further, and solids there lose their edges
LEAST_MM = 0.1           # thick or wide: less is no wood
MEMBER_STEPS = 140       # of work, for one blank placed
REPEAT_STEPS = 4         # for one more turn of a repeat, whether it makes a member or not
COPY_STEPS = 70          # for one mirrored
END_GRAIN = 0.5          # a face tilted more than 30 degrees from the grain shows end grain


class _Worked(NamedTuple):
    """A blank cut to shape; its mirrored copies are alike in all this."""

    placed: Placed
    pick: Pick
    shape: tuple[ShapeWork, ...]
    volume_mm3: float
    surface_mm2: float
    end_grain_mm2: float


class _Copy(NamedTuple):
    """One of the copies of a blank, where it lies."""

    worked: _Worked
    frame: Frame
    solid: Solid
    centre: Vector
    flipped: bool = False
    hand: str = ""


def place_members(rules: Sequence[MemberRule], values: Values, stock: Mapping[str, tuple[Pick, ...]],
                  writer: Writer) -> tuple[Member, ...]:
    """Every member of the piece, keyed "Name" or "Name 3" in the order of the rules."""
    held = [rule for rule in rules if values.holds(rule.when)]
    values.budget.afford(sum(_least_steps(rule, values) for rule in held))
    made: list[Member] = []
    for rule in held:
        own: list[_Copy] = []
        for numbers in repeated(rule, values):
            own.extend(_copies(rule, numbers, stock, made, writer))
            if len(made) + len(own) > MOST_MEMBERS:
                raise _too_many(rule)
        made.extend(_member(rule, copy, f"{rule.name} {i}" if len(own) > 1 else rule.name)
                    for i, copy in enumerate(own, 1))
    return tuple(made)


def _least_steps(rule: MemberRule, values: Values) -> int:
    """Work that a rule takes at least, foreseen before anything is placed; counts that follow another index
    are not known yet and taken as one."""
    count = 1
    for depth in range(len(rule.repeat)):
        try:
            count *= _turns(rule, depth, values)
        except BadFormula:
            break
    copies = 2 ** len(rule.mirror)
    if count * copies > MOST_MEMBERS:
        raise _too_many(rule)
    cuts = sum(least_steps(cut) for cut in rule.cuts if cut.when is None)
    return count * (MEMBER_STEPS + cuts + (COPY_STEPS * copies if rule.mirror else 0))


def _too_many(rule: MemberRule) -> BadTemplate:
    return BadTemplate(Fault(rule.where, f"more than {MOST_MEMBERS} members in one piece"))


def _turns(rule: MemberRule, depth: int, values: Values) -> int:
    count: float = values.of(rule.repeat[depth].count)
    if abs(count - round(count)) > 1e-6 or not -1e-6 <= count <= MOST_MEMBERS:
        wanted = f"a whole number of copies is needed, 0 to {MOST_MEMBERS}"
        raise BadTemplate(Fault(f"{rule.where}/repeat/{depth}/count", f"comes out as {count:g}; {wanted}"))
    return round(count)


def repeated(rule: MemberRule, values: Values, depth: int = 0) -> Iterator[Values]:
    """The names for each copy of a rule, its indices counted up from 0, the last turning fastest."""
    if depth == len(rule.repeat):
        yield values
        return
    for k in range(_turns(rule, depth, values)):
        values.budget.spend(REPEAT_STEPS)
        yield from repeated(rule, values.also(rule.repeat[depth].index, float(k)), depth + 1)


def _copies(rule: MemberRule, values: Values, stock: Mapping[str, tuple[Pick, ...]],
            made: Sequence[Member], writer: Writer) -> list[_Copy]:
    placed, pick = _placed(rule, values, stock[rule.role], made, writer)
    cuts = [(cut, {k: values.direction(v) if k == "normal" else values.all_of(v)
                   for k, v in cut.values.items()})
            for cut in rule.cuts if values.holds(cut.when)]
    for cut, given in cuts:
        _in_reach(cut.where, *numbers_in(given))
    solid, works, marks = shaped(placed, cuts, writer, values.budget)
    first = _Copy(_worked(placed, pick, solid, works), placed.frame, solid, solid.centre)
    if not rule.mirror:
        return [first]
    sizes = (placed.length, placed.width, placed.thickness)
    corners = len(solid.corners)
    values.budget.spend(4 * corners + (COPY_STEPS + 2 * corners) * 2 ** len(rule.mirror))
    handed = is_handed(solid, placed.frame, sizes, marks)
    planes = [(m, values.of(m.at)) for m in rule.mirror]
    _in_reach(rule.where, *(at for _, at in planes))
    return _mirrored(first, planes, handed)


def _placed(rule: MemberRule, values: Values, picks: tuple[Pick, ...],
            made: Sequence[Member], writer: Writer) -> tuple[Placed, Pick]:
    start, end = values.point(rule.start), values.point(rule.end)
    values.budget.spend(MEMBER_STEPS)
    _in_reach(rule.where, *start, *end)
    width = values.of(rule.width) if rule.width else picks[-1].width_mm
    pick = wide_enough(picks, width) if picks[0].material == "roll" else picks[0]
    thickness = values.of(rule.thickness) if rule.thickness else pick.thickness_mm
    _within(rule, width, thickness, pick, writer)
    try:
        turned = axes(start, end, values.direction(rule.wide), values.direction(rule.thick))
        first = _end_plane(rule, rule.ends[0], start, turned, -1.0, values, made)
        last = _end_plane(rule, rule.ends[1], end, turned, 1.0, values, made)
    except ValueError as trouble:
        raise BadTemplate(Fault(rule.where, f"{rule.name} cannot be placed: {_why(rule, start, end, values)}"
                                )) from trouble
    return place(start, turned, width, thickness, (first, last), rule.where), pick


def _why(rule: MemberRule, start: Vector, end: Vector, values: Values) -> str:
    """Which two of its three ways are one, so that it has no place."""
    along = sub(end, start)
    if size(along) < LEAST_MM:
        return "from and to are the same place"
    for key, given in (("wide", rule.wide), ("thick", rule.thick)):
        way = values.direction(given)
        if size(way) < 1e-9:
            return f"{key} has no direction"
        if size(cross(along, way)) < 1e-6 * size(along) * size(way):
            return (f"it runs {_named(along)} from `from` to `to`, and {key} is that way too: is a "
                    "coordinate in the wrong place?")
    return "wide and thick are the same way"


def _named(way: Vector) -> str:
    """The direction of a member's run in a word."""
    k = max(range(3), key=lambda axis: abs(way[axis]))
    return (("right", "left"), ("back", "front"), ("up", "down"))[k][way[k] < 0]


def _in_reach(where: str, *numbers_mm: float) -> None:
    """Raises BadTemplate for a place no piece of furniture reaches."""
    if (far := max(map(abs, numbers_mm), default=0.0)) > MOST_MM:
        raise BadTemplate(Fault(where, f"reaches {far / 1000:g} m; a piece lies within {MOST_MM / 1000:g} m"))


def _within(rule: MemberRule, width: float, thickness: float, pick: Pick, writer: Writer) -> None:
    def said(wide: float, thick: float) -> str:
        return f"{writer.fine(wide)}" + ("" if pick.material == "roll" else f" x {writer.fine(thick)}")

    if min(width, thickness) < LEAST_MM:
        raise BadTemplate(Fault(rule.where, f"{rule.name} comes out {said(width, thickness)}"))
    if width > pick.width_mm + 1e-3 or thickness > pick.thickness_mm + 1e-3:
        raise NoStock(Fault(rule.where, f"{rule.name} is {said(width, thickness)}; {pick.code} gives "
                                        f"{said(pick.width_mm, pick.thickness_mm)}"))


def _end_plane(rule: MemberRule, end: End, at: Vector, turned: Axes, sign: float, values: Values,
               made: Sequence[Member]) -> EndPlane:
    along, across, through, over = turned
    if end.kind == "square":
        return square_end(at, along, sign)
    if end.kind == "level":
        return level_end(at, along, sign)
    if end.kind == "plumb":
        return plumb_end(at, along, sign)
    if end.kind == "angle" and end.angle is not None:
        grows = across if end.about == "thick" else scaled(through, -1.0 if over else 1.0)
        return angled_end(at, along, grows, sign, values.of(end.angle))
    against = [m.solid for m in made if m.name == end.against]
    values.budget.spend(len(made) // 8 + 2 * sum(len(solid.faces) for solid in against))
    found = end_against(at, along, sign, against)
    if found is None:
        raise BadTemplate(Fault(rule.where, f"{rule.name}: no '{end.against}' stands in the way of its end"))
    return found


def _worked(placed: Placed, pick: Pick, solid: Solid, works: Sequence[ShapeWork]) -> _Worked:
    along = placed.frame.along
    end_grain = sum(f.area_mm2 for f in solid.faces if abs(dot(f.normal, along)) > END_GRAIN)
    return _Worked(placed, pick, tuple(works), solid.volume_mm3, solid.area_mm2,
                   end_grain if pick.material == "board" else 0.0)


def _member(rule: MemberRule, copy: _Copy, key: str) -> Member:
    worked = copy.worked
    placed, pick = worked.placed, worked.pick
    return Member(
        key=key, name=rule.name, role=rule.role, material=pick.material, group=rule.group,
        section=pick.code, timber=pick.timber, grade=pick.grade, length_mm=placed.length,
        width_mm=placed.width, thickness_mm=placed.thickness, stock_width_mm=pick.width_mm,
        frame=copy.frame, solid=copy.solid, volume_mm3=worked.volume_mm3, centre=copy.centre,
        surface_mm2=worked.surface_mm2, end_grain_mm2=worked.end_grain_mm2,
        density_kg_m3=pick.density_kg_m3, shape=worked.shape, hand=copy.hand, grain=rule.grain,
        finish=rule.finish)


def _mirrored(first: _Copy, mirrors: Sequence[tuple[Mirror, float]], handed: bool) -> list[_Copy]:
    copies = [first]
    for mirror, at in mirrors:
        axis = list(AXES).index(mirror.across)
        copies += [_reflected(copy, axis, at) for copy in copies]
    if not handed:
        return copies
    # The hand is left for the copies like the one nearest the left end of the piece.
    left = min(copies, key=lambda c: (round(c.centre[0], 3), round(c.centre[1], 3))).flipped
    return [copy._replace(hand="left" if copy.flipped == left else "right") for copy in copies]


def _reflected(copy: _Copy, axis: int, at: float) -> _Copy:
    f = copy.frame
    along, wide, thick = (mirrored(d, axis, 0.0) for d in (f.along, f.wide, f.thick))
    frame = Frame(mirrored(f.origin, axis, at), along, wide, thick)
    return copy._replace(frame=frame, solid=mirrored_solid(copy.solid, axis, at),
                         centre=mirrored(copy.centre, axis, at), flipped=not copy.flipped)
