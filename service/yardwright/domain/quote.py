"""The quote: the whole answer to one job, frozen, with the working of its numbers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from . import measure
from .cutting.model import CuttingGroup, StockLineBought
from .finding import Finding
from .fit import Fit
from .hardware import HardwareLine
from .job import Job
from .labour import Labour
from .money import Money
from .parts import Part
from .piece.model import Piece
from .pricing import Price


@dataclass(frozen=True, slots=True)
class QuotedItem:
    piece: Piece
    quantity: int
    fit: Fit | None
    parts: tuple[Part, ...]
    mass_kg: float               # one piece with its hardware, dry
    price: Money                 # all of the quantity, as the lines show it
    hours: float
    findings: tuple[Finding, ...]
    delivered_kg: float = 0.0    # one piece with its hardware, its wood as wet as it was sold

    def overall_nm(self) -> dict[str, int]:
        """The closed piece as it stands, by name."""
        sizes = zip(("length", "depth", "height"), self.piece.standing_mm, strict=True)
        return {name: measure.from_mm(round(size_mm, 4)) for name, size_mm in sizes}


@dataclass(frozen=True, slots=True)
class Working:
    """How one figure arose: rule, numbers put in, source."""

    what: str
    rule: str
    numbers: str
    result: str
    source: str
    customer: bool = False       # shown to the customer too: sizes, weight, tax, total; never costs


@dataclass(frozen=True, slots=True)
class Quote:
    job: Job
    versions: Mapping[str, str]
    valid_until: date
    items: tuple[QuotedItem, ...]
    stock: tuple[StockLineBought, ...]
    cutting: tuple[CuttingGroup, ...]
    hardware: tuple[HardwareLine, ...]
    labour: Labour
    price: Price
    findings: tuple[Finding, ...]          # of the job as a whole; items carry their own
    stopped_by: tuple[Finding, ...]        # ``stop`` findings without an override: no paper
    terms: tuple[str, ...]
    cautions: tuple[str, ...]
    working: tuple[Working, ...]
    demonstration: bool
