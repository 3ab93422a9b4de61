"""Forces, stresses, weights and small movements in the units the customer reads.

Engine units in (mm, N, N/mm², kg), texts out: pounds and inches for a job in inches, SI for one in mm.
1 lbf = 4.4482216 N, 1 lb = 0.45359237 kg, 1 in = 25.4 mm (exact).
"""

from __future__ import annotations

from dataclasses import dataclass

from ..measure import Writer

LBF_N = 4.4482216152605
LB_KG = 0.45359237
INCH_MM = 25.4
GRAVITY = 9.80665            # m/s2, standard gravity
PSI = LBF_N / INCH_MM**2     # N/mm2
PSF = PSI / 144              # N/mm2
LB_FT3 = LB_KG / (12 * INCH_MM / 1000) ** 3      # kg/m3


@dataclass(frozen=True, slots=True)
class Words:
    """Writes engine values in the job's units."""

    writer: Writer

    @property
    def inches(self) -> bool:
        """Whether the job is in inches."""
        return self.writer.units == "in"

    def length(self, mm: float) -> str:
        """``14 3/4 in`` or ``375 mm``."""
        return self.writer.mm(mm)

    def held(self, mm: float, least_mm: float | None, most_mm: float | None, slack_mm: float = 0.0) -> str:
        """A length against its bounds: ``16 in ≤ 17 in ≤ 19 in``, ``20 in > 19 in``; None bounds nothing.

        Past a bound by no more than ``slack_mm``, a working step, counts as at it.
        """
        told = self.length(mm)
        for bound, beyond, sign in ((least_mm, -1.0, "<"), (most_mm, 1.0, ">")):
            if bound is not None and (mm - bound) * beyond > slack_mm:
                return f"{told} {sign} {self.length(bound)}"
            if bound is not None and (mm - bound) * beyond > 0 and told != self.length(bound):
                return f"{told}, within {self.fine(slack_mm)} of {self.length(bound)}"
        low = "" if least_mm is None else f"{self.length(least_mm)} ≤ "
        return f"{low}{told}" + ("" if most_mm is None else f" ≤ {self.length(most_mm)}")

    def fine(self, mm: float) -> str:
        """A small movement: ``0.12 in`` or ``3.1 mm``."""
        return f"{mm / INCH_MM:.2f} in" if self.inches else f"{mm:.1f} mm"

    def force(self, newtons: float) -> str:
        """``250 lbf`` or ``1112 N``."""
        return f"{newtons / LBF_N:.0f} lbf" if self.inches else f"{newtons:.0f} N"

    def forces(self, newtons: float, most: float) -> tuple[str, str]:
        """A force and what it is held against: with digits enough to tell them apart where it is more."""
        unit, size = ("lbf", LBF_N) if self.inches else ("N", 1.0)
        digits = next((d for d in range(3) if f"{newtons / size:.{d}f}" != f"{most / size:.{d}f}"), 3)
        digits = digits if newtons > most else 0
        return f"{newtons / size:.{digits}f} {unit}", f"{most / size:.{digits}f} {unit}"

    def used(self, share: float) -> str:
        """``87%`` of what it may; never 100% for more than all of it: ``100.4%``, ``100.01%``."""
        digits = next((d for d in range(3) if f"{share:.{d}%}" != f"{1:.{d}%}"), 3) if share > 1 else 0
        return f"{share:.{digits}%}"

    def mass(self, kg: float) -> str:
        """``34 lb`` or ``15.4 kg``."""
        if self.inches:
            return f"{kg / LB_KG:.0f} lb"
        return f"{kg:.1f} kg" if kg < 100 else f"{kg:.0f} kg"

    def stress(self, n_mm2: float) -> str:
        """``1090 psi`` or ``7.5 N/mm²``."""
        return f"{n_mm2 / PSI:.0f} psi" if self.inches else f"{n_mm2:.1f} N/mm²"

    def area_load(self, n_mm2: float) -> str:
        """``40 lb/ft²`` or ``1.9 kN/m²``."""
        return f"{n_mm2 / PSF:.0f} lb/ft²" if self.inches else f"{n_mm2 * 1000:.1f} kN/m²"

    def pressure(self, n_mm2: float) -> str:
        """A light one, of wind: ``11.5 lbf/ft²`` or ``552 N/m²``."""
        return f"{n_mm2 / PSF:.1f} lbf/ft²" if self.inches else f"{n_mm2 * 1e6:.0f} N/m²"

    def density(self, kg_m3: float) -> str:
        """``100 lb/ft³`` or ``1602 kg/m³``."""
        return f"{kg_m3 / LB_FT3:.0f} lb/ft³" if self.inches else f"{kg_m3:.0f} kg/m³"

    def plan(self, mm2: float) -> str:
        """The area of a piece seen from above: ``8.0 ft²`` or ``0.74 m²``."""
        return f"{mm2 / (12 * INCH_MM) ** 2:.1f} ft²" if self.inches else f"{mm2 / 1e6:.2f} m²"

    def turning(self, nmm: float) -> str:
        """A moment or torque: ``2300 in·lbf`` or ``260 N·m``."""
        if self.inches:
            return f"{nmm / LBF_N / INCH_MM:.0f} in·lbf"
        return f"{nmm / 1000:.1f} N·m"

    def volume(self, mm3: float) -> str:
        """``4.2 ft³`` or ``119 L``."""
        return f"{mm3 / (12 * INCH_MM) ** 3:.1f} ft³" if self.inches else f"{mm3 / 1e6:.0f} L"

    def area(self, mm2: float) -> str:
        """``4.0 in²`` or ``2580 mm²``."""
        return f"{mm2 / INCH_MM**2:.1f} in²" if self.inches else f"{mm2:.0f} mm²"
