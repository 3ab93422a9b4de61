"""From a job to a quote: the order of the work, each step from values to a new value, no input or output.

``make_quote`` is the whole pipeline. What cannot be quoted is Refused with pointers into the job; what
can be quoted but not answered for is a ``stop`` finding, which holds the paper back until the shop
overrides it in writing. ``with_mends`` looks for changes that would take such findings away.
"""

from .limits import MOST_ITEMS, MOST_PIECES
from .mends import with_mends
from .pipeline import fit_of, fit_question, known_template, make_quote, piece_of

__all__ = ["MOST_ITEMS", "MOST_PIECES", "fit_of", "fit_question", "known_template", "make_quote", "piece_of",
           "with_mends"]
