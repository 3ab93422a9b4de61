"""Joints: screws, bolts and glue that carry people, backs, goods or soil carry no more than they may.

The loads of the piece's own load checks are followed down joint by joint (load_path.py): a sitter's 250 lbf
over a square foot anywhere on the seat, a leaning back on the boards within a foot, shelves and soil all
over. What a place takes is held against its fasteners or its glue (fixings.py). Over the allowed load:
caution, since allowed loads are a fifth to a third of the breaking load; from 2.5 times: stop, also when 250
lbf stand on one board alone. Always runs. Units N, mm.
Limits of validity: load_path.py, fixings.py; splitting by screws near an end is not judged.
Sources: NDS (memory; withdrawal seen), 2010 ADA 903.6 (250 lbf on any fastener; seen).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..finding import Finding, Level
from ..piece.model import AskedCheck, Member, Vector
from .back_load import backward
from .boards import pitch_mm
from .load_path import Path, Place, tuple_minus
from .rule import Case, Rule
from .soil_floor import density_name
from .soil_sides import outward
from .supports import DOWN, footing
from .touches import corners, dot
from .words import GRAVITY

_PARALLEL = 0.99
LEAST_N = 5.0                # less is lost in friction
STATIONS = 5                 # places along a board where a load stands, its ends among them
Loads = list[tuple[str, float, float]]


@dataclass(frozen=True, slots=True)
class Used:
    """A joint place under the load that uses it most."""

    member: Member
    place: Place
    force_n: float
    allowed_n: float
    loading: str
    stops: bool                  # over it is a stop at once

    @property
    def share(self) -> float:
        """Of what it may carry."""
        return self.force_n / self.allowed_n if self.allowed_n > 0 else float("inf")


def check(asked: AskedCheck, case: Case) -> tuple[Finding, ...]:
    """A finding for each pair of member names whose joint is overloaded, and one for all that hold."""
    worst: dict[tuple[str, str], Used] = {}
    paths: dict[tuple[Vector, frozenset[str]], Path] = {}
    for load in case.piece.checks:
        for push, told, cases, lasting in _load_cases(case, load):
            way = (push, frozenset(load.members))
            if way not in paths:
                paths[way] = Path(case, footing(case, way[1], push))
            for used in _used(paths[way], told, cases, lasting):
                pair = (used.member.name, case.member(used.place.other).name)
                if pair not in worst or used.share > worst[pair].share:
                    worst[pair] = used
    over = [u for u in worst.values() if u.share > 1.0]
    fine = [u for u in worst.values() if u.share <= 1.0]
    return (*(_told(asked, case, u) for u in over), *([_all_hold(asked, case, fine)] if fine else ()))


def _load_cases(case: Case, load: AskedCheck) -> Iterator[tuple[Vector, str, list[Loads], float]]:
    """(way of the load, its name, cases of loads that stand together, duration factor) of one load check."""
    boards = [case.member(k) for k in load.members]
    rule, people, permanent = (load.rule.rule, case.limit("structure.duration_people"),
                               case.limit("structure.duration_permanent"))
    if not boards:
        return
    if rule == "seat load":
        force = case.limit("structure.seat_load")
        yield DOWN, f"a sitter's {case.words.force(force)}", _sitting(case, boards), people
        yield (DOWN, f"{case.words.force(force)} on one board",
               [[(b.key, at, force)] for b in boards for at in _stations(b)],
               people * case.limit("joints.stop_from"))
    elif rule == "back load":
        for push in {backward(case, b): None for b in boards}:
            side = [b for b in boards if backward(case, b) == push]
            yield push, "a back leaning", _leaning(case, side), people
    elif rule == "arm load":
        force = case.limit("structure.arm_down")
        yield (DOWN, "pushing up from the arm", [[(b.key, at, force)] for b in boards for at in _stations(b)],
               people)
    elif rule == "shelf load":
        weight = case.limit(f"structure.{load.rule.words.get('use', 'shelf')}_load")
        yield DOWN, "goods all over", [_all_over(boards, weight)], people
        if load.rule.words.get("use") == "table":
            force = case.limit("structure.seat_load")
            yield (DOWN, f"somebody's {case.words.force(force)} on it",
                   _sitting(case, boards), people)
    elif rule == "soil floor":
        weight = case.limit(density_name(load)) * 1e-9 * GRAVITY * float(load.values["soil_depth"])
        yield DOWN, "wet soil", [_all_over(boards, weight)], permanent
    elif rule == "soil sides":
        sides: dict[Vector, list[Member]] = {}
        for board in boards:
            sides.setdefault(outward(case, board), []).append(board)
        for push, side in sides.items():
            pressed = _pressed(case, side, float(load.values["soil_top"]))
            yield push, "soil pressing outward", [pressed], permanent


def _stations(board: Member) -> list[float]:
    return [board.length_mm * (0.04 + 0.92 * n / (STATIONS - 1)) for n in range(STATIONS)]


def _sitting(case: Case, boards: list[Member]) -> list[Loads]:
    """A sitter's load over a square foot about each board's stations, on the boards as they lie under it."""
    force, patch = case.limit("structure.seat_load"), case.limit("structure.seat_patch")
    found: list[Loads] = []
    for board in boards:
        axis = board.frame.wide
        middle = dot(board.centre, axis)
        under = {b: min(b.width_mm, patch, patch / 2 + b.width_mm / 2 - abs(dot(b.centre, axis) - middle))
                 for b in boards if abs(dot(b.frame.along, board.frame.along)) > _PARALLEL}
        shares = {b.key: (b, wide) for b, wide in under.items() if wide > 0}
        whole = sum(wide for _, wide in shares.values())
        for at in _stations(board):
            point = board.frame.to_world(at, 0.0, 0.0)
            loads: Loads = []
            for b, wide in shares.values():
                along = dot(tuple_minus(point, b.frame.origin), b.frame.along)
                loads += [(b.key, min(max(along + off * patch, 0.0), b.length_mm), force * wide / whole / 3)
                          for off in (-1 / 3, 0.0, 1 / 3)]
            found.append(loads)
    return found


def _leaning(case: Case, boards: list[Member]) -> list[Loads]:
    """The load on the boards within a foot of each board's middle line, at five heights or lengths."""
    force, patch = case.limit("structure.lean_load"), case.limit("structure.seat_patch")
    found: list[Loads] = []
    for board in boards:
        axis = board.frame.wide
        near = [b for b in boards if abs(dot(b.centre, axis) - dot(board.centre, axis)) <= patch / 2]
        found += [[(b.key, at * b.length_mm / board.length_mm, force / len(near)) for b in near]
                  for at in _stations(board)]
    return found


