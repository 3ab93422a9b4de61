"""Whether some stock gives every part, asked before anything is planned: a plan costs more to refuse.

The rules are the planner's own: widths with their edges trimmed where a glue edge needs it, least strips,
what may be ripped, what can be carried, end trims.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..errors import Fault, Refused
from ..job import OnHand
from ..parts import Part
from ..shop import Shop
from .groups import Batch, batches, line_of, needed_part, told_of_item
from .problem import read_problem
from .refusals import refuse_what_no_board_gives
from .rolls import laid_out
from .sheet_job import read_job
from .sheets import refuse_too_large


def uncuttable(parts: Sequence[Part], shop: Shop, on_hand: Sequence[OnHand] = ()) -> tuple[Fault, ...]:
    """A fault for every part that neither the shop's stock nor what is on hand gives, in its own name."""
    return tuple(fault for batch in batches(parts, shop, on_hand) for fault in _of(batch))


def _of(batch: Batch) -> Iterator[Fault]:
    lines = [line_of(line, batch.rules) for line in batch.stock]
    asked = [needed_part(part, batch) for part in batch.parts]
    try:
        if batch.kind == "board":
            refuse_what_no_board_gives(read_problem(asked, lines, batch.rules), asked, lines)
        elif batch.kind == "sheet":
            refuse_too_large(read_job(asked, lines, batch.rules), asked)
        else:
            laid_out(asked, lines, batch.rules)
    except Refused as refusal:
        yield from told_of_item(refusal, batch).faults
