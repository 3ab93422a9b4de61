"""The shop: who it is, what it can buy, how it works, what it charges, and what it promises."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from .errors import BadData, Fault
from .market import Figure, Market
from .money import Money

# Of random-width hardwood 20 to 30 % is lost to defects, edges and ends.
RANDOM_WIDTH_YIELD = Figure(0.75, "1", "20 to 30 % of random-width hardwood is lost; no source",
                            "common practice")


@dataclass(frozen=True, slots=True)
class Identity:
    name: str
    address: tuple[str, ...]
    phone: str
    email: str
    tax_number: str


@dataclass(frozen=True, slots=True)
class Saw:
    """How the shop cuts. All lengths in nm."""

    crosscut_kerf_nm: int
    rip_kerf_nm: int
    end_trim_nm: int            # at each end of a board
    edge_trim_nm: int           # off each factory edge before a glue joint
    longest_carry_nm: int       # no board longer than this can be fetched
    least_rip_length_nm: int    # a shorter segment is not safe to rip
    least_strip_nm: int         # a narrower strip is not safe to rip
    least_part_nm: int          # a shorter part is not workable
    least_offcut_nm: int        # a shorter offcut is not kept
    step_nm: int                # working step: 1/16 in or 1 mm
    finished_allowance_nm: int  # left on a rough length before the finishing cut
    sheet_trim_nm: int = 0      # off each of a sheet's four edges


@dataclass(frozen=True, slots=True)
class Fitting:
    """How the shop fits a piece in a space. All lengths in nm."""

    tape_class: str             # "I" | "II" | "III"
    reading_nm: int             # smallest mark read on the tape
    allowance_nm: int           # per side that is held between walls
    airflow_nm: int             # free behind and beside against a wall
    walkway_nm: int             # free in front


@dataclass(frozen=True, slots=True)
class TaxRule:
    name: str
    rate: str                   # decimal text: "0.0725"
    included: bool              # prices shown with the tax inside (VAT)
    by: str                     # "item" | "invoice": where it is rounded
    on: str                     # "all" | "materials"


@dataclass(frozen=True, slots=True)
class CutPrices:
    """What a cut is worth to the shop when the planner weighs cuts against boards.

    It decides which boards are bought and how they are cut, and is charged to nobody: the customer pays the
    hours of the cuts that are made, by the time standards. Sound values are therefore what those minutes
    cost the shop: minutes of one cut x (labour + overhead an hour) / 60. The credit is what a metre of kept
    full-width offcut saves the shop later; it is never taken off a price.
    """

    crosscut: Money
    rip_per_m: Money
    set_up: Money               # of stop or fence
    offcut_credit_per_m: Money


@dataclass(frozen=True, slots=True)
class PriceRules:
    """How cost becomes price. ``uplift`` says which of the two is meant; they are never confused."""

    currency: str
    rounding: str               # "half-up" | "half-even"
    round_total_to: Money       # the net total is rounded up to a multiple of this
    labour_rate: Money          # per hour, wage and burden
    overhead_per_hour: Money
    material_handling: str      # markup on material cost, decimal text
    uplift: str                 # "margin" (share of the price) | "markup" (share of the cost)
    uplift_rate: str
    waste: Mapping[str, str]    # goods kind -> spare share (screws, glue, finish)
    defect_spares: Mapping[str, str]  # grade -> spare share of boards
    tax: tuple[TaxRule, ...]
    deposit: str                # share of the total
    delivery_free_km: float
    delivery_per_km: Money
    delivery_least: Money
    second_person_over_kg: float
    cut_prices: CutPrices | None = None  # None: the cheapest boards, whatever their cuts
    on_hand_share: str = "0"    # a piece on hand costs this share of the same length bought


@dataclass(frozen=True, slots=True)
class Terms:
    valid_days: int
    lead_weeks: tuple[int, int]
    hours_per_day: float
    lines: tuple[str, ...]
    cautions: tuple[str, ...]
    cancellation: tuple[str, ...]
    home_sale_notice: str = ""  # "us": two notices of cancellation to fill in go with the quote (16 CFR 429)


@dataclass(frozen=True, slots=True)
class TimeStandard:
    """T = set-up (once per job) + count x each; ``per`` names the count: cut, m, m2, piece, screw..."""

    id: str
    name: str
    phase: str                  # "prepare" | "cut" | "join" | "finish" | "fit" | "office"
    per: str
    minutes: float
    setup_minutes: float
    source: str
    status: str


class Limits(dict[str, Figure]):
    """Figures by ``<file>.<name>``; one that is left out is BadData, by its name and file."""

    def __missing__(self, name: str) -> Figure:
        file, _, figure = name.partition(".")
        raise BadData(Fault("limits", f"the figure {figure} is not in limits/{file}.toml"))


@dataclass(frozen=True, slots=True)
class Shop:
    """All the data one quote needs, read once by wiring.py."""

    id: str
    units: str                  # "in" | "mm": what the shop works in
    identity: Identity
    market: Market
    saw: Saw
    fitting: Fitting
    times: Mapping[str, TimeStandard]
    allowance: Figure           # personal, fatigue and delay share on net time
    prices: PriceRules
    terms: Terms
    limits: Mapping[str, Figure]          # data/limits/*.toml, key = "<file>.<name>"
    keep_clear: Mapping[str, KeepClear]
    templates: Mapping[str, Any]          # id -> template.Template
    versions: Mapping[str, str]           # "service", "prices", "templates", "data"
    random_width_yield: Figure = RANDOM_WIDTH_YIELD  # share of random-width hardwood that becomes parts


@dataclass(frozen=True, slots=True)
class KeepClear:
    """Room that must stay free around a thing on a wall. ``solid``: the thing itself is in the way."""

    kind: str
    label: str
    sides_nm: int
    front_nm: int
    above_nm: int
    below_nm: int
    solid: bool
    level: str                  # finding level when a piece stands in it: "stop" | "caution"
    advice: str
    source: str
    status: str
