"""The declared name that was probably meant; cheap however many names are declared and whatever they hold."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches
from heapq import nlargest
from itertools import islice

MOST_LETTERS = 60        # of a name that are looked at
MOST_NAMES = 300
FEW = 5                  # names that share most letter pairs are compared letter by letter


def nearest(name: str, known: Iterable[str], most: int = 1) -> list[str]:
    """At most ``most`` known names near enough to be a slip of the pen, best first; capitals do not count.

    >>> nearest("seat bord", ["Seat board", "Back board"])
    ['Seat board']
    """
    asked = name[:MOST_LETTERS].lower()
    lowered = {n[:MOST_LETTERS].lower(): n for n in islice(known, MOST_NAMES)}
    pairs = _pairs(asked)
    close = nlargest(FEW, lowered, key=lambda n: len(pairs & _pairs(n)) / (len(n) + len(asked) + 1))
    return [lowered[n] for n in get_close_matches(asked, close, n=most, cutoff=0.6)]


def _pairs(word: str) -> set[str]:
    return {word[i:i + 2] for i in range(len(word))}
