"""Matched strips: the strips of one glue-up that the template wants from one board."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from ..parts import Part
from .model import NeededPart


def matched_sets(parts: Sequence[Part], needed: Sequence[NeededPart]) -> list[NeededPart]:
    """The needed parts, those of matched glue-ups tied into sets: one set for each glue-up made.

    Left and right glue-ups are sets of their own where both hands have the same lines; else one set holds
    what the smallest number of equal glue-ups shares.
    """
    by_glue_up: dict[tuple[int, str], list[int]] = {}
    for at, part in enumerate(parts):
        if part.matched and part.made_of and part.material == "board":
            by_glue_up.setdefault((part.item, part.made_of), []).append(at)
    tied = list(needed)
    for (item, name), members in by_glue_up.items():
        for word, strips in _by_hand(parts, members, f"{item}:{name}"):
            sets = math.gcd(*(parts[at].count for at in strips))
            for at in strips:
                tied[at] = replace(needed[at], matched=word, sets=sets)
    return tied


def _by_hand(parts: Sequence[Part], members: list[int], word: str) -> list[tuple[str, list[int]]]:
    hands: dict[str, list[int]] = {}
    for at in members:
        hands.setdefault(parts[at].hand, []).append(at)
    if len({len(strips) for strips in hands.values()}) == 1:
        return [(f"{word} {hand}".strip(), strips) for hand, strips in hands.items() if len(strips) > 1]
    return [(word, members)] if len(members) > 1 else []
