"""What one check is: its name, what a template must give it, and the case it looks at."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from ..errors import BadData
from ..finding import Finding
from ..fit.model import Fit
from ..market import Timber
from ..measure import Writer
from ..piece.model import AskedCheck, Member, Piece
from ..shop import Limits, Shop
from ..site import Site
from .touches import Touch, ground, touches
from .words import Words


class Unknown(Exception):
    """A figure that a check needs and nobody gave: the check then says *not checked*, never *ok*."""


class NoneSold(Unknown):
    """Nothing that the shop sells suits a place."""


def why(missing: Unknown | BadData) -> str:
    """What is lacking, in words."""
    if isinstance(missing, BadData):
        return "; ".join(fault.detail for fault in missing.faults)
    return str(missing)


@dataclass(frozen=True, slots=True)
class Declared:
    """What a template gives a check, and what its solids show instead, both in the job's units."""

    rule: str
    what: str                            # "the seat's height"
    said: str
    found: str


@dataclass(frozen=True, slots=True)
class Case:
    """What a check looks at: one piece, where it will stand, and the shop's figures."""

    piece: Piece
    fit: Fit | None
    site: Site
    shop: Shop
    writer: Writer
    touches: Mapping[str, tuple[Touch, ...]] = field(default_factory=dict)
    members: Mapping[str, Member] = field(default_factory=dict)
    declared: tuple[Declared, ...] = ()  # where the template says what its solids do not
    called_for: tuple[AskedCheck, ...] = ()  # checks that its solids call for, unasked
    unseen: tuple[str, ...] = ()         # why something of this could not be found out
    worked_on_site: bool = False         # the shop delivers or installs: what is cut there is in the price

    @property
    def words(self) -> Words:
        """Writes forces, stresses and weights in the job's units."""
        return Words(self.writer)

    def member(self, key: str) -> Member:
        """A member of the piece by its key."""
        return self.members[key]

    def limit(self, name: str) -> float:
        """The figure ``<file>.<name>`` of data/limits in engine units (mm, N, N/mm2, kg, deg).

        BadData where it is left out, as where the hardware's own rules look one up: not checked either way.
        """
        return self.shop.limits[name].value

    def source(self, *names: str) -> str:
        """Where figures come from, each with its status."""
        figures = (self.shop.limits[n] for n in names if n in self.shop.limits)
        return "; ".join(dict.fromkeys(f"{f.source} ({f.status})" for f in figures))

    def timber(self, member: Member) -> Timber:
        """The member's timber; Unknown for one that the market does not describe."""
        if member.timber not in self.shop.market.timbers:
            raise Unknown(f"the timber {member.timber or 'of ' + member.key} has no data")
        return self.shop.market.timbers[member.timber]

    @property
    def standing_mm(self) -> float:
        """A member that reaches this low stands on the ground."""
        return ground(self.piece) + self.limit("ground.touching")


def case_of(piece: Piece, fit: Fit | None, site: Site, shop: Shop, writer: Writer) -> Case:
    """The case of one piece, its touches found once."""
    known = replace(shop, limits=Limits(shop.limits))
    return Case(piece, fit, site, known, writer, touches(piece), {m.key: m for m in piece.members})


Check = Callable[[AskedCheck, Case], tuple[Finding, ...]]


@dataclass(frozen=True, slots=True)
class Rule:
    """A check as templates name it. ``needs`` and ``may``: value name -> kind of formula."""

    name: str
    check: Check
    needs: Mapping[str, str] = field(default_factory=dict)
    may: Mapping[str, str] = field(default_factory=dict)
    words: Mapping[str, tuple[str, ...]] = field(default_factory=dict)   # word -> allowed, () = any text
    members: bool = False                                                # members must be named
    solids: bool = True                  # False: it looks at the values it is given, never at a member
