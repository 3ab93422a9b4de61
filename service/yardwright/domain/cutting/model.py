"""What the cutting planner takes and gives. All lengths whole nm, all costs whole minor units.

x runs along the stock's length, y across it. Parts are at least a kerf apart and come free by straight
through cuts: crosscut the board into segments, rip a segment into strips, crosscut strips into parts.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..market import BoardStock, RollStock, SheetStock
from ..money import Money


@dataclass(frozen=True, slots=True)
class CutRules:
    """How the shop cuts. ``longest_carry_nm`` None = no limit; costs in minor units."""

    crosscut_kerf_nm: int
    rip_kerf_nm: int
    end_trim_nm: int = 0  # at each end
    edge_trim_nm: int = 0  # at each edge, only where ``trim_edges`` parts are ripped
    longest_carry_nm: int | None = None
    least_rip_length_nm: int = 0
    least_strip_nm: int = 0
    least_offcut_nm: int = 0
    crosscut_cost: float = 0.0
    rip_cost_per_m: float = 0.0
    setup_cost: float = 0.0
    offcut_credit_per_m: float = 0.0
    rip_from_wider: bool = True
    overlap_nm: int = 0  # of two widths of a roll, where a panel is wider than the roll


@dataclass(frozen=True, slots=True)
class StockLine:
    """One buyable size. kind: "board" | "sheet" | "roll"; ``count`` None = any number.

    A roll is sold by steps of ``length_nm`` at ``price`` each, in one piece up to ``longest_nm``.
    """

    code: str
    length_nm: int
    width_nm: int
    price: int
    kind: str = "board"
    count: int | None = None
    on_hand: bool = False
    blocked: tuple[tuple[int, int], ...] = ()
    longest_nm: int | None = None  # rolls only


@dataclass(frozen=True, slots=True)
class NeededPart:
    """``count`` parts of one size. grain: "along" (never turned) or "either" (sheets only).

    ``matched`` > 0: that many strips must come from one board (a glue-up's strips share a mark's ``set``).
    """

    mark: str
    length_nm: int
    width_nm: int
    count: int
    grain: str = "along"
    trim_edges: bool = False
    matched: str = ""  # parts with the same word come from one board, set by set
    sets: int = 0  # how many such sets ``count`` makes up
    from_width_nm: int = 0  # cut only from stock of this width; 0 = from any that holds it


@dataclass(frozen=True, slots=True)
class Placed:
    mark: str
    x_nm: int
    y_nm: int
    length_nm: int
    width_nm: int


@dataclass(frozen=True, slots=True)
class Offcut:
    x_nm: int
    y_nm: int
    length_nm: int
    width_nm: int
    kept: bool


@dataclass(frozen=True, slots=True)
class CutStep:
    """One saw step in words, grouped by set-up: "crosscut at 35 1/2 in, 3 times".

    ``cuts`` is where the blade runs, once for each time: (x, y) to (x, y) on the near side of the kerf.
    """

    kind: str  # "trim" | "crosscut" | "rip"
    setting_nm: int  # stop or fence distance
    times: int
    piece: str  # "board", "segment 1", "strip 2"
    marks: tuple[str, ...] = ()
    cuts: tuple[tuple[int, int, int, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Layout:
    """One board, sheet or roll length with its parts."""

    code: str
    length_nm: int
    width_nm: int
    parts: tuple[Placed, ...]
    offcuts: tuple[Offcut, ...]
    steps: tuple[CutStep, ...]
    price: int


@dataclass(frozen=True, slots=True)
class Purchase:
    code: str
    count: int
    amount: int


@dataclass(frozen=True, slots=True)
class CuttingPlan:
    """Layouts and purchases. ``lower_bound`` <= any possible cost, in the objective's own terms.

    status: "optimal" (cost proven) | "bounded" (lower_bound says how far it can be off at most) |
    "estimate" (boards of random width: nothing is claimed).
    ``stopped`` says what ended the search early: "" | "steps" | "clock".
    """

    status: str
    cost: int  # boards, plus cut costs less credits where the shop gives them
    boards_cost: int
    lower_bound: int
    yield_share: float  # area of parts / area bought
    layouts: tuple[Layout, ...]
    purchases: tuple[Purchase, ...]
    stopped: str = ""


@dataclass(frozen=True, slots=True)
class StockLineBought:
    """Stock to buy (or take from hand), all groups together. ``spares`` are boards for defects, included."""

    stock: BoardStock | SheetStock | RollStock
    kind: str  # "board" | "sheet" | "roll"
    count: int
    spares: int
    on_hand: bool
    length_nm: int  # of one piece; for a roll the length cut off
    amount: Money
    working: str


@dataclass(frozen=True, slots=True)
class CuttingGroup:
    """One plan per timber, thickness and grade (or sheet or roll material)."""

    name: str
    material: str
    plan: CuttingPlan


EFFORTS = ("quick", "normal", "thorough")