def _all_over(boards: list[Member], weight: float) -> Loads:
    return [(b.key, at, weight * pitch_mm(b, boards) * b.length_mm / STATIONS)
            for b in boards for at in _middles(b)]


def _pressed(case: Case, boards: list[Member], surface: float) -> Loads:
    fluid = case.limit("soil.side_pressure")
    loads: Loads = []
    for b in boards:
        heights = [c[2] for c in corners(b)]
        line = fluid * max(0.0, surface - b.centre[2]) * (max(heights) - min(heights))
        loads += [(b.key, at, line * b.length_mm / STATIONS) for at in _middles(b)]
    return loads


def _middles(board: Member) -> list[float]:
    return [board.length_mm * (n + 0.5) / STATIONS for n in range(STATIONS)]


def _used(path: Path, told: str, cases: list[Loads], lasting: float) -> Iterator[Used]:
    for loads in cases:
        for (key, other, n), force in path.demands(loads).items():
            place = path.places_of(key)[n]
            if place.other != other or place.bears:
                continue
            if abs(force) > LEAST_N:
                yield Used(path.case.member(key), place, abs(force), place.allowed_n * lasting, told,
                           stops=lasting > 1.0)


def _told(asked: AskedCheck, case: Case, used: Used) -> Finding:
    words, other = case.words, case.member(used.place.other)
    stops = used.stops or used.share > case.limit("joints.stop_from")
    allowed = used.allowed_n
    handed, may = words.forces(used.force_n, allowed)
    fixing = used.place.fixing
    number = f"{used.place.fasteners:.3g} × {fixing.working}" if fixing else "glue alone"
    need = (f"Put {used.place.fasteners * used.share + 0.5:.0f} there, longer or thicker ones, or let it "
            "lie on something." if allowed > 0 else
            "Let it lie on something, or fasten it through side grain: nothing may pull on end grain.")
    return Finding(
        asked.rule.rule, Level.STOP if stops else Level.CAUTION,
        f"{used.member.name} to {other.name}: joint too weak",
        f"{used.member.key} hands {words.force(used.force_n)} to {other.key} under {used.loading}.",
        handed, may, _source(case), need, number, customer=False)


def _all_hold(asked: AskedCheck, case: Case, fine: list[Used]) -> Finding:
    words, top = case.words, max(fine, key=lambda u: u.share)
    other = case.member(top.place.other)
    working = top.place.fixing.working if top.place.fixing else "glue"
    rest = "; ".join(f"{u.member.name} to {case.member(u.place.other).name} {u.share:.0%}"
                     for u in sorted(fine, key=lambda u: -u.share)[1:8])
    return Finding(
        asked.rule.rule, Level.OK, "Joints: they hold",
        f"Used most: {top.member.key} to {other.key}, {words.force(top.force_n)} under {top.loading}.",
        words.force(top.force_n), words.force(top.allowed_n), _source(case), "",
        f"{top.place.fasteners:.3g} × {working}" + (f"; others used: {rest}" if rest else ""), customer=False)


def _source(case: Case) -> str:
    return case.source("structure.screw_withdrawal", "joints.wet", "joints.end_grain", "joints.penetration",
                       "structure.seat_load")


RULE = Rule("joints", check)
