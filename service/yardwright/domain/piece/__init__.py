"""A piece: an item resolved into placed solid members, and what follows from their geometry."""

from .build import build
from .clashes import clashes, clashes_in_motion, overlap_mm3
from .contacts import contacts
from .faces import edges, faces
from .figures import figures
from .look import faults_of
from .model import Piece
from .offer import offered
from .trial import TrialFault, TrialReport, trial
from .values import INLINE, OWN, Allowance
from .weight import balanced, density_at, weigh

__all__ = [
    "INLINE",
    "OWN",
    "Allowance",
    "Piece",
    "TrialFault",
    "TrialReport",
    "balanced",
    "build",
    "clashes",
    "clashes_in_motion",
    "contacts",
    "density_at",
    "edges",
    "faces",
    "faults_of",
    "figures",
    "offered",
    "overlap_mm3",
    "trial",
    "weigh",
]
