"""How often codes drawn at random meet, and whether one is ever drawn twice for good.

Run as `python -m tests.bench.codes [DRAWS]`; 10 million take some minutes. The draw is the server's own, with a set in
place of its table.
"""

import sys
import time
from collections.abc import Iterable
from dataclasses import dataclass, field

from seamtag.core.tagcode import is_code
from seamtag.tags.codes import AT_ONCE, drawn

DRAWS = 10_000_000
EVERY = 1_000_000


@dataclass
class Drawer:
    """Codes in use. met: how many candidates were in use already, and so were not given out."""

    used: set[str] = field(default_factory=set)
    met: int = 0
    wrong: int = 0
    twice: int = 0

    def taken(self, codes: Iterable[str]) -> set[str]:
        found = self.used.intersection(codes)
        self.met += len(found)
        return found

    def draw(self, many: int) -> None:
        """Draw so many as a job does, and look at each."""
        codes = drawn(many, self.taken)
        before = len(self.used)
        self.used.update(codes)
        self.twice += before + many - len(self.used)
        self.wrong += sum(not is_code(code) for code in codes)


def main(draws: int) -> None:
    drawer = Drawer()
    began = time.perf_counter()
    for start in range(0, draws, AT_ONCE):
        drawer.draw(min(AT_ONCE, draws - start))
        if (start + AT_ONCE) % EVERY == 0:
            print(f"{start + AT_ONCE:>12,} drawn, {drawer.met:,} met one in use, {drawer.twice} given out twice")
    took = time.perf_counter() - began
    print(f"{draws:,} codes in {took:.0f} s: {drawer.met:,} met one in use and were drawn again,")
    print(f"{drawer.twice} given out twice, {drawer.wrong} with a wrong check symbol.")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else DRAWS)
