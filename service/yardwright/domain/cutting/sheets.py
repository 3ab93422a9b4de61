"""Sheets: straight through cuts, in any number of stages, a part turned only where its grain allows.

Small jobs are decided exactly: every block that through cuts can free at a given cost is listed
(``guillotine``), then the cheapest purchase is proven over all of them, as for boards. Larger jobs are filled
by hand several ways, then sheets are taken apart and cut anew, exactly, a few at a time. The bound holds for
every way to cut, also those not tried (``sheet_bounds``).

End trims come off both ends, edge trims off both long edges. A blocked zone parts a sheet: it is crosscut
there. A least rip length and a least strip do not apply: panels are guided whole.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterator, Sequence
from dataclasses import replace

from ..errors import Fault, NoStock, TooMuch
from . import sheet_exact
from .bounds import Sums
from .effort import EFFORT, Effort, Steps
from .guillotine import Room
from .model import CutRules, CuttingPlan, NeededPart, StockLine
from .objective import is_charged
from .problem import MOST_SIZES, check_asked
from .refusals import refuse_too_little, say
from .sheet_bounds import weight_bound
from .sheet_fill import by_hand
from .sheet_job import CutSheet, SheetJob, charge, cost_of, read_job
from .sheet_layout import sheet_layouts
from .tally import tally

# For each small part of a large job that the effort mends: parts set down by hand, steps of listing blocks.
_PLACED, _LISTED = 300, 4_000
_FEW_LINES = 8
_CROWD = 2_000  # parts beyond which one filling and a few mends have to do
_MANY = 40  # parts beyond which listing all blocks seldom ends


def plan_sheets(
    parts: Sequence[NeededPart], stock: Sequence[StockLine], rules: CutRules, effort: Effort
) -> CuttingPlan:
    """The cheapest sheets for these parts, and how they are cut; raises NoStock where a part fits none.

    Least cost of sheets (plus the shop's price of cuts less the credit of kept offcuts, where given), then
    least length bought. ``lower_bound`` holds for every plan of through cuts.
    """
    check_asked(parts, stock, rules)
    if not parts:
        return CuttingPlan("optimal", 0, 0, 0, 1.0, (), ())
    job = read_job(parts, stock, rules)
    if len(job.kinds) > MOST_SIZES:
        raise TooMuch(
            Fault("/parts", f"{len(job.kinds)} different sizes in one cutting plan; at most {MOST_SIZES}")
        )
    refuse_too_large(job, parts)
    if not is_charged(rules):
        cut, bound, stopped = cheapest(job, effort)
        return tally(sheet_layouts(job, sheet_exact.tidied(job, cut)), bound, stopped, rules)
    charged = charge(job)
    cut, bound, stopped = cheapest(charged.job, effort)
    bound = charged.bound(bound)
    near = [cut, cheapest(job, effort)[0], *_of_one_line(job)]
    plans = [tally(sheet_layouts(job, sheet_exact.tidied(job, one)), bound, stopped, rules) for one in near]
    return min(plans, key=lambda p: (p.cost, sum(layout.length_nm for layout in p.layouts)))


def _of_one_line(job: SheetJob) -> Iterator[list[CutSheet]]:
    """Near purchases whose cuts and offcuts may make up for their price: each sheet alone."""
    for b in range(len(job.boards)) if 1 < len(job.boards) <= _FEW_LINES else ():
        others = [replace(s, count=s.count if at == b else 0) for at, s in enumerate(job.boards)]
        try:
            yield cheapest(replace(job, boards=tuple(others)), EFFORT["quick"])[0]
        except NoStock:
            continue


def cheapest(job: SheetJob, effort: Effort) -> tuple[list[CutSheet], int, str]:
    """The sheets, what none can cost less than, and what ended the search early."""
    weighed = weight_bound(job.kinds, job.offers())
    if weighed == math.inf:
        raise refuse_too_little(job.problem(), range(len(job.kinds)))
    parts = sum(kind.most for kind in job.kinds)
    sheets, least, stopped = None, 0, "steps"
    crowd = parts > _CROWD
    for share in (20,) if crowd else (20, 1):  # most jobs need little
        placed, listed = _PLACED * effort.mends // share, _LISTED * effort.mends // share
        again = by_hand(job, max(least, math.ceil(weighed - 1e-6)), placed)
        if sheets is None or (again is not None and cost_of(job, again) < cost_of(job, sheets)):
            sheets = again
        if sheets is not None:
            least = max(least, Sums(job.boards, cost_of(job, sheets)[0]).reach(weighed))
        steps = Steps(listed if parts <= _MANY else listed // 10)
        solved = sheet_exact.solve(job, sheets, least, effort, steps)
        if solved is not None:
            sheets, least, stopped = solved.sheets, solved.bound, solved.stopped
            if not stopped:
                return sheets, least, ""
    if sheets is None:
        raise refuse_too_little(job.problem(), range(len(job.kinds)))
    sheets = _mended(job, sheets, least, effort.mends // 6 if crowd else effort.mends)
    return sheets, least, stopped if cost_of(job, sheets)[0] > least else ""


def _mended(job: SheetJob, sheets: list[CutSheet], least: int, turns: int) -> list[CutSheet]:
    """The emptiest sheets with others taken apart and cut anew, kept where that costs less.

    The others are drawn by a fixed rule from a fixed seed.
    """
    draw = random.Random(len(sheets))
    for turn in range(turns):
        if len(sheets) < 2 or cost_of(job, sheets)[0] <= least:
            break
        order = sorted(range(len(sheets)), key=lambda at: (sheets[at].filled(job), at))
        together = min(2 + turn % 5, len(sheets))
        picked = [order[0], *draw.sample(order[1:], together - 1)]
        better = sheet_exact.anew(job, sheets, picked)
        if better is not None:
            sheets = [one for at, one in enumerate(sheets) if at not in picked] + better
    return sheets


def refuse_too_large(job: SheetJob, parts: Sequence[NeededPart]) -> None:
    """Raise NoStock naming every part that no sheet holds."""
    rooms = [room for at, sheet in enumerate(job.boards) if sheet.count != 0 for room in job.rooms(at)]
    faults = []
    for at, part in enumerate(parts):
        kind = job.kinds[job.kind_of[at]]
        lies = [(kind.x_nm, kind.y_nm), *([kind.turned] if kind.turned else [])]
        if not any(x <= room[0] and y <= room[1] for x, y in lies for room in rooms):
            faults.append(_fault(job, part, at, rooms))
    if faults:
        raise NoStock(*faults)


def _fault(job: SheetJob, part: NeededPart, at: int, rooms: Sequence[Room]) -> Fault:
    """Names the part, what the largest sheet gives, and what would do."""
    if not rooms:
        return Fault(f"/parts/{at}", f"part {part.mark}: no sheet is larger than its own trims")
    rules = job.rules
    long, wide = max(rooms, key=lambda room: room[0] * room[1])
    gives = f"{say(long - rules.crosscut_kerf_nm)} x {say(wide - rules.rip_kerf_nm)}"
    kind = job.kinds[job.kind_of[at]]
    turned = (part.width_nm + rules.crosscut_kerf_nm, part.length_nm + rules.rip_kerf_nm)
    turning = ""
    if kind.turned is None and any(turned[0] <= x and turned[1] <= y for x, y in rooms):
        turning = " Letting it turn (grain either) would do."
    lost = " after trims and blocked zones" if _loses(job) else ""
    too_wide = kind.turned is None and kind.y_nm > max(y for _, y in rooms)
    return Fault(
        f"/parts/{at}/{'width' if too_wide else 'length'}",
        f"part {part.mark} is {say(part.length_nm)} x {say(part.width_nm)}; the largest sheet gives "
        f"{gives}{lost}. A part within that, or a larger sheet, would do.{turning}",
    )


def _loses(job: SheetJob) -> bool:
    whole = all(b.clear == ((0, b.length_nm),) for b in job.boards)
    return not whole or job.rules.edge_trim_nm > 0
