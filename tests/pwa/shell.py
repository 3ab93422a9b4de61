"""What the phone keeps for use without signal: the list of shell files and their version in ``pwa/sw.js``.

Run by hand after a change under pwa/: ``python tests/pwa/shell.py``. A test refuses a list or version that
does not match the files.
"""

from __future__ import annotations

import hashlib
import re
from pathlib import Path

PWA = Path(__file__).parents[2] / "pwa"
KINDS = {".js", ".css", ".html", ".svg", ".png", ".webmanifest"}


def shell_files() -> list[str]:
    """Every file the phone needs, but the worker itself."""
    found = (path.relative_to(PWA).as_posix() for path in PWA.rglob("*") if path.suffix in KINDS)
    return sorted(name for name in found if name != "sw.js")


def version() -> str:
    """A hash over names and contents: it moves when any shell file does."""
    total = hashlib.sha256()
    for name in shell_files():
        total.update(name.encode() + b"\0" + (PWA / name).read_bytes() + b"\0")
    return f"shell-{total.hexdigest()[:16]}"


def stamped(worker: str) -> str:
    """The text of the worker with today's list and version."""
    listed = "".join(f"  '{name}',\n" for name in shell_files())
    worker = re.sub(r"const VERSION = '[^']*';", f"const VERSION = '{version()}';", worker)
    return re.sub(r"const SHELL = \[\n.*?\];", f"const SHELL = [\n{listed}];", worker, flags=re.S)


if __name__ == "__main__":
    worker_file = PWA / "sw.js"
    worker_file.write_text(stamped(worker_file.read_text()))
    print(version())
