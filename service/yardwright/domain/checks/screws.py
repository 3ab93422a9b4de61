"""Wood screws pulled out of side grain.

W = 2850·G²·D pounds for each inch of thread in the piece that holds, dry; G specific gravity, D shank in
inches (NDS eq. 12.2-2; seen), a fifth of what breaks it. Used wet outdoors 0.7 of it (NDS Table 11.3.3;
memory). Never from end grain. N and mm in, N out.
"""

from __future__ import annotations

from .words import INCH_MM, LBF_N


def withdrawal(gravity: float, shank_mm: float, thread_mm: float, factor: float) -> float:
    """Allowed pull on one dry screw in N; ``factor`` is the 2850 of the formula.

    >>> round(withdrawal(0.45, 0.190 * 25.4, 25.4, 2850) / 4.4482216)
    110
    """
    return factor * gravity**2 * (shank_mm / INCH_MM) * (thread_mm / INCH_MM) * LBF_N
