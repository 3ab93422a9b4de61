"""Where members touch: opposite flat faces in one plane, and the patch they share."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from .model import Contact, Member
from .solid import Face, Solid, shared_flat
from .vectors import Vector, add, cross, dot, scaled, sub, unit

TOUCH_MM = 0.05          # faces nearer than this touch
OPPOSITE = 1 - 1e-7      # within 0.03 degrees of face to face
LEAST_MM2 = 1.0          # a smaller patch is an edge or a corner, not a contact

Flat = tuple[float, float]


def contacts(members: Sequence[Member]) -> tuple[Contact, ...]:
    """Every place where two members lie face on face within 0.05 mm, with its patch."""
    return tuple(c for a, b in near_pairs(members, TOUCH_MM) for c in touching(a, b))


def near_pairs(members: Sequence[Member], reach_mm: float) -> Iterator[tuple[Member, Member]]:
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
        for j in open_:
            low, high = boxes[j]
            if low[1] <= y1 and high[1] >= y0 and low[2] <= z1 and high[2] >= z0:
                found.append((i, j) if i < j else (j, i))
        open_.append(i)
    for i, j in sorted(found):
        yield members[i], members[j]


def touching(a: Member, b: Member) -> Iterator[Contact]:
    """The contacts of one pair; normals point from ``a`` into ``b``."""
    first: Solid = a.solid
    second: Solid = b.solid
    theirs = [g for g in second.faces if _reaches(g, first.box)]
    for f in first.faces:
        if not _reaches(f, second.box):
            continue
        for g in theirs:
            if dot(f.normal, g.normal) > -OPPOSITE or abs(f.offset + g.offset) > TOUCH_MM:
                continue
            found = _patch(a.key, b.key, f, g)
            if found is not None:
                yield found


def _reaches(f: Face, box: tuple[Vector, Vector]) -> bool:
    (ax, ay, az), (bx, by, bz) = box
    (cx, cy, cz), (dx, dy, dz) = f.low, f.high
    return (cx <= bx + TOUCH_MM and dx >= ax - TOUCH_MM and cy <= by + TOUCH_MM
            and dy >= ay - TOUCH_MM and cz <= bz + TOUCH_MM and dz >= az - TOUCH_MM)


def _patch(first: str, second: str, f: Face, g: Face) -> Contact | None:
    u = unit(sub(f.outline[1], f.outline[0]))
    v = cross(f.normal, u)
    base = f.outline[0]
    ours = [[_flat(p, base, u, v) for p in loop] for loop in f.loops]
    theirs = [[_flat(p, base, u, v) for p in loop] for loop in g.loops]
    if len(ours) == len(theirs) == 1 and _convex(ours[0]) and _convex(theirs[0][::-1]):
        loops = [_clipped(theirs[0][::-1], ours[0])]
    else:
        loops = shared_flat(ours, theirs)
    area, x, y = _weighed(loops)
    if area < LEAST_MM2:
        return None
    corners = [add(base, add(scaled(u, p), scaled(v, q))) for loop in loops for p, q in loop]
    low = (min(c[0] for c in corners), min(c[1] for c in corners), min(c[2] for c in corners))
    high = (max(c[0] for c in corners), max(c[1] for c in corners), max(c[2] for c in corners))
    centre = add(base, add(scaled(u, x), scaled(v, y)))
    return Contact(first, second, area, f.normal, centre, low, high)


def _flat(p: Vector, base: Vector, u: Vector, v: Vector) -> Flat:
    r = sub(p, base)
    return dot(r, u), dot(r, v)


def _convex(loop: Sequence[Flat]) -> bool:
    for i in range(len(loop)):
        (ax, ay), (bx, by), (cx, cy) = loop[i - 2], loop[i - 1], loop[i]
        if (bx - ax) * (cy - by) - (by - ay) * (cx - bx) < -1e-6:
            return False
    return True


def _clipped(loop: Sequence[Flat], by: Sequence[Flat]) -> list[Flat]:
    """Both counter-clockwise and convex: the loop cut by each side of the other in turn."""
    out = list(loop)
    for i in range(len(by)):
        (ax, ay), (bx, by_) = by[i - 1], by[i]
        ex, ey = bx - ax, by_ - ay
        sides = [ex * (y - ay) - ey * (x - ax) for x, y in out]
        kept: list[Flat] = []
        for k, (p, s) in enumerate(zip(out, sides, strict=True)):
            q, t = out[k - 1], sides[k - 1]
            if (s < 0) != (t < 0):
                share = t / (t - s)
                kept.append((q[0] + share * (p[0] - q[0]), q[1] + share * (p[1] - q[1])))
            if s >= 0:
                kept.append(p)
        out = kept
        if len(out) < 3:
            return []
    return out


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
