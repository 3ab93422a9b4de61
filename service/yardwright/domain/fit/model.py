"""Does the piece fit the measured space, and by how much."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..finding import Finding


@dataclass(frozen=True, slots=True)
class Clearance:
    """Free distance on one side after tape uncertainty; negative = too big by that much.

    side: "left" | "right" | "along" (both ends together) | "front" | "behind" | "above".
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
