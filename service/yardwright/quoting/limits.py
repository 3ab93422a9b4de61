"""How much one job may ask for, so that one request cannot keep the shop's machine busy."""

from __future__ import annotations

from ..domain.errors import Fault, TooMuch
from ..domain.job import Job

MOST_ITEMS = 20
MOST_PIECES = 400
MOST_QUANTITY = 200


def within_limits(job: Job) -> None:
    """TooMuch names the item that goes too far; nothing is worked out before."""
    if len(job.items) > MOST_ITEMS:
        raise TooMuch(Fault("/items", f"{len(job.items)} items; one job holds at most {MOST_ITEMS}"))
    for index, item in enumerate(job.items):
        if not 1 <= item.quantity <= MOST_QUANTITY:
            raise TooMuch(Fault(f"/items/{index}/quantity", f"from 1 to {MOST_QUANTITY} of one item"))
    pieces = sum(item.quantity for item in job.items)
    if pieces > MOST_PIECES:
        raise TooMuch(Fault("/items", f"{pieces} pieces in all; one job holds at most {MOST_PIECES}"))
