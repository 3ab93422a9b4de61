"""What the site stands on, as people write it, sorted into what the checks ask: raised, soft or hard.

Words are looked for anywhere in what was written, whatever its capitals: ``Roof terrace`` is raised, ``bare
earth`` soft. Raised goes before soft (a roof garden), soft before hard (gravel between slabs): the one that
asks more of the piece. Words that none of the lists holds are "unknown": the checks then say so.
"""

from __future__ import annotations

RAISED = ("deck", "balcon", "roof", "loggia", "veranda", "porch", "gallery", "mezzanine", "raised",
          "suspended", "platform", "scaffold", "jetty", "pontoon")
SOFT = ("soil", "earth", "grass", "lawn", "turf", "gravel", "mulch", "bark", "sand", "shingle", "chipping",
        "dirt", "clay", "mud", "meadow", "crushed")
HARD = ("paving", "paved", "paver", "concrete", "patio", "slab", "tile", "stone", "brick", "flag", "cobble",
        "asphalt", "tarmac", "terrace", "sett", "screed", "floor")


def kind_of(surface: str) -> str:
    """``raised``, ``soft``, ``hard``, ``unknown``; "" where nothing was said.

    >>> [kind_of(s) for s in ("Roof terrace", "bare Earth", "paving", "trampoline", "")]
    ['raised', 'soft', 'hard', 'unknown', '']
    """
    said = surface.strip().lower()
    if not said:
        return ""
    for kind, words in (("raised", RAISED), ("soft", SOFT), ("hard", HARD)):
        if any(word in said for word in words):
            return kind
    return "unknown"
