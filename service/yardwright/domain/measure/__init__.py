"""Lengths: whole nanometres, so that inches and millimetres are both exact (1/64 in = 396 875 nm).

``read`` takes what people write; what could mean two things is refused with the candidates, never
guessed. ``write`` says a length in inches, feet and inches, or mm. Rounding to a mark: exactly half
way goes to the even mark (NIST Handbook 44 section 10.3). pwa/logic/measure.js is the same rule for
the phone; both pass tests/vectors/lengths.json.
"""

from .amounts import in_units, say_amount, say_coverage
from .length import FOOT, INCH, MM, SIXTEENTH, from_mm, round_to, to_mm
from .reading import LIKELY_NM, MOST_NM, Reading, Trouble, examine, read
from .writing import Writer, say, write

__all__ = [
    "FOOT", "INCH", "LIKELY_NM", "MM", "MOST_NM", "SIXTEENTH", "Reading", "Trouble", "Writer",
    "examine", "from_mm", "in_units", "read", "round_to", "say", "say_amount", "say_coverage", "to_mm",
    "write",
]
