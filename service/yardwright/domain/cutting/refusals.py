"""Refusals of the planner: which part, which limit, and what would do."""

from __future__ import annotations

from collections.abc import Sequence

from .. import measure
from ..errors import Fault, NoStock
from .model import CutRules, NeededPart, StockLine
from .problem import Problem, Size


def say(nm: int) -> str:
    """A length in the unit it is whole in; both where it is whole in neither."""
    inches, mm = measure.write(nm, "in"), measure.write(nm, "mm")
    if nm % (measure.INCH // 64) == 0:
        return inches
    return mm if nm % 100_000 == 0 else f"{mm} (about {inches})"


def refuse_what_no_board_gives(
    problem: Problem, parts: Sequence[NeededPart], stock: Sequence[StockLine]
) -> None:
    """Raise NoStock naming every part that no board can give, the limit it breaks and what would do."""
    faults = []
    for at, part in enumerate(parts):
        size = Size(part.length_nm, part.width_nm, part.trim_edges, part.count, part.from_width_nm)
        if not any(_gives(problem, size, b.width_nm, b.longest_nm) for b in problem.boards if b.count != 0):
            faults.append(_fault(problem, at, part, size, stock))
    if faults:
        raise NoStock(*faults)


def refuse_too_little(problem: Problem, short: Sequence[int]) -> NoStock:
    """The counted stock does not reach: name the marks that are left over."""
    marks = []
    for n in short:
        need = problem.needs[n]
        for i in need.any_of or tuple(i for i, _ in need.set_of):
            marks += [mark for mark, _ in problem.marks[i]]
    named = ", ".join(dict.fromkeys(marks)) or "some parts"
    if any(need.set_of for need in problem.needs) and all(b.count is None for b in problem.boards):
        return NoStock(
            Fault(
                "/parts",
                f"no single board gives a whole matched set of {named}; a longer or wider board, or strips "
                f"that need not match, would do",
            )
        )
    return NoStock(
        Fault(
            "/stock",
            f"the counted stock is not enough for all of {named}; raise a count or add a length the yard "
            f"sells",
        )
    )


def _gives(problem: Problem, size: Size, width: int, longest: int) -> bool:
    if not problem.holds(size, width):
        return False
    ripped = size.width_nm != width or problem.trims(size)
    return max(size.length_nm, problem.rules.least_rip_length_nm if ripped else 0) <= longest


def _fault(problem: Problem, at: int, part: NeededPart, size: Size, stock: Sequence[StockLine]) -> Fault:
    rules = problem.rules
    if not problem.boards:
        carried = (
            f" no longer than the longest carry, {say(rules.longest_carry_nm)},"
            if rules.longest_carry_nm and stock
            else ""
        )
        return Fault(f"/parts/{at}", f"part {part.mark}: there is no stock{carried} to cut it from")
    wide = [b for b in problem.boards if problem.holds(size, b.width_nm)]
    if not wide:
        return Fault(f"/parts/{at}/width", _too_wide(problem, part, size))
    longest = max(wide, key=lambda b: (b.longest_nm, -b.price))
    if not longest.longest_nm:
        return Fault(
            "/end_trim",
            f"part {part.mark}: end trims of {say(rules.end_trim_nm)} at each end, and blocked zones, leave "
            f"nothing of any stock; the longest wide enough, {longest.code}, is {say(longest.length_nm)}. "
            f"A smaller end trim, or longer stock, would do",
        )
    need = max(size.length_nm, rules.least_rip_length_nm if size.width_nm != longest.width_nm else 0)
    why = f"part {part.mark} is {say(part.length_nm)} long"
    if need > size.length_nm:
        why += f" and must be ripped from a piece no shorter than {say(need)}"
    lost = " after end trims and blocked zones" if longest.longest_nm != longest.length_nm else ""
    carry = _carry(stock, rules, need)
    return Fault(
        f"/parts/{at}/length",
        f"{why}; the longest stock wide enough, {longest.code} of {say(longest.length_nm)}, gives "
        f"{say(longest.longest_nm)}{lost}. A length of at most {say(longest.longest_nm)}, or stock of at "
        f"least {say(need + 2 * rules.end_trim_nm)}, would do{carry}",
    )


def _carry(stock: Sequence[StockLine], rules: CutRules, need: int) -> str:
    if rules.longest_carry_nm is None:
        return ""
    if any(
        s.length_nm > rules.longest_carry_nm and s.length_nm >= need + 2 * rules.end_trim_nm for s in stock
    ):
        return f" (the yard sells longer, but the shop carries no more than {say(rules.longest_carry_nm)})"
    return ""


def _too_wide(problem: Problem, part: NeededPart, size: Size) -> str:
    rules = problem.rules
    widest = max(problem.usable_width_nm(b.width_nm, size.trim) for b in problem.boards)
    if widest <= 0:
        return (
            f"part {part.mark}: edge trims of {say(rules.edge_trim_nm)} at each edge leave nothing of any "
            f"stock. A smaller edge trim, or wider stock, would do"
        )
    if size.width_nm > widest:
        trimmed = " once its edges are trimmed" if problem.trims(size) else ""
        return (
            f"part {part.mark} is {say(part.width_nm)} wide; the widest stock gives {say(widest)}{trimmed}. "
            f"A width of at most {say(widest)}, or strips glued up, would do"
        )
    if size.width_nm < rules.least_strip_nm:
        return (
            f"part {part.mark} is {say(part.width_nm)} wide; the shop rips no strip narrower than "
            f"{say(rules.least_strip_nm)}, and no stock comes in that width"
        )
    return f"part {part.mark} is {say(part.width_nm)} wide; no stock has that width and none may be ripped"
