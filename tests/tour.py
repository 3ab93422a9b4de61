"""The README's tour, run for real: each ``$`` line in a console block, its output compared or written.

``python tests/tour.py`` writes the outputs into README.md; tests/scenarios/test_tour.py compares them.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parents[1]
README = ROOT / "README.md"
BLOCK = re.compile(r"```console\n(.*?)```", re.S)


def commands(text: str) -> list[str]:
    """Every command of the tour, in order."""
    return [line[2:] for block in BLOCK.findall(text) for line in block.splitlines() if line.startswith("$ ")]


def outputs(asked: list[str], address: str) -> list[str]:
    """What each command prints, run in one scratch folder that sees the checkout's files."""
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "seed_scenarios").symlink_to(ROOT / "seed_scenarios")
        said = []
        for command in asked:
            real = command.replace(".venv/bin/", f"{Path(sys.executable).parent}/")
            real = real.replace("localhost:8000", address)
            run = subprocess.run(real, shell=True, cwd=folder, capture_output=True, text=True, timeout=120)
            said.append((run.stdout + run.stderr).strip())
        return said


def told(text: str, said: list[str]) -> str:
    """The README with each command followed by what it printed."""
    answers = iter(said)

    def block(match: re.Match[str]) -> str:
        lines = []
        for line in match.group(1).splitlines():
            if line.startswith("$ "):
                answer = next(answers)
                lines += [line, answer] if answer else [line]
        return "```console\n" + "\n".join(lines) + "\n```"

    return BLOCK.sub(block, text)


if __name__ == "__main__":
    address = sys.argv[1] if len(sys.argv) > 1 else "localhost:8000"
    old = README.read_text(encoding="utf-8")
    README.write_text(told(old, outputs(commands(old), address)), encoding="utf-8")
