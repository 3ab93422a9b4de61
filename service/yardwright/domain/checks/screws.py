"""Wood screws and lag screws pulled out of wood, and sideways.

W = 2850·G²·D pounds for each inch of thread in the piece that holds, dry; G specific gravity, D shank in
inches (NDS eq. 12.2-2; seen), a fifth of what breaks it. Used wet outdoors 0.7 of it (NDS Table 11.3.3;
memory). Never from end grain.
Lag screws: W = 1800·G^1.5·D^0.75 pounds for each inch of thread without the tip (NDS eq. 12.2-1; memory,
reproduces the seen Table 12.2A). N and mm in, N out.
"""

from __future__ import annotations

from .words import INCH_MM, LBF_N


def withdrawal(gravity: float, shank_mm: float, thread_mm: float, factor: float) -> float:
    """Allowed pull on one dry screw in N; ``factor`` is the 2850 of the formula.

    >>> round(withdrawal(0.45, 0.190 * 25.4, 25.4, 2850) / 4.4482216)
    110
    """
    return factor * gravity**2 * (shank_mm / INCH_MM) * (thread_mm / INCH_MM) * LBF_N


def lag_withdrawal(gravity: float, shank_mm: float, thread_mm: float, factor: float) -> float:
    """Allowed pull on one dry lag screw in N; ``factor`` is the 1800 of the formula.

    >>> round(lag_withdrawal(0.55, 0.375 * 25.4, 25.4, 1800) / 4.4482216)
    352
    """
    return float(factor * gravity**1.5 * (shank_mm / INCH_MM) ** 0.75 * (thread_mm / INCH_MM) * LBF_N)


def lag_thread(shank_mm: float, length_mm: float, inside_mm: float) -> float:
    """Thread that holds, without the tip, in mm: a lag screw is threaded over half its length and 1/2 in, at
    most 6 in, and tapers over about 0.6 diameters (NDS Appendix L: 5/32, 3/16, 7/32 in; memory)."""
    threaded = min(length_mm / 2 + INCH_MM / 2, 6 * INCH_MM)
    return max(0.0, min(inside_mm, threaded) - LAG_TIP * shank_mm)


# F_yb of screws and nails, psi, up to this diameter in inches (NDS Appendix I; memory)
YIELD_PSI = ((0.142, 100_000.0), (0.177, 90_000.0), (0.236, 80_000.0), (0.273, 70_000.0))
LAG_YIELD_PSI = ((0.26, 70_000.0), (0.33, 60_000.0))     # of lag screws, else 45 000 (NDS Table 12J; memory)
LAG_ROOT = 0.69              # least root over shank of lag screws (NDS App. L: 0.173, 0.227, 0.265; memory)
LAG_TIP = 0.6
ROOT = 0.8                   # root over shank of wood screws (NDS App. L: 0.131/0.164, 0.152/0.190; memory)
LARGE_IN = 0.25              # from this diameter: bolts, by the formulas for large dowels


def lateral(side_gravity: float, main_gravity: float, root_mm: float, side_mm: float, main_mm: float,
            side_along: bool = False, main_along: bool = False, lag_mm: float = 0.0) -> float:
    """Allowed sideways load on one dry fastener in single shear, in N: the least of the NDS yield modes.

    ``side_mm`` is the piece it goes through, ``main_mm`` its length in the piece that holds. NDS 12.3.1 modes
    I_m, I_s, II, III_m, III_s, IV with F_e = 16 600·G^1.84 psi and K_D 2.2 (to 0.17 in, then 10·D + 0.5) for
    screws and nails. From 1/4 in (bolts) F_e = 11 200·G along the grain (``side_along``, ``main_along``),
    else 6100·G^1.45/sqrt(D); F_yb 45 000 psi; R_d 4, 3.6, 3.2, 1.25 of it
    where one is loaded across (memory). A lag screw tells its shank (``lag_mm``): that bears on the wood, the
    root bends, F_yb 70 000, 60 000, 45 000 psi; below 1/4 in of root R_d is K_D, 1.25 of it across (memory).

    >>> round(lateral(0.36, 0.36, 0.131 * 25.4, 19.05, 41.0) / 4.4482216)
    58
    """
    d, side, main = root_mm / INCH_MM, side_mm / INCH_MM, main_mm / INCH_MM
    body = lag_mm / INCH_MM or d
    large = body >= LARGE_IN
    main_psi, side_psi = (_dowel_psi(g, body, along) if large else 16_600 * g**1.84
                          for g, along in ((main_gravity, main_along), (side_gravity, side_along)))
    across = 1.0 if not large or (main_along and side_along) else 1.25
    steel, small = _yield_psi(d, body, lag_mm > 0), (2.2 if d <= 0.17 else 10 * d + 0.5) * across
    crush, turn, bend_ = (4 * across, 3.6 * across, 3.2 * across) if d >= LARGE_IN else (small, small, small)
    e, t = main_psi / side_psi, main / side
    one = ((e + 2 * e**2 * (1 + t + t**2) + t**2 * e**3) ** 0.5 - e * (1 + t)) / (1 + e)
    two = -1 + (2 * (1 + e) + 2 * steel * (1 + 2 * e) * d**2 / (3 * main_psi * main**2)) ** 0.5
    three = -1 + (2 * (1 + e) / e + 2 * steel * (2 + e) * d**2 / (3 * main_psi * side**2)) ** 0.5
    modes = (d * main * main_psi / crush, d * side * side_psi / crush, one * d * side * side_psi / turn,
             two * d * main * main_psi / ((1 + 2 * e) * bend_),
             three * d * side * main_psi / ((2 + e) * bend_),
             d * d / bend_ * (2 * main_psi * steel / (3 * (1 + e))) ** 0.5)
    return float(min(modes)) * LBF_N


def _yield_psi(d: float, body: float, lag: bool) -> float:
    if lag:
        return next((f for up_to, f in LAG_YIELD_PSI if body <= up_to), 45_000.0)
    return 45_000.0 if d >= LARGE_IN else next((f for up_to, f in YIELD_PSI if d <= up_to), 60_000.0)


def _dowel_psi(gravity: float, d: float, along: bool) -> float:
    return float(11_200 * gravity if along else 6100 * gravity**1.45 / d**0.5)


def head_pull(gravity: float, shank_mm: float, through_mm: float) -> float:
    """Allowed pull before the head goes through the piece it holds, dry, in N: 690·pi·D_H·G²·t pounds, t at
    most 2.5·D_H, the head twice the shank (NDS 12.2.5; memory)."""
    head = 2 * shank_mm / INCH_MM
    return 690 * 3.141592653589793 * head * gravity**2 * min(through_mm / INCH_MM, 2.5 * head) * LBF_N


def slip_modulus(shank_mm: float) -> float:
    """How stiff one fastener is sideways in N/mm: 180 000·D^1.5 lb/in (NDS 11.3.6; memory)."""
    inches = shank_mm / INCH_MM
    return float(180_000 * inches**1.5 * LBF_N / INCH_MM)
