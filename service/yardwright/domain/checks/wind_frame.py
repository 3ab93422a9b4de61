"""Wind on the frame: posts, boards and what joins them bear the wind that the wind check finds.

Runs with every piece that the wind check looks at, both ways that it may blow, q·c_f on the whole upright
area. Posts: wind_posts.py. Boards that face the wind and lie on two posts or rails at least bend between
them, w = q·c_f times their width; rails that upright boards hang on take half the height to the next rail on
either side. Too weak is a stop; a fixing over what it may, a caution, from 2.5 times a stop. What is not
found to stand on posts or rails is *not checked*, by name. A frame of posts tied higher up is kept square, as
in racking.py, against half of the wind on its side. Units N, mm, N/mm². Source: as wind.py and
wind_posts.py.
Limits of validity: each board by itself; gaps count as solid, as in wind.py.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeVar

from ..finding import Finding, Level
from ..piece.model import AskedCheck, Member, Vector
from .held_up import is_dug_in, is_hung
from .notches import judge_cut
from .racking import held_sideways
from .rule import Case, Rule
from .supports import patch, places
from .touches import UP, dot, reach
from .verdict import Loading, Verdict, sag_limit, told
from .wind import EXPOSURES, looked_at, pressure
from .wind_posts import Stood, lines, posts_of, stood

WAYS: tuple[tuple[Vector, Vector], ...] = (((0.0, 1.0, 0.0), (1.0, 0.0, 0.0)),
                                           ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)))
T = TypeVar("T")
_FACES = 0.7
_RUNS = 0.9
_SOLID = 0.7                 # slats and gaps; below it a side is open, met by its parts; judgement
_TELLING = 0.15              # of the side blown on: feet and braces beside posts are less


@dataclass(slots=True)
class _Found:
    posts: list[Stood] = field(default_factory=list)
    boards: list[Verdict] = field(default_factory=list)
    racked: list[tuple[float, Finding]] = field(default_factory=list)      # share used, either way
    loose: set[str] = field(default_factory=set)     # names of what nothing is known to hold
    bare_mm2: dict[str, float] = field(default_factory=dict)     # facing boards held nowhere, by name


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """The worst of each name that is too weak; what holds; what is not known."""
    if not looked_at(case) or is_hung(case) or case.site.exposure.strip().lower() not in EXPOSURES:
        return ()                        # the wind check says that it is not checked
    load, found = pressure(case) * case.limit("wind.shape"), _Found()
    for way, across in WAYS:
        _blown(case, load, way, across, found)
    return tuple(_told(asked.rule.rule, case, found))


def _blown(case: Case, load: float, way: Vector, across: Vector, found: _Found) -> None:
    posts = posts_of(case)
    taken = lines(case, posts, across, load) if posts else {}
    in_ground, here = is_dug_in(case), list[Stood]()
    for post in posts:
        one = stood(case, post, taken[post.key], way, in_ground and reach(post, UP)[0] < 0.0)
        if one is None:
            found.loose.add(post.name)
        else:
            here.append(one)
            found.loose |= {f"what {post.name} is fixed to"} if one.fixing is None else set()
    if any(not one.clamped for one in here):
        found.racked.append(_racked(case, posts, load, way, across))
    found.posts += here
    uprights = {p.key for p in posts}
    facing = [m for m in case.piece.members if m.key not in uprights and m.group == "fixed"
              and m.material != "roll" and abs(dot(m.frame.thick, way)) > _FACES
              and reach(m, UP)[0] > case.standing_mm]
    hung = [m for m in facing if abs(dot(m.frame.along, UP)) > _RUNS]
    rails = {t.other for m in hung for t in case.touches.get(m.key, ())
             if abs(dot(case.member(t.other).frame.along, across)) > _RUNS}
    for board in facing:
        held = uprights | rails if board in hung else uprights
        width = reach(board, UP if board not in hung else across)
        line = load * (width[1] - width[0])
        _judge(case, board, held, line, way, found)
    for rail in (case.member(key) for key in rails):
        _judge(case, rail, uprights, load * _share(case, rail, rails), way, found)
    ends = [reach(m, across) for m in case.piece.members]
    whole = (max(e[1] for e in ends) - min(e[0] for e in ends)) * case.piece.standing_mm[2]
    found.loose |= {name for name, area in found.bare_mm2.items() if area > _TELLING * whole}
    found.bare_mm2.clear()


def _racked(case: Case, posts: Sequence[Member], load: float, way: Vector,
            across: Vector) -> tuple[float, Finding]:
    """The frame kept square against half of the wind on a side, at its top; the rest goes in at the feet."""
    words, high = case.words, case.piece.closed.high[2] - case.standing_mm
    lasting, force = case.limit("structure.duration_wind"), load * _area(case, posts, way, across) / 2
    groups, turning, braces = held_sideways(case, posts, way, high)
    holds = lasting * (turning / high + sum(braces))
    share = force / max(holds, 1e-9)
    stops = share > case.limit("joints.stop_from")
    return share, Finding(
        "wind on its frame", Level.OK if share <= 1.0 else Level.STOP if stops else Level.CAUTION,
        "The wind does not rack its frame" if share <= 1.0 else "The wind racks its frame",
        f"Half of the wind on its side pushes its top; {groups} fastener groups where boards or rails cross "
        f"posts and {len(braces)} braces hold {words.force(holds)} there.", words.force(force),
        words.force(holds), case.source("wind.air", "wind.shape", "structure.duration_wind", "joints.wet"),
        "" if share <= 1.0 else "Brace it, close a side with boards or a panel, or let rails cross the posts "
        "with more fasteners.", f"F = q·c_f·A/2 = {words.force(force)}; {lasting:g}·(ΣM/h + braces) = "
        f"{words.force(holds)}", customer=share > 1.0)


def _area(case: Case, posts: Sequence[Member], way: Vector, across: Vector) -> float:
    """mm² that the wind meets one way: all that faces it, one behind another too; from _SOLID of the side on
    the whole of it, as the wind check counts it."""
    facing = [m for m in case.piece.members if m in posts or abs(dot(m.frame.thick, way)) > _FACES]
    met = sum((x1 - x0) * (z1 - z0) for (x0, x1), (z0, z1) in
              ((reach(m, across), reach(m, UP)) for m in facing))
    ends = [reach(m, across) for m in case.piece.members]
    whole = (max(e[1] for e in ends) - min(e[0] for e in ends)) * case.piece.standing_mm[2]
    return whole if met > _SOLID * whole else met


def _share(case: Case, rail: Member, rails: Iterable[str]) -> float:
    """The height in mm that a rail takes: half the way to the next above and below, or all to the end."""
    at = rail.centre[2]
    others = [case.member(key).centre[2] for key in rails]
    above = min((z for z in others if z > at + 1.0), default=2 * case.piece.closed.high[2] - at)
    below = max((z for z in others if z < at - 1.0), default=2 * case.standing_mm - at)
    return (above - below) / 2


def _judge(case: Case, board: Member, held: Iterable[str], line: float, way: Vector, found: _Found) -> None:
    on = places(s for t in case.touches.get(board.key, ()) if t.other in set(held)
                for s in patch(board, t, hung=True))
    if len(on) < 2 or board.material != "board":
        area = board.length_mm * board.width_mm
        found.bare_mm2[board.name] = found.bare_mm2.get(board.name, 0.0) + area
        return
    loading = Loading(f"{case.words.force(line * board.length_mm)} of wind", case.source("wind.shape"),
                      line=line, sags=False, duration="wind")
    found.boards.append(judge_cut(case, board, on, way, [loading], sag_limit(case)))


def _told(rule: str, case: Case, found: _Found) -> Iterator[Finding]:
    posts = _worst((p.post.name, p.used, p) for p in found.posts)
    boards = _worst((v.member.name, v.used, v) for v in found.boards)
    for post in posts:
        yield from _post(rule, case, post)
    for verdict in boards:
        if verdict.used > 1.0:
            title = f"{verdict.member.name}: too weak for the wind"
            yield replace(told(case, rule, verdict.member.name, verdict), title=title)
    strong = [(p.used, p.post.name if p.fixing is not None else f"the bending of {p.post.name}", p.told)
              for p in posts if p.used <= 1.0] + [
        (v.used, v.member.name, v.loading.name) for v in boards if v.used <= 1.0]
    if strong:
        yield _holds(rule, case, strong)
    yield from (finding for _, finding in sorted(found.racked, key=lambda r: -r[0])[:1])
    if found.loose:
        names = ", ".join(sorted(found.loose))
        yield Finding(rule, Level.NOT_CHECKED, "Parts in the wind: not checked",
                      f"Nothing was found that holds these against the wind: {names}. They may hold by "
                      "other parts, or not.", source=case.source("wind.air", "wind.shape"),
                      mend="Tie posts the way of the wind, by feet, braces or rails fixed to them; let "
                      "boards cross two of them; or have a person who knows look at it.")


def _worst(found: Iterable[tuple[str, float, T]]) -> list[T]:
    worst: dict[str, tuple[float, T]] = {}
    for name, used, one in found:
        if used > worst.get(name, (-1.0, one))[0]:
            worst[name] = used, one
    return [one for _, one in worst.values()]


def _post(rule: str, case: Case, p: Stood) -> Iterator[Finding]:
    """One finding on a post, what it is fixed with and what it stands on, where any of it is too weak."""
    words, bends, fixing = case.words, p.bending / p.allowed, p.fixing or 0.0
    if p.used <= 1.0:
        return
    told_of = [f"its bending {bends:.0%}"] + ([f"its fixing {fixing:.0%}"] if fixing else [])
    told_of += [f"the bending of {p.foot.name} {p.foot_used:.0%}"] if p.foot else []
    only_fixing = max(bends, p.foot_used) <= 1.0
    mild = only_fixing and fixing <= case.limit("joints.stop_from")
    yield Finding(
        rule, Level.CAUTION if mild else Level.STOP,
        f"{p.post.name}: too {'weakly fixed' if only_fixing else 'weak'} for the wind",
        f"{p.told} of wind. Of what it may it uses: {', '.join(told_of)}.",
        f"bending {words.stress(p.bending)}", f"bending {words.stress(p.allowed)}",
        case.source("wind.air", "wind.shape", "structure.duration_wind", "joints.wet"),
        "Brace it higher up, set posts closer" + (
            "" if p.fixing == 0.0 else ", fix them with more and further apart, or stand them in the ground")
        + f"; and take posts {max(bends, 1.0) ** 0.5:.1f} times as deep the way of the wind.",
        f"w = {words.force(p.line * 304.8)} a foot; M = {words.turning(p.moment_nmm)}; f_b = M/S = "
        f"{words.stress(p.bending)}" if words.inches else
        f"w = {words.force(p.line * 1000)} a metre; M = {words.turning(p.moment_nmm)}; f_b = M/S = "
        f"{words.stress(p.bending)}")


def _holds(rule: str, case: Case, strong: Sequence[tuple[float, str, str]]) -> Finding:
    used, name, how = max(strong)
    others = "; ".join(f"{n} {u:.0%}" for u, n, _ in sorted(strong)[:-1])
    return Finding(rule, Level.OK, "Wind: these parts bear it",
                   f"Used most is {name}: {how}.", f"{used:.0%} used", "100%",
                   case.source("wind.air", "wind.shape", "structure.duration_wind"),
                   working=f"{name} {used:.0%}" + (f"; {others}" if others else ""))


RULE = Rule("wind on its frame", check)
