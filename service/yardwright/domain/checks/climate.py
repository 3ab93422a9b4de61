"""The driest and dampest that wood gets outdoors where the piece will stand.

Where the site's region names a place of data/limits/climate.toml (Wood Handbook Table 13-1; memory): its
driest month, and its dampest with what rain adds; elsewhere the general range of data/limits/movement.toml.
Percent.
"""

from __future__ import annotations

from .rule import Case

_PREFIX = "climate.city."


def service_range(case: Case) -> tuple[float, float, str]:
    """(driest %, dampest %, source)."""
    place = known_place(case)
    if not place:
        return (case.limit("movement.service_low"), case.limit("movement.service_high"),
                case.source("movement.service_high"))
    low, high = f"{_PREFIX}{place}.low", f"{_PREFIX}{place}.high"
    return (case.limit(low), case.limit(high) + case.limit("climate.rain_adds"),
            case.source(low, high, "climate.rain_adds"))


def known_place(case: Case) -> str:
    """The place of the list that the site's region names, the longest name first; "" = none."""
    said = " ".join(case.site.region.lower().replace(",", " ").split())
    places = dict.fromkeys(k[len(_PREFIX):].rpartition(".")[0] for k in case.shop.limits
                           if k.startswith(_PREFIX))
    named = [p for p in places if f" {p.replace('-', ' ')} " in f" {said} "]
    return max(named, key=len, default="")
