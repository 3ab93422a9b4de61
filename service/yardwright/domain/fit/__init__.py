"""Does the piece fit the measured space, and by how much.

``fit`` answers for a template's sizes and a site; ``site_findings`` tells which readings contradict each
other. pwa/logic/fit.js is the same arithmetic for the phone; both pass tests/vectors/fits.json.
"""

from .access import goes_in_whole
from .answer import fit
from .carrying import with_way_in
from .envelope import envelope
from .model import Clearance, Envelope, Fit
from .readings import site_findings
from .site_work import SiteWork, site_work
from .space import cornered
from .tape import uncertainty_nm

__all__ = ["Clearance", "Envelope", "Fit", "SiteWork", "cornered", "envelope", "fit", "goes_in_whole",
           "site_findings", "site_work", "uncertainty_nm", "with_way_in"]
