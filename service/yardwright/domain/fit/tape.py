"""What a reading of a tape is worth: the most it may be off."""

from __future__ import annotations

import math
from collections.abc import Mapping

MICRON = 1000                    # nm; fit results are kept to the micrometre, always on the safe side

# +-(a + b L), a and b in micrometres, L in metres rounded up to a whole one: EU tape classes,
# Directive 2014/32/EU annex X (MI-008); formula from memory, its values at 3, 5, 8 and 10 m seen.
CLASSES: Mapping[str, tuple[int, int]] = {"I": (100, 100), "II": (300, 200), "III": (600, 400)}
SOURCE = "tape classes of Directive 2014/32/EU annex X (formula from memory, table values seen)"


def uncertainty_nm(length_nm: int, tape_class: str, mark_nm: int) -> int:
    """The tape's own error for its class and half the smallest mark read. An unknown class counts as III."""
    a, b = CLASSES.get(tape_class, CLASSES["III"])
    return (a + b * math.ceil(length_nm / 1_000_000_000)) * MICRON + mark_nm // 2


def up(length_nm: float) -> int:
    """Up to the next whole micrometre; what is only a floating error above one stays on it."""
    return math.ceil(length_nm / MICRON - 1e-6) * MICRON
