"""Nothing in the repository names a machine's paths, a registry's host, or fetches what it should carry."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
KINDS = {".py", ".toml", ".csv", ".md", ".js", ".mjs", ".html", ".css", ".json", ".sh", ".txt",
         ".webmanifest", ""}
SKIPPED = {".git", ".venv", ".hypothesis", "build", "dist", "__pycache__"}


def texts() -> Iterator[tuple[str, str]]:
    for path in sorted(ROOT.rglob("*")):
        inside = path.relative_to(ROOT)
        known = path.suffix in KINDS and path.is_file() and path != Path(__file__)
        made = any(part in SKIPPED or part.endswith(("_cache", ".egg-info")) for part in inside.parts)
        if known and not made:
            yield inside.as_posix(), path.read_text(encoding="utf-8", errors="ignore")


@pytest.mark.parametrize("pattern", [
    r"(?<![\w.])/(work|root|home/\w+)/", r"pypi\.org|pythonhosted|npmjs|registry\.",
    r"unpkg|jsdelivr|cdnjs|googleapis",
], ids=["machine paths", "registries", "other people's servers"])
def test_nothing_in_the_repository_names(pattern: str) -> None:
    assert [name for name, text in texts() if re.search(pattern, text)] == []


def test_the_phone_asks_nobody_but_its_own_service() -> None:
    asked = re.compile(r"""(?:fetch\(|src=|href=|import\s.*from\s)\s*['"`](https?:)?//""")
    assert [name for name, text in texts() if name.startswith("pwa/") and asked.search(text)] == []
