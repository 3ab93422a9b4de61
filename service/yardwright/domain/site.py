"""The customer's place as measured: walls, corners, depths, ground, what is in the way, the way in.

Seen from the yard, looking at the back wall: left to right is x, out from the wall is y, up is z.
``walls`` holds one wall per side; the piece stands along the ``back`` one. Lengths in nm.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Measured:
    """One reading of the tape: where it was taken and what it said."""

    value_nm: int
    at_height_nm: int | None = None
    at_depth_nm: int | None = None
    at_along_nm: int | None = None


@dataclass(frozen=True, slots=True)
class Obstruction:
    """A thing on a wall from ``from_nm`` to ``to_nm`` along it, standing out ``projection_nm``."""

    kind: str
    from_nm: int
    to_nm: int
    projection_nm: int
    bottom_nm: int | None = None
    top_nm: int | None = None


@dataclass(frozen=True, slots=True)
class Wall:
    """One side of the space. ``readings`` are its run, taken at several heights and depths.

    ``out_of_plumb_nm`` is how far it leans over ``plumb_over_nm`` of height; it ``leans`` "in", into the
    space, or "away" from it.
    """

    side: str                    # "back" | "left" | "right"
    readings: tuple[Measured, ...]
    out_of_plumb_nm: int = 0
    plumb_over_nm: int = 0
    obstructions: tuple[Obstruction, ...] = ()
    leans: str = ""              # "" = in

    @property
    def leaning_nm(self) -> int:
        """How far it leans into the space; negative away from it."""
        return -self.out_of_plumb_nm if self.leans == "away" else self.out_of_plumb_nm


@dataclass(frozen=True, slots=True)
class Diagonal:
    """A corner taken by three tape readings: along the back wall, out along the side, and across."""

    along_nm: int
    out_nm: int
    across_nm: int


@dataclass(frozen=True, slots=True)
class Corner:
    """Where the back wall meets a side: an angle in degrees (90 = square, less = closing in) or diagonals."""

    at: str                      # "left" | "right"
    angle_deg: float | None = None
    diagonals: tuple[Diagonal, ...] = ()


@dataclass(frozen=True, slots=True)
class Ground:
    """Falls as rise over run (0.02 = 2 %); ``drop_behind_nm`` a drop at the back edge (deck, terrace).

    A drop of 0 was looked for and is none; None is not said.
    """

    surface: str = ""            # "paving", "deck", "balcony", "soil", "gravel", "grass", ...
    fall_along: float = 0.0
    fall_away: float = 0.0
    drop_behind_nm: int | None = None
    allowed_load_kn_m2: float | None = None


@dataclass(frozen=True, slots=True)
class Access:
    """One narrow place on the way in. A turn is square, from a passage into one ``width_after_nm`` wide."""

    kind: str                    # "gate" | "stairs" | "turn" | "passage"
    width_nm: int
    height_nm: int | None = None
    width_after_nm: int | None = None    # None = as wide as before the turn


@dataclass(frozen=True, slots=True)
class Site:
    """The measured space. ``kind``: "between walls", "corner", "against a wall" or "open"."""

    kind: str = "open"
    walls: tuple[Wall, ...] = ()
    corners: tuple[Corner, ...] = ()
    depths: tuple[Measured, ...] = ()
    height_under_nm: int | None = None
    ground: Ground = Ground()
    access: tuple[Access, ...] = ()
    exposure: str = ""
    region: str = ""
    tape_class: str = ""         # "" = the shop's
    walkway_nm: int | None = None

    def wall(self, side: str) -> Wall | None:
        return next((w for w in self.walls if w.side == side), None)
