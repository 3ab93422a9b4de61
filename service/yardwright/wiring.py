"""The one place where files become a Shop: read once at the start, never again."""

from __future__ import annotations

import os
from pathlib import Path

from .domain.errors import BadData, Fault
from .domain.shop import Shop
from .files import read_shop

DATA = Path(__file__).parent / "data"
DEMONSTRATION = "demo_shop"


def load_shop(folder: Path | str | None = None) -> Shop:
    """The shop in ``folder``, else in YARDWRIGHT_SHOP, else the demonstration shop.

    A bare name is looked for among the shops that come with the program.
    """
    chosen = Path(folder or os.environ.get("YARDWRIGHT_SHOP", "") or DEMONSTRATION)
    place = chosen if chosen.is_dir() else DATA / chosen
    if not (place / "shop.toml").is_file():
        known = ", ".join(known_shops())
        raise BadData(Fault(str(chosen), f"no shop.toml here; shops that come along: {known}"))
    return read_shop(place, DATA)


def known_shops() -> list[str]:
    """The names of the shops that come with the program."""
    return sorted(path.parent.name for path in DATA.glob("*/shop.toml"))
