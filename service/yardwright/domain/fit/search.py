"""The largest of each dimension with the others held, and the best set by the template's priority."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from ..errors import BadFormula, BadLength
from ..template.model import Dimension, Template
from .envelope import envelope
from .space import Space
from .stand import stand

MOST_TRIES = 256                 # a longer range of steps is halved instead of walked


def fits(template: Template, dimensions_nm: Mapping[str, int], choices: Mapping[str, str],
         space: Space) -> bool:
    """Whether these sizes fit; sizes at which the template's formulas have no answer do not."""
    try:
        piece = envelope(template, dimensions_nm, choices)
    except (BadFormula, BadLength):
        return False
    return stand(piece, space).fits


def largest(template: Template, dimensions_nm: Mapping[str, int], choices: Mapping[str, str],
            space: Space, units: str) -> dict[str, int]:
    """For each dimension the largest size on its step that fits with the others as asked; 0 = none."""
    return {d.name: _largest(template, d, dimensions_nm, choices, space, units, d.most_nm)
            for d in template.dimensions}


def best(template: Template, dimensions_nm: Mapping[str, int], choices: Mapping[str, str],
         space: Space, units: str) -> dict[str, int] | None:
    """What was asked where it fits; else given up in the template's priority, never made larger.

    The dimension named last is kept as large as can be with the others at their least, then the one
    before it, and so on; taken for granted is that a smaller piece fits where a larger one does, and
    the result is tried again before it is given.
    """
    found = dict(dimensions_nm)
    if fits(template, found, choices, space):
        return found
    known = {d.name: d for d in template.dimensions}
    given_up = [known[name] for name in template.fit.priority if name in known]
    for dimension in given_up:
        found[dimension.name] = min(_least(dimension, units), dimensions_nm[dimension.name])
    for dimension in reversed(given_up):
        asked = dimensions_nm[dimension.name]
        found[dimension.name] = _largest(template, dimension, found, choices, space, units, asked)
        if not found[dimension.name]:
            return None
    return found if fits(template, found, choices, space) else None


def _least(dimension: Dimension, units: str) -> int:
    step = dimension.step_nm[units]
    return min(-(-dimension.least_nm // step) * step, dimension.most_nm)


def _largest(template: Template, dimension: Dimension, held: Mapping[str, int], choices: Mapping[str, str],
             space: Space, units: str, most_nm: int) -> int:
    step, least = dimension.step_nm[units], _least(dimension, units)

    def fit_at(size_nm: int) -> bool:
        return fits(template, {**held, dimension.name: size_nm}, choices, space)

    if fit_at(most_nm):
        return most_nm
    top = most_nm // step
    bottom = -(-least // step)
    if top - bottom < MOST_TRIES:
        return next((n * step for n in range(top, bottom - 1, -1) if fit_at(n * step)), 0)
    return _halved(fit_at, bottom, top, step)


def _halved(fit_at: Callable[[int], bool], bottom: int, top: int, step: int) -> int:
    if not fit_at(bottom * step):
        return 0
    while top - bottom > 1:
        middle = (bottom + top) // 2
        bottom, top = (middle, top) if fit_at(middle * step) else (bottom, middle)
    return bottom * step
