"""The examples of the format page, each as the whole file that a reader of the page has by then."""

from __future__ import annotations

from builders import DATA

PAGE = (DATA / "templates" / "README.md").read_text(encoding="utf-8")
BLOCKS = [part.split("```")[0] for part in PAGE.split("```toml\n")[1:]]
BELOW = 'finishes = ["none", "clear-oil"]\n'        # where the page says that the words for the customer go

TEN_LINES, ON_BEARERS = BLOCKS[:2]
PRODUCT = ON_BEARERS.replace(BELOW, BELOW + BLOCKS[2]) + BLOCKS[3]
STAGES = {"ten lines": TEN_LINES, "on bearers": ON_BEARERS, "a product": PRODUCT}
