"""Files that the documents for developers name are there."""

from __future__ import annotations

import re
from itertools import product
from pathlib import Path

ROOT = Path(__file__).parents[2]
CODE = ROOT / "service" / "yardwright"
NAMED = re.compile(r"`([\w./*-]+(?:/|\.(?:py|js|toml|md|json)))`")
# A name may follow another of the same folder: "`fit/access.py`, `outline.py`".
FOLDERS = [ROOT, CODE, CODE / "domain", ROOT / "pwa",
           *(path for top in (CODE, ROOT / "tests", ROOT / "pwa")
             for path in top.rglob("*") if path.is_dir())]


def test_every_file_that_readme_and_developers_name_is_there() -> None:
    said = [(doc, name) for doc in ("README.md", "DEVELOPERS.md")
            for name in NAMED.findall(re.sub(r"```.*?```", "", (ROOT / doc).read_text(), flags=re.DOTALL))
            if not name.startswith(("/", "."))]
    made = {"shop.toml"}      # in the folder of a shop of one's own
    found = {name for (_, name), folder in product(said, FOLDERS) if any(folder.glob(name.rstrip("/")))}
    assert len(said) > 60
    assert [(doc, name) for doc, name in said if name not in found | made] == []
