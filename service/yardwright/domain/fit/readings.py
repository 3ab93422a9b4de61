"""Readings that contradict each other, so that they are taken again before wood is cut to them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from ..finding import Finding, Level
from ..measure import MM, Writer
from ..shop import Shop
from ..site import Corner, Measured, Site, Wall
from .corner import angles, possible, worst
from .space import held_sides
from .tape import SOURCE, uncertainty_nm

RULE = "readings"
SAME_PLACE_NM = 25 * MM          # readings taken nearer together than this are of one place; judgement
APART_NM = 40 * MM               # a run this uneven is drawn true, not assumed; judgement
STEEP = 0.1                      # a wall leaning more than 1 in 10 is a slip of the tape; judgement


def site_findings(site: Site, shop: Shop, writer: Writer) -> tuple[Finding, ...]:
    """What in the measured site cannot be, or hardly: each with what to measure again."""
    check = _Check(site.tape_class or shop.fitting.tape_class, shop.fitting.reading_nm, writer)
    found: list[Finding] = []
    for wall in site.walls:
        found += check.apart(wall.readings, f"{wall.side} wall")
        found += check.wall(wall)
    found += check.apart(site.depths, "depth")
    for corner in site.corners:
        found += check.corner(corner)
    found += check.front_against_corners(site)
    return tuple(found)


class _Check:
    """The same tape and the same way of writing for every reading of a site."""

    def __init__(self, tape_class: str, mark_nm: int, writer: Writer) -> None:
        self.tape_class, self.mark_nm, self.write = tape_class, mark_nm, writer.length

    def off(self, nm: int) -> int:
        return uncertainty_nm(nm, self.tape_class, self.mark_nm)

    def between(self, low_nm: float, high_nm: float) -> str:
        return f"{self.write(round(low_nm))} to {self.write(round(high_nm))}"

    def apart(self, readings: Sequence[Measured], name: str) -> Iterator[Finding]:
        """Two readings of one place further apart than the tape explains; or one run very uneven."""
        for a, b in combinations(readings, 2):
            apart, allowed = abs(a.value_nm - b.value_nm), self.off(a.value_nm) + self.off(b.value_nm)
            if apart > allowed and _same_place(a, b):
                yield self._again(name, "Two readings of one place disagree", max(a.value_nm, b.value_nm),
                                  min(a.value_nm, b.value_nm), allowed, SOURCE)
                return
        values = [r.value_nm for r in readings]
        if values and max(values) - min(values) > APART_NM:
            yield self._again(name, "The readings are far apart", max(values), min(values), APART_NM,
                              "judgement: a nook is commonly out by 1/4 in (6 mm) or more, practice, memory")

    def _again(self, name: str, title: str, high_nm: int, low_nm: int, limit_nm: int, source: str) -> Finding:
        apart_nm, worked = high_nm - low_nm, f"{self.write(high_nm)} − {self.write(low_nm)}"
        return Finding(RULE, Level.CAUTION, title,
                       f"{name.capitalize()}: two readings differ by {self.write(apart_nm)}.",
                       self.write(apart_nm), self.write(limit_nm), source,
                       f"Measure the {name} again, and say at what height and depth.",
                       f"{worked} = {self.write(apart_nm)} > {self.write(limit_nm)}")

    def wall(self, wall: Wall) -> Iterator[Finding]:
        if wall.plumb_over_nm > 0 and abs(wall.out_of_plumb_nm) > STEEP * wall.plumb_over_nm:
            yield Finding(RULE, Level.CAUTION, "A wall leans more than walls do",
                          f"The {wall.side} wall is said to lean {self.write(abs(wall.out_of_plumb_nm))} "
                          f"over {self.write(wall.plumb_over_nm)}.", self.write(abs(wall.out_of_plumb_nm)),
                          f"{self.write(round(STEEP * wall.plumb_over_nm))}", "judgement",
                          f"Hold the level against the {wall.side} wall again.",
                          f"{self.write(abs(wall.out_of_plumb_nm))} / {self.write(wall.plumb_over_nm)} = "
                          f"{abs(wall.out_of_plumb_nm) / wall.plumb_over_nm:.2f} > {STEEP:g}")
        longest = max((r.value_nm for r in wall.readings), default=None)
        for thing in wall.obstructions:
            beyond = longest is not None and thing.to_nm > longest + self.off(longest)
            inverted = thing.top_nm is not None and (thing.bottom_nm or 0) > thing.top_nm
            if thing.from_nm > thing.to_nm or beyond or inverted:
                why = ("ends before it begins" if thing.from_nm > thing.to_nm else
                       "reaches beyond the wall" if beyond else "has its top below its bottom")
                yield Finding(RULE, Level.CAUTION, "A thing on a wall cannot be where it is said to be",
                              f"{wall.side.capitalize()} wall: the {thing.kind} {why}.",
                              f"{self.write(thing.from_nm)} to {self.write(thing.to_nm)}",
                              self.write(longest) if longest is not None else "from less to more",
                              "geometry", f"Measure the {thing.kind} again from the left end of the wall.",
                              f"from {self.write(thing.from_nm)} to {self.write(thing.to_nm)}; it {why}")

    def corner(self, corner: Corner) -> Iterator[Finding]:
        for d in corner.diagonals:
            if not possible(d, self.tape_class, self.mark_nm):
                yield Finding(RULE, Level.STOP, "Three readings of a corner make no triangle",
                              f"The {corner.at} corner: {self.write(d.along_nm)} along, "
                              f"{self.write(d.out_nm)} out and {self.write(d.across_nm)} across cannot meet.",
                              self.write(d.across_nm),
                              self.between(abs(d.along_nm - d.out_nm), d.along_nm + d.out_nm),
                              "triangle inequality, and " + SOURCE, f"Measure the {corner.at} corner again.",
                              f"across lies between {self.write(d.along_nm)} − {self.write(d.out_nm)} and "
                              f"{self.write(d.along_nm)} + {self.write(d.out_nm)} in any triangle")
                return
        ranges = angles(corner, self.tape_class, self.mark_nm)
        for a, b in combinations(ranges, 2):
            if a.least_deg > b.most_deg or b.least_deg > a.most_deg:
                apart = max(a.least_deg - b.most_deg, b.least_deg - a.most_deg)
                yield Finding(RULE, Level.CAUTION, "Two readings of a corner disagree",
                              f"The {corner.at} corner comes out at {a.middle_deg:.1f} and "
                              f"{b.middle_deg:.1f} degrees: {apart:.1f} degrees more apart than the "
                              "readings allow.",
                              f"{apart:.1f} deg", "0 deg",
                              "law of cosines, and " + SOURCE, f"Measure the {corner.at} corner again.",
                              f"{a.least_deg:.1f} to {a.most_deg:.1f}° and {b.least_deg:.1f} to "
                              f"{b.most_deg:.1f}° do not meet")
                return

    def front_against_corners(self, site: Site) -> Iterator[Finding]:
        """Run at the wall, run further out and both corners: three of them give the fourth."""
        back, held = site.wall("back"), held_sides(site)
        corners = {c.at: worst(c, self.tape_class, self.mark_nm) for c in site.corners}
        known = [corners[side] for side in held if corners.get(side) is not None]
        if back is None or len(held) < 2 or len(known) < 2:
            return
        least = sum(angle.opening for angle in known if angle)
        most = sum(angle.closing for angle in known if angle)
        for a, b in combinations(sorted(back.readings, key=lambda r: r.at_depth_nm or 0), 2):
            deep = (b.at_depth_nm or 0) - (a.at_depth_nm or 0)
            if deep <= SAME_PLACE_NM or not _near(a.at_height_nm, b.at_height_nm):
                continue
            off = self.off(a.value_nm) + self.off(b.value_nm)
            low, high = a.value_nm - most * deep - off, a.value_nm - least * deep + off
            if not low <= b.value_nm <= high:
                yield Finding(RULE, Level.CAUTION, "Width further out and corners disagree",
                              f"By the corners the run {self.write(b.at_depth_nm or 0)} out is "
                              f"{self.between(low, high)}; {self.write(b.value_nm)} was read.",
                              self.write(b.value_nm), self.between(low, high), "geometry, and " + SOURCE,
                              "Measure the width further out and both corners again.",
                              f"run at the wall {self.write(a.value_nm)}, less {least:.4f} to {most:.4f} × "
                              f"{self.write(deep)}, ± {self.write(off)} of the tape")
                return


def _same_place(a: Measured, b: Measured) -> bool:
    return all(_near(x, y) for x, y in ((a.at_height_nm, b.at_height_nm), (a.at_depth_nm, b.at_depth_nm),
                                        (a.at_along_nm, b.at_along_nm)))


def _near(a: int | None, b: int | None) -> bool:
    """Whether both were taken at one place; a place not said is only like another not said."""
    return (a is None and b is None) or (a is not None and b is not None and abs(a - b) <= SAME_PLACE_NM)
