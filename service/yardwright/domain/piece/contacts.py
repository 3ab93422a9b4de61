"""Where members touch: opposite flat faces in one plane, and the patch they share."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..formula import Budget
from .flat_faces import Face
from .model import Contact, Member
from .solid import Solid, shared_flat
from .vectors import Vector, add, bounds, cross, scaled, sub, unit

TOUCH_MM = 0.05          # faces nearer than this touch
OPPOSITE = 1 - 1e-7      # within 0.03 degrees of face to face
UPRIGHT_MM = 1e-6        # a rectangle that leans by less stands upright
LEVEL_MM2 = 1e-3         # a face that fills its box but for this much is the whole rectangle
LEAST_MM2 = 1.0          # a smaller patch is an edge or a corner, not a contact

PAIR_STEPS = 6           # of work, for two members whose boxes meet
STEPS = 10_000_000       # of work where nobody shares a budget: enough for any piece that could be built

Flat = tuple[float, float]


def contacts(members: Sequence[Member], budget: Budget | None = None) -> tuple[Contact, ...]:
    """Every place where two members lie face on face within 0.05 mm, with its patch."""
    budget = budget or Budget(STEPS)
    return tuple(c for a, b in near_pairs(members, TOUCH_MM, budget) for c in touching(a, b, budget))


def near_pairs(members: Sequence[Member], reach_mm: float,
               budget: Budget) -> Iterator[tuple[Member, Member]]:
    """Pairs whose boxes come within ``reach_mm`` of each other (less than nothing: overlap by that much)."""
    order = sorted(range(len(members)), key=lambda i: members[i].solid.box[0][0])
    boxes = [m.solid.box for m in members]
    open_: list[int] = []
    found: list[tuple[int, int]] = []
    for i in order:
        (x0, y0, z0), (_, y1, z1) = boxes[i]
        x0 -= reach_mm
        y0, z0, y1, z1 = y0 - reach_mm, z0 - reach_mm, y1 + reach_mm, z1 + reach_mm
        open_ = [j for j in open_ if boxes[j][1][0] >= x0]
        budget.spend(1 + len(open_) // 8)
        before = len(found)
        for j in open_:
            low, high = boxes[j]
            if low[1] <= y1 and high[1] >= y0 and low[2] <= z1 and high[2] >= z0:
                found.append((i, j) if i < j else (j, i))
        budget.spend(PAIR_STEPS * (len(found) - before))
        open_.append(i)
    for i, j in sorted(found):
        yield members[i], members[j]


def touching(a: Member, b: Member, budget: Budget) -> Iterator[Contact]:
    """The contacts of one pair; normals point from ``a`` into ``b``."""
    first: Solid = a.solid
    second: Solid = b.solid
    ours, theirs = _reaching(first, second.box), _reaching(second, first.box)
    budget.spend(3 + (len(first.faces) + len(second.faces) + len(ours) * len(theirs)) // 6)
    for (fx, fy, fz), f_offset, f in ours:
        nearest, furthest = -f_offset - TOUCH_MM, -f_offset + TOUCH_MM
        for (gx, gy, gz), g_offset, g in theirs:
            if nearest <= g_offset <= furthest and fx * gx + fy * gy + fz * gz <= -OPPOSITE:
                budget.spend(6)
                found = _level_patch(a.key, b.key, f, g) or _patch(a.key, b.key, f, g, budget)
                if found is not None and found.area_mm2 >= LEAST_MM2:
                    yield found


def _reaching(solid: Solid, box: tuple[Vector, Vector]) -> list[tuple[Vector, float, Face]]:
    """The faces whose own box comes within touch of another, their normals and offsets at hand."""
    (ax, ay, az), (bx, by, bz) = box
    ax, ay, az, bx, by, bz = (ax - TOUCH_MM, ay - TOUCH_MM, az - TOUCH_MM,
                              bx + TOUCH_MM, by + TOUCH_MM, bz + TOUCH_MM)
    found = []
    for f in solid.faces:
        _, _, normal, offset, _, (lx, ly, lz), (hx, hy, hz) = f
        if lx <= bx and hx >= ax and ly <= by and hy >= ay and lz <= bz and hz >= az:
            found.append((normal, offset, f))
    return found


def _level_patch(first: str, second: str, f: Face, g: Face) -> Contact | None:
    """The same where both faces are rectangles along the piece's own axes, as most are; else None."""
    if not (_level(f) and _level(g)):
        return None
    (ax, ay, az), (bx, by, bz), (cx, cy, cz), (dx, dy, dz) = f.low, f.high, g.low, g.high
    low, high = [max(ax, cx), max(ay, cy), max(az, cz)], [min(bx, dx), min(by, dy), min(bz, dz)]
    k = next(i for i in range(3) if abs(f.normal[i]) > 0.5)
    low[k] = high[k] = f.low[k]
    (lx, ly, lz), (hx, hy, hz) = low, high
    i, j = (k + 1) % 3, (k + 2) % 3
    area = max(high[i] - low[i], 0.0) * max(high[j] - low[j], 0.0)
    return Contact(first, second, area, f.normal, ((lx + hx) / 2, (ly + hy) / 2, (lz + hz) / 2),
                   (lx, ly, lz), (hx, hy, hz))


