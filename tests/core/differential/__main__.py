"""The long run: python -m tests.core.differential --cases 1000000 --seed 1"""

import argparse
import sys
import time

from tests.core.differential.both import BATCH, Tally, TypeScript, compare, why_not_built

SHOWN = 10
TOLD_EVERY = 10


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.core.differential", description=__doc__)
    parser.add_argument("--cases", type=int, default=20_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--batch", type=int, help="one batch alone, by the seed a difference was told with")
    given = parser.parse_args()
    if missing := why_not_built():
        print(missing, file=sys.stderr)
        return 1
    tally, begun, told = Tally(), time.monotonic(), time.monotonic()
    wanted = given.cases if given.batch is None else BATCH
    with TypeScript() as typescript:
        while tally.cases < wanted:
            before = len(tally.differences)
            batch = given.seed * 1_000_000_000 + tally.cases if given.batch is None else given.batch
            compare(typescript, batch, min(BATCH, wanted - tally.cases), tally)
            for found in tally.differences[before:SHOWN]:
                print(f"batch {batch}: {found}", flush=True)
            if time.monotonic() - told >= TOLD_EVERY:
                told = time.monotonic()
                print(f"{tally.cases} cases, {len(tally.differences)} differences, {told - begun:.0f} s", flush=True)
    print(f"seed {given.seed}, {time.monotonic() - begun:.1f} s: {tally}")
    return 1 if tally.differences else 0


if __name__ == "__main__":
    raise SystemExit(main())
