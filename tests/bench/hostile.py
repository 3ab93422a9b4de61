"""Hostile templates: how many escape or crash, and the worst CPU time; run by ``make hostile``.

An escape is a formula taken that does more than arithmetic on declared names; a crash is any error that is
no refusal. CPU time is that of reading and building as an inline template.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))

from builders import demo_shop
from hostile_templates import collection
from small_templates import trestle
from yardwright.domain import piece
from yardwright.domain.errors import Refused
from yardwright.domain.template import read_template


def cost_ms(make: Callable[[], Any], tries: int = 3) -> tuple[float, str]:
    """Least CPU time of a few goes at reading and building an inline template, and how it ended."""
    data, best, end = make(), float("inf"), ""
    for _ in range(tries):
        start = time.process_time()
        try:
            made = piece.build(read_template(data), {}, {}, demo_shop(), "in", piece.INLINE)
            end = f"built, {len(list(piece.faults_of(made, demo_shop())))} faults"
        except Refused as refused:
            end = "refused: " + refused.faults[0].detail[:70]
        except Exception as crash:              # a crash is what is looked for
            end = f"CRASH {type(crash).__name__}: {crash}"[:90]
        best = min(best, 1000 * (time.process_time() - start))
    return best, end


def reference_ms() -> float:
    """CPU time of half a million turns of a plain loop: how fast this machine is just now."""
    best = float("inf")
    for _ in range(5):
        start, total = time.process_time(), 0
        for k in range(500_000):
            total += k * k % 7
        best = min(best, 1000 * (time.process_time() - start))
    return best


def main() -> int:
    """Prints one line each where it is slow or crashes, and the sum of it all."""
    cost_ms(trestle)
    rows = {name: cost_ms(make) for name, make in collection().items()}
    escapes = [n for n in rows if n.startswith("formula: ") and rows[n][1].startswith("built")]
    crashes = [n for n, (_, end) in rows.items() if end.startswith("CRASH")]
    for name, (ms, end) in sorted(rows.items(), key=lambda row: -row[1][0])[:12]:
        print(f"{ms:7.1f} ms  {name}: {end}")
    for name in (*escapes, *crashes):
        print(f"WRONG  {name}: {rows[name][1]}")
    worst = max(rows, key=lambda n: rows[n][0])
    print(f"{len(rows)} hostile templates: {len(escapes)} escapes, {len(crashes)} crashes; worst CPU time "
          f"{rows[worst][0]:.1f} ms ({worst}); half a million turns of a loop take {reference_ms():.1f} ms")
    return 1 if escapes or crashes else 0


if __name__ == "__main__":
    sys.exit(main())
