"""Searches for mends that finish, by rule, and their time beside the quote's: ``mends.py [JOBS] [SEED]``."""

from __future__ import annotations

import statistics
import sys
import time
from collections import Counter, defaultdict
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from random_jobs import jobs
from yardwright.quoting import make_quote, trials, with_mends


def main(number: int, seed: int) -> None:
    """Prints the counts, then median, ninth tenth and worst of the processor's time."""
    by_rule: dict[str, Counter[str]] = defaultdict(Counter)
    quoting, mending = [], []
    for job, shop in jobs(number, seed):
        start = time.process_time()
        quote = make_quote(job, shop)
        middle = time.process_time()
        mended = with_mends(quote, shop)
        quoting.append(middle - start)
        mending.append(time.process_time() - middle)
        for f in mended.items[0].findings:
            if f.level in trials.SERIOUS:
                by_rule[f.rule][f.searched or "of the place"] += 1
    for rule, counts in sorted(by_rule.items(), key=lambda one: -one[1].total()):
        print(f"{rule:24}" + "  ".join(f"{word} {count}" for word, count in sorted(counts.items())))
    total = sum(by_rule.values(), Counter[str]())
    searched = total.total() - total["of the place"]
    print(f"{searched} searched: " + ", ".join(f"{word} {total[word] / searched:.1%}"
                                               for word in ("found", "nothing", "stopped")))
    for name, took in (("quote", sorted(quoting)), ("mends", sorted(mending))):
        print(f"{name}: median {statistics.median(took):.2f} s, nine in ten "
              f"{took[len(took) * 9 // 10]:.2f} s, worst {took[-1]:.2f} s")


if __name__ == "__main__":
    given = [int(word) for word in sys.argv[1:]]
    main(*(given + [100, 1][len(given):]))
