"""Hostile templates: how many escape or crash, and the worst processor time; run by ``make hostile``.

First the handmade ones, read and built as inline templates are. Then templates spoilt by chance, each remade
from its seed, sent to the real app by every call that takes one: CASES of them from FIRST on. An escape is a
formula taken that does more than arithmetic on declared names; a crash is any answer that is neither a result
nor a clear refusal. What is refused is measured again when it was slow: other work on the machine only adds.
"""

from __future__ import annotations

import gc
import logging
import os
import sys
import time
from collections import Counter
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))

from flask.testing import FlaskClient

from builders import demo_shop
from fuzzed_templates import Case, case, ours
from hostile_calls import EVERY, Answer, Call, calls, told
from hostile_templates import collection
from small_templates import trestle
from yardwright.domain import piece
from yardwright.domain.errors import Refused
from yardwright.domain.template import read_template
from yardwright.http import create_app
from yardwright.wiring import load_shop

CASES, FIRST = int(os.environ.get("CASES", "2500")), int(os.environ.get("FIRST", "0"))
SLOW_MS = 35.0  # a refusal that took longer is asked for twice more, and the least counts
OUTSIDE = (
    "os.system",
    "os.exec",
    "os.posix_spawn",
    "os.fork",
    "subprocess.Popen",
    "socket.connect",
    "os.remove",
    "os.rename",
    "shutil.rmtree",
    "ctypes.dlopen",
)
REACHED: list[str] = []  # what the interpreter saw done to the world outside while templates were asked for
Row = tuple[float, str, str]  # ms, which call of which seed, how it ended


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
        except Exception as crash:  # a crash is what is looked for
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


def handmade() -> int:
    """The named ones: prints the slowest and all that went wrong; how many did."""
    cost_ms(trestle)
    rows = {name: cost_ms(make) for name, make in collection().items()}
    escapes = [n for n in rows if n.startswith("formula: ") and rows[n][1].startswith("built")]
    crashes = [n for n, (_, end) in rows.items() if end.startswith("CRASH")]
    for name, (ms, end) in sorted(rows.items(), key=lambda row: -row[1][0])[:8]:
        print(f"{ms:7.1f} ms  {name}: {end}")
    for name in (*escapes, *crashes):
        print(f"WRONG  {name}: {rows[name][1]}")
    worst = max(rows, key=lambda n: rows[n][0])
    print(
        f"{len(rows)} hostile templates: {len(escapes)} escapes, {len(crashes)} crashes; worst CPU time "
        f"{rows[worst][0]:.1f} ms ({worst})"
    )
    return len(escapes) + len(crashes)


def by_chance(client: FlaskClient, seeds: range) -> int:
    """The spoilt ones over HTTP: prints the slowest refusals and answers; how many crashed."""
    refused: list[Row] = []
    answered: list[Row] = []
    crashed: list[Row] = []
    for seed in seeds:
        spoilt = case(seed)
        for call in calls(spoilt, EVERY):
            if (got := asked(client, call)) is None:
                break
            into = crashed if got.crashed else refused if got.refused else answered
            end = f"{spoilt.told} -> {got.status} {got.said[:60]}"
            into.append((got.ms, f"seed {seed}, {call.name}", end))
    print(
        f"\n{len(seeds)} templates spoilt by chance, seeds {seeds[0]} to {seeds[-1]}: {len(refused)} calls "
        f"refused, {len(answered)} answered, {len(crashed)} crashes, {len(REACHED)} escapes"
    )
    for title, rows in (("CRASHED", crashed), ("slowest refused", refused), ("dearest answered", answered)):
        for ms, which, end in sorted(rows, reverse=True)[:8]:
            print(f"{ms:7.1f} ms  {title}: {which}: {end}")
    over = Counter(limit for ms, _, _ in refused for limit in (35, 50) if ms > limit)
    print(
        f"worst refusal {max(refused)[0]:.1f} ms ({max(refused)[1]}); over 35 ms: {over[35]}, over 50 ms: "
        f"{over[50]} of {len(refused)}"
    )
    print(*(f"ESCAPED {event}" for event in REACHED), sep="\n", end="\n" if REACHED else "")
    return len(crashed) + len(REACHED)


def _outside(event: str, given: tuple[Any, ...]) -> bool:
    """Whether an audit event (PEP 578) is a process started, a file written or a line opened."""
    writes = event == "open" and isinstance(given[1], str) and given[1].strip("rbt") != ""
    return event in OUTSIDE or writes


def asked(client: FlaskClient, call: Call) -> Answer | None:
    """The answer; a slow refusal is asked for again, and the least of three counts."""
    first = told(client, call)
    if first is None or not first.refused or first.ms < SLOW_MS:
        return first
    again = [found for found in (told(client, call) for _ in range(2)) if found]
    return min([first, *again], key=lambda found: found.ms)


def honest(client: FlaskClient) -> None:
    """What our own cost by the same calls, sent inline at their largest: what an answer may cost."""
    most: dict[str, float] = {}
    for name, data in ours().items():
        for call in calls(Case(0, name, data, "max"), {}):
            if call.name != "fit" and (found := told(client, call)):
                most[call.name] = max(most.get(call.name, 0.0), found.ms)
    print("our own at their largest: " + ", ".join(f"{name} {ms:.0f} ms" for name, ms in most.items()))


def main() -> int:
    """1 when anything escaped or crashed."""
    logging.disable(logging.ERROR)
    client = create_app(load_shop("demo_shop"), today=lambda: date(2026, 11, 25)).test_client()
    wrong = handmade()
    honest(client)
    gc.collect()
    gc.freeze()  # as the service does: else one request is charged a sweep of the whole shop
    sys.addaudithook(lambda event, given: REACHED.append(event) if _outside(event, given) else None)
    wrong += by_chance(client, range(FIRST, FIRST + CASES))
    print(f"half a million turns of a loop take {reference_ms():.1f} ms here; 25 on a quiet machine")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
