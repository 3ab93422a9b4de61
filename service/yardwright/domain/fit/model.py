"""Does the piece fit the measured space, and by how much."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..finding import Finding
from .verdict import verdict


@dataclass(frozen=True, slots=True)
class Clearance:
    """Free distance on one side after tape uncertainty; negative = too big by that much.

    side: "along" (both ends together) | "front" | "behind" | "above"; for an L "wing" (beyond its end, out
    from the back wall) and "across" (from the wing to the wall at the other end).
    """

    side: str
    clearance_nm: int
    needed_nm: int
    binding: str                 # which reading decides, in words: "back wall at 36 in high"


@dataclass(frozen=True, slots=True)
class Envelope:
    """A piece as the fit sees it; lengths in nm."""

    length_nm: int
    depth_nm: int
    height_nm: int
    open_height_nm: int          # highest point in any open position (>= height)
    open_front_nm: int           # beyond the front when open
    open_behind_nm: int          # beyond the back when open
    use_front_nm: int
    wing: str = "none"           # an L for a corner: the end its wing is at, "left" | "right"
    wing_length_nm: int = 0      # how far the wing reaches out from the piece's back
    wing_depth_nm: int = 0       # what it takes along the back wall

    def out_nm(self, side: str) -> int:
        """How far out from its back it reaches at an end, "left" or "right"."""
        return max(self.depth_nm, self.wing_length_nm) if self.wing == side else self.depth_nm

    def opened_out_nm(self, side: str) -> int:
        """The same with everything open that opens over its front."""
        return max(self.out_nm(side), self.depth_nm + self.open_front_nm)

    @property
    def whole_depth_nm(self) -> int:
        """Out from its back over all, the wing included."""
        return max(self.out_nm("left"), self.out_nm("right"))

    @property
    def wing_stretch(self) -> tuple[int, int]:
        """What of its length the wing takes, from its left end."""
        start = 0 if self.wing == "left" else self.length_nm - self.wing_depth_nm
        return start, start + self.wing_depth_nm


@dataclass(frozen=True, slots=True)
class Fit:
    """The answer: whether it fits, what is free around it, where it can stand, what would fit."""

    fits: bool
    clearances: tuple[Clearance, ...]
    positions: tuple[tuple[int, int], ...]   # where along the back wall its left end can stand, from..to
    largest_nm: Mapping[str, int]            # each dimension with the others held; 0 = none fits
    best_nm: Mapping[str, int] | None        # the set in the template's priority, None = none fits
    uncertainty_nm: int
    findings: tuple[Finding, ...]
    doubts: tuple[Finding, ...] = ()         # of the readings and the other pieces, told of the job once

    @property
    def verdict(self) -> str:
        """The answer in one sentence."""
        return verdict(self.fits, (*self.doubts, *self.findings))
