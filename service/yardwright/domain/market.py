"""What can be bought: timbers, sections as sold, and the shop's price lists.

Every published figure keeps value, unit, source and status (``seen``, ``memory``, ``recomputed``,
``common practice``, ``judgement``, ``demonstration``).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from .money import Money


@dataclass(frozen=True, slots=True)
class Figure:
    """A published or shop figure with where it comes from."""

    value: float
    unit: str
    source: str
    status: str


@dataclass(frozen=True, slots=True)
class Timber:
    """A species (or treated species) as the engine needs it. Figures at 12 % moisture unless said.

    figures: density_kg_m3, specific_gravity, radial_shrinkage_pct, tangential_shrinkage_pct,
    radial_movement, tangential_movement (per 1 % moisture, 6-14 %), rupture_mpa, elasticity_mpa,
    side_hardness_n.
    """

    id: str
    name: str
    botanical: str
    kind: str                     # "softwood" | "hardwood"
    durability: str               # heartwood decay class in words
    treated: str                  # "" or a use category such as "UC3B", "UC4A"
    wet_as_delivered_pct: float   # moisture as delivered when not dried
    figures: Mapping[str, Figure]
    cautions: tuple[str, ...] = ()
    fasteners: tuple[str, ...] = ()   # metals fit for it, as goods' materials begin; () = any

    def value(self, name: str) -> float:
        """The bare value of a figure; KeyError where the timber lacks it (then a check says not checked)."""
        return self.figures[name].value

    def known(self, name: str) -> bool:
        return name in self.figures


@dataclass(frozen=True, slots=True)
class Section:
    """A lumber cross-section as sold: nominal name and actual size, dry and as delivered green or wet."""

    id: str                # "1x6", "5/4x6", "2x4", "28x120"
    system: str            # "in" | "mm"
    thickness_nm: int      # dressed, dry
    width_nm: int
    green_thickness_nm: int
    green_width_nm: int
    source: str
    status: str

    def as_delivered(self, moisture: str) -> tuple[int, int]:
        """(thickness, width) in nm at the saw: the green size for ``green`` or ``wet`` stock, else dry."""
        if moisture in ("green", "wet"):
            return self.green_thickness_nm, self.green_width_nm
        return self.thickness_nm, self.width_nm


@dataclass(frozen=True, slots=True)
class BoardStock:
    """One line of the yard's list: section x timber x grade x length, priced; ``count`` None = any."""

    code: str
    section: Section
    timber: str
    grade: str
    moisture: str          # "dry" | "green" | "wet"
    length_nm: int
    price: Money
    count: int | None = None
    on_hand: bool = False
    blocked: tuple[tuple[int, int], ...] = ()
    random_width: bool = False       # the section's width is then only the usual one
    sold_by: str = "piece"           # "piece" | "m" | "ft" | "board foot" | "m3"
    rate: Money | None = None        # price of one ``sold_by``; ``price`` is always the piece's
    measure: float = 1.0             # how many ``sold_by`` one piece holds

    @property
    def thickness_nm(self) -> int:
        return self.section.as_delivered(self.moisture)[0]

    @property
    def width_nm(self) -> int:
        return self.section.as_delivered(self.moisture)[1]


@dataclass(frozen=True, slots=True)
class SheetStock:
    code: str
    name: str
    material: str          # "exterior plywood"
    length_nm: int
    width_nm: int
    thickness_nm: int
    price: Money
    density_kg_m3: float
    count: int | None = None


@dataclass(frozen=True, slots=True)
class RollStock:
    """A roll sold in a fixed width, by whole steps of length (or whole rolls when step == roll length)."""

    code: str
    name: str
    material: str          # "mesh", "liner", "fabric"
    width_nm: int
    sold_by_nm: int        # price is for this length
    longest_nm: int
    price: Money
    mass_kg_m2: float


@dataclass(frozen=True, slots=True)
class Goods:
    """A hardware or consumable line sold in packs.

    kind: "screw", "hinge", "stay", "bracket", "foot", "staple", "glue", "finish", "bolt", "handle"...
    size: what tells two of a kind apart: {"gauge": 8, "length_nm": ...} for a screw, {"length_nm": ...}
    for a hinge, {"litres": 0.946} for a tin, {"load_n": ...} what one anchor may bear, pulled straight, as
    ``load_from`` says. ``per_pack`` is pieces (or litres) in a pack.
    """

    code: str
    name: str
    kind: str
    per_pack: float
    unit: str              # "each" | "L" | "m"
    price: Money
    size: Mapping[str, float] = field(default_factory=dict)
    material: str = ""     # "stainless 304", "hot-dip galvanised"
    mass_kg: float = 0.0   # of one piece
    load_from: str = ""    # who says what load it may bear


@dataclass(frozen=True, slots=True)
class Finish:
    """A coating: coverage per coat and coats, sold as Goods of kind "finish" with this id in their size."""

    id: str
    name: str
    coats: int
    coverage_m2_l: tuple[float, ...]   # by coat; the last holds for later ones
    minutes_m2: tuple[float, ...]
    dry_hours: float
    cautions: tuple[str, ...]
    source: str
    status: str


@dataclass(frozen=True, slots=True)
class Market:
    """Everything one shop can buy."""

    timbers: Mapping[str, Timber]
    sections: Mapping[str, Section]
    boards: tuple[BoardStock, ...]
    sheets: tuple[SheetStock, ...]
    rolls: tuple[RollStock, ...]
    goods: tuple[Goods, ...]
    finishes: Mapping[str, Finish]
    as_of: str             # ISO date of the price list
    demonstration: bool
