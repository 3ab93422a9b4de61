"""Whether some stock gives every part, asked before anything is planned: a plan costs more to refuse.

The rules are the planner's own: widths with their edges trimmed where a glue edge needs it, least strips,
what may be ripped, what can be carried, end trims.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ..errors import Fault, Refused
from ..job import OnHand
from ..parts import Part
from ..shop import Shop
from .groups import Batch, batches, line_of, needed_part, told_of_item
from .plan import plan
from .problem import read_problem
from .refusals import refuse_what_no_board_gives


def uncuttable(parts: Sequence[Part], shop: Shop, on_hand: Sequence[OnHand] = ()) -> tuple[Fault, ...]:
    """A fault for every part that neither the shop's stock nor what is on hand gives, in its own name."""
    return tuple(fault for batch in batches(parts, shop, on_hand) for fault in _of(batch))


def _of(batch: Batch) -> Iterator[Fault]:
    """Boards are asked of all together; sheets and rolls are few, so each panel is planned alone."""
    lines = [line_of(line, batch.rules) for line in batch.stock]
    alone = [batch] if batch.kind == "board" else [
        replace(batch, parts=(replace(part, count=1),)) for part in batch.parts]
    for some in alone:
        asked = [needed_part(part, some) for part in some.parts]
        try:
            if some.kind == "board":
                refuse_what_no_board_gives(read_problem(asked, lines, some.rules), asked, lines)
            else:
                plan(asked, lines, some.rules, "quick")
        except Refused as refusal:
            yield from told_of_item(refusal, some).faults
