"""What the quote says about each item and about the job as a whole, gathered from the steps."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ..domain import hardware
from ..domain.finding import Finding, Level
from ..domain.fit import Fit
from ..domain.job import Override
from ..domain.labour import Labour
from ..domain.parts import Part
from ..domain.piece.model import Piece
from ..domain.pricing import Price
from ..domain.quote import QuotedItem
from ..domain.shop import Shop

_GRAVITY = (Level.STOP, Level.CAUTION, Level.NOT_CHECKED, Level.NOTE, Level.OK)


def quoted_items(counted: Sequence[tuple[Piece, int]], fits: Sequence[Fit | None], cut_list: Sequence[Part],
                 hours: Labour, price: Price,
                 findings: Sequence[Sequence[Finding]], shop: Shop) -> tuple[QuotedItem, ...]:
    """Each item with its own parts, weight, hours, price and findings, the gravest finding first."""
    return tuple(
        QuotedItem(piece=made, quantity=quantity, fit=fits[index],
                   parts=tuple(part for part in cut_list if part.item == index),
                   mass_kg=hardware.fitted_kg(made, shop), price=price.items[index].price,
                   hours=sum(operation.by_item[index] for operation in hours.operations) / 60,
                   findings=gravest_first(findings[index]),
                   delivered_kg=hardware.delivered_kg(made, shop))
        for index, (made, quantity) in enumerate(counted))


def gravest_first(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings in the order a reader needs them: what stops, what is to be minded, what is not known."""
    return tuple(sorted(findings, key=lambda finding: _GRAVITY.index(finding.level)))


def stopped_by(findings: Iterable[Finding], overrides: Sequence[Override]) -> tuple[Finding, ...]:
    """The ``stop`` findings that nobody has answered for in writing; an override names the rule."""
    answered = {override.what for override in overrides}
    return tuple(f for f in findings if f.level == Level.STOP and f.rule not in answered)


def cautions_of(pieces: Sequence[Piece], shop: Shop) -> tuple[str, ...]:
    """The shop's cautions, then each timber's and finish's, every one once."""
    said = list(shop.terms.cautions)
    for made in pieces:
        for timber in sorted({member.timber for member in made.members if member.timber}):
            if timber in shop.market.timbers:
                said += shop.market.timbers[timber].cautions
        coat = shop.market.finishes.get(made.choices.get("finish", "none"))
        said += coat.cautions if coat else ()
    return tuple(dict.fromkeys(said))
