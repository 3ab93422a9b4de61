"""How much one job may ask for, so that one request cannot keep the machine busy; names it must know."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

from ..domain.errors import BadJob, Fault, TooMuch
from ..domain.job import Job
from ..domain.shop import Shop

MOST_ITEMS = 20
MOST_PIECES = 400
MOST_QUANTITY = 200
MOST_INLINE = 4          # items whose template comes with them


def within_limits(job: Job) -> None:
    """TooMuch names the item that goes too far; nothing is worked out before."""
    if len(job.items) > MOST_ITEMS:
        raise TooMuch(Fault("/items", f"{len(job.items)} items; one job holds at most {MOST_ITEMS}"))
    if sum(item.inline is not None for item in job.items) > MOST_INLINE:
        raise TooMuch(Fault("/items", f"at most {MOST_INLINE} items may bring their own template; "
                                      "put it into the shop's folder"))
    for index, item in enumerate(job.items):
        if not 1 <= item.quantity <= MOST_QUANTITY:
            raise TooMuch(Fault(f"/items/{index}/quantity", f"from 1 to {MOST_QUANTITY} of one item"))
    pieces = sum(item.quantity for item in job.items)
    if pieces > MOST_PIECES:
        raise TooMuch(Fault("/items", f"{pieces} pieces in all; one job holds at most {MOST_PIECES}"))


def known_on_hand(job: Job, shop: Shop) -> None:
    """BadJob where a piece at hand has a section or a timber that nobody knows: it would never be used."""
    faults = []
    for index, piece in enumerate(job.on_hand):
        for member, name, known in (("section", piece.section, shop.market.sections),
                                    ("timber", piece.timber, shop.market.timbers)):
            if name not in known:
                said = f"no {member} {name!r} is known{near(name, known)}"
                faults.append(Fault(f"/on_hand/{index}/{member}", said))
    if faults:
        raise BadJob(*faults)


def near(name: str, known: Iterable[str]) -> str:
    """The closest name, or all of them where none is close."""
    names = sorted(known)
    close = get_close_matches(name, names, 1, 0.5)
    return f"; did you mean {close[0]!r}?" if close else f"; known are {', '.join(names)}"
