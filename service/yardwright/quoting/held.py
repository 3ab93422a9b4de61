"""What would hold the paper of a piece as it is offered: the stops that its checks find in an open yard."""

from __future__ import annotations

from collections.abc import Iterator

from ..domain import checks
from ..domain.errors import Fault
from ..domain.finding import Level
from ..domain.measure import Writer
from ..domain.piece.model import Piece
from ..domain.shop import Shop
from ..domain.site import Site


def held(piece: Piece, shop: Shop) -> Iterator[Fault]:
    """Each stop, at the check that the template asks for where it is one of these.

    Nothing of the place is known here: what its walls, ground or wind would hold is told by the job's quote.
    """
    wheres = {rule.rule: rule.where for rule in piece.template.checks}
    for finding in checks.run(piece, None, Site(), shop, Writer(shop.units)):
        if finding.level is Level.STOP:
            said = f"{finding.title}. {finding.detail} {finding.mend}".rstrip()
            yield Fault(wheres.get(finding.rule, ""), f"its quote would be held by {finding.rule}: {said}")