def _level(f: Face) -> bool:
    """Whether a face fills its own box: a rectangle along two axes, its plane square to the third."""
    _, _, _, _, area, (ax, ay, az), (bx, by, bz) = f
    x, y, z = bx - ax, by - ay, bz - az
    return min(x, y, z) < UPRIGHT_MM and abs(x * y + y * z + z * x - area) <= LEVEL_MM2


def _patch(first: str, second: str, f: Face, g: Face, budget: Budget) -> Contact | None:
    budget.spend(12 + 2 * sum(len(loop) for side in (f, g) for loop in side.loops))
    u = unit(sub(f.outline[1], f.outline[0]))
    v = cross(f.normal, u)
    base = f.outline[0]
    ours = [_laid(loop, base, u, v) for loop in f.loops]
    theirs = [_laid(loop, base, u, v) for loop in g.loops]
    if len(ours) == len(theirs) == 1 and _upright(ours[0]) and _upright(theirs[0]):
        loops = [_common(ours[0], theirs[0])]
    elif len(ours) == len(theirs) == 1 and _convex(ours[0]) and _convex(theirs[0][::-1]):
        budget.spend(len(ours[0]) * len(theirs[0]) // 2)
        loops = [_clipped(theirs[0][::-1], ours[0])]
    else:
        budget.spend(60)
        loops = shared_flat(ours, theirs)
    area, x, y = _weighed(loops)
    if area < LEAST_MM2:
        return None
    corners = [add(base, add(scaled(u, p), scaled(v, q))) for loop in loops for p, q in loop]
    low, high = bounds(corners)
    centre = add(base, add(scaled(u, x), scaled(v, y)))
    return Contact(first, second, area, f.normal, centre, low, high)


def _laid(loop: Sequence[Vector], base: Vector, u: Vector, v: Vector) -> list[Flat]:
    """A loop in the plane of two directions."""
    (bx, by, bz), (ux, uy, uz), (vx, vy, vz) = base, u, v
    away = [(x - bx, y - by, z - bz) for x, y, z in loop]
    return [(x * ux + y * uy + z * uz, x * vx + y * vy + z * vz) for x, y, z in away]


def _upright(loop: Sequence[Flat]) -> bool:
    """A rectangle with its sides along the axes, as most faces of boards are to each other."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = loop if len(loop) == 4 else ((0.0, 0.0), (1.0, 1.0)) * 2
    return (abs(ay - by) + abs(bx - cx) + abs(cy - dy) + abs(dx - ax) < UPRIGHT_MM
            or abs(ax - bx) + abs(by - cy) + abs(cx - dx) + abs(dy - ay) < UPRIGHT_MM)


def _common(one: Sequence[Flat], other: Sequence[Flat]) -> list[Flat]:
    """What two such rectangles share, by their opposite corners."""
    (ax, ay), (bx, by) = one[0], one[2]
    (cx, cy), (dx, dy) = other[0], other[2]
    left, right = max(min(ax, bx), min(cx, dx)), min(max(ax, bx), max(cx, dx))
    low, high = max(min(ay, by), min(cy, dy)), min(max(ay, by), max(cy, dy))
    return [] if left >= right or low >= high else [(left, low), (right, low), (right, high), (left, high)]


def _convex(loop: Sequence[Flat]) -> bool:
    for i in range(len(loop)):
        (ax, ay), (bx, by), (cx, cy) = loop[i - 2], loop[i - 1], loop[i]
        if (bx - ax) * (cy - by) - (by - ay) * (cx - bx) < -1e-6:
            return False
    return True


def _clipped(loop: Sequence[Flat], by: Sequence[Flat]) -> list[Flat]:
    """Both counter-clockwise and convex: the loop cut by each side of the other in turn."""
    out = list(loop)
    ax, ay = by[-1]
    for bx, by_ in by:
        ex, ey = bx - ax, by_ - ay
        sides = [ex * (y - ay) - ey * (x - ax) for x, y in out]
        if min(sides) < 0:
            out = _within(out, sides)
            if len(out) < 3:
                return []
        ax, ay = bx, by_
    return out


def _within(loop: Sequence[Flat], sides: Sequence[float]) -> list[Flat]:
    """What of a loop lies on the side of a line where it is not below nought."""
    kept: list[Flat] = []
    q, t = loop[-1], sides[-1]
    for p, s in zip(loop, sides, strict=True):
        if (s < 0) != (t < 0):
            share = t / (t - s)
            kept.append((q[0] + share * (p[0] - q[0]), q[1] + share * (p[1] - q[1])))
        if s >= 0:
            kept.append(p)
        q, t = p, s
    return kept


def _weighed(loops: Sequence[Sequence[Flat]]) -> tuple[float, float, float]:
    area = x = y = 0.0
    for loop in loops:
        for i, (bx, by) in enumerate(loop):
            ax, ay = loop[i - 1]
            part = ax * by - ay * bx
            area += part
            x += part * (ax + bx)
            y += part * (ay + by)
    if abs(area) < 1e-9:
        return 0.0, 0.0, 0.0
    return abs(area) / 2, x / (3 * area), y / (3 * area)
