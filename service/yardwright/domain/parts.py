"""Parts: the cut list of all items of a job together, with marks, hands, rough and finished size.

Members of one piece that come out the same (name, stock, finished size, shape work, hand) are one line.
Finished length and width are rounded here, once, down to the shop's working step: what that leaves over
goes into gaps and the piece never grows beyond what was asked. Thickness stays as delivered, and so does
the width of a board that is not ripped.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from .measure import from_mm, round_to
from .piece.model import Member, Piece
from .shop import Saw, Shop
from .template.model import GlueUp

# Work on an end, or on an outline, is cut from a blank that is left longer than the part.
LONGER_BLANK = frozenset({"bevel", "compound", "outline", "plane"})
# Sizes come from turned geometry in floating point; this much below a mark still reads as the mark.
NOISE_NM = 10_000
SCRIBED = "left at rough length at the foot: cut to scribe on site"
MATERIALS = ("board", "sheet", "roll")


@dataclass(frozen=True, slots=True)
class Part:
    """One line of the cut list. Finished lengths are rounded once, to the shop's working step."""

    mark: str                    # "A1": item letter and number
    name: str
    item: int                    # index of the item in the job
    count: int                   # for all pieces of the item
    hand: str                    # "" | "left" | "right"
    material: str                # "board" | "sheet" | "roll"
    timber: str
    section: str
    grade: str
    length_nm: int               # finished, long point to long point
    width_nm: int
    thickness_nm: int
    rough_length_nm: int         # as first cut: finished plus the shop's allowance where shape work needs it
    full_width: bool             # used at the section's full width, not ripped
    made_of: str                 # glue-up it goes into, "" = none
    glue_up_kind: str
    grain: str
    shape: tuple[str, ...]       # shape work in words
    notes: tuple[str, ...]
    keys: tuple[str, ...]        # member keys of one piece that this line stands for
    matched: bool = False        # the strips of its glue-up come from one board


def cut_list(pieces: Sequence[tuple[Piece, int]], shop: Shop,
             longer_nm: Sequence[Mapping[str, int]] = ()) -> tuple[Part, ...]:
    """The parts of all items, each piece with its quantity: boards, then sheets, then rolls.

    ``longer_nm``: for each item what members, by key, are left longer to be cut on site.

    Within an item thick stock comes first, then wide, then long; marks count in that order: A1, A2... for
    the first item, B1... for the second.
    """
    found: list[Part] = []
    for item, (piece, quantity) in enumerate(pieces):
        left_long = longer_nm[item] if item < len(longer_nm) else {}
        lines = sorted(_lines(piece, item, quantity, shop.saw, left_long), key=_order)
        found.extend(replace(line, mark=f"{letter(item)}{number}") for number, line in enumerate(lines, 1))
    return tuple(found)


def letter(item: int) -> str:
    """The letter of an item: A to Z, then AA, AB and on.

    >>> letter(0), letter(25), letter(26)
    ('A', 'Z', 'AA')
    """
    text = ""
    while item >= 0:
        text = chr(ord("A") + item % 26) + text
        item = item // 26 - 1
    return text


def finished(mm: float, step_nm: int) -> int:
    """A size from geometry, down to the working step, in nm.

    >>> finished(1117.0, 1_587_500) / 25_400_000      # 1117 mm in sixteenths of an inch: 43 15/16 in
    43.9375
    """
    return round_to(from_mm(mm) + NOISE_NM, step_nm, "down")


def _order(part: Part) -> tuple[int, int, str, int, int, str, str]:
    return (MATERIALS.index(part.material), -part.thickness_nm, part.section, -part.length_nm, -part.width_nm,
            part.name, part.hand)


def _lines(piece: Piece, item: int, quantity: int, saw: Saw, left_long: Mapping[str, int]) -> Iterator[Part]:
    """One unmarked line for each kind of member of the piece."""
    glue_ups = {glue_up.name: glue_up for glue_up in piece.glue_ups}
    alike: dict[Part, list[str]] = {}
    for member in piece.members:
        part = _part(member, item, glue_ups, saw)
        if more := round_to(left_long.get(member.key, 0), saw.step_nm, "up"):
            part = replace(part, rough_length_nm=part.rough_length_nm + more, notes=(*part.notes, SCRIBED))
        alike.setdefault(part, []).append(member.key)
    for part, keys in alike.items():
        yield replace(part, count=len(keys) * quantity, keys=tuple(keys))


def _part(member: Member, item: int, glue_ups: Mapping[str, GlueUp], saw: Saw) -> Part:
    full = member.material == "board" and member.width_mm >= member.stock_width_mm - NOISE_NM / 1e6
    length = finished(member.length_mm, saw.step_nm)
    glue_up = glue_ups.get(member.glue_up)
    longer = glue_up is not None or any(work.kind in LONGER_BLANK for work in member.shape)
    return Part(
        "", member.name, item, 0, member.hand, member.material, member.timber, member.section, member.grade,
        length, from_mm(member.stock_width_mm) if full else finished(member.width_mm, saw.step_nm),
        from_mm(member.thickness_mm), length + (saw.finished_allowance_nm if longer else 0), full,
        member.glue_up, glue_up.kind if glue_up else "", member.grain, _shape(member),
        tuple(_notes(member, glue_up, length, longer, saw)), (), glue_up.matched if glue_up else False)


def _shape(member: Member) -> tuple[str, ...]:
    """The shape work in words, the same work at both ends once with its number."""
    counts = Counter(work.text for work in member.shape)
    return tuple(f"{text}, {count} times" if count > 1 else text for text, count in sorted(counts.items()))


def _notes(member: Member, glue_up: GlueUp | None, length_nm: int, longer: bool, saw: Saw) -> Iterator[str]:
    if glue_up:
        one_board = ", strips from one board" if glue_up.matched else ""
        yield f"glue up: {glue_up.name} ({glue_up.kind}){one_board}"
    if longer:
        yield "cut to rough length first"
    if member.material == "board" and length_nm < saw.least_part_nm:
        yield "short: shape it on a longer blank and cut it off last"
