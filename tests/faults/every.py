"""Every fault test, one after the other, and one table of what they came to. `tests/faults/run` calls this."""

import argparse
import sys
import time
import traceback
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager

from seamtag import database
from tests.browser.place import chromium
from tests.faults import browser, sockets
from tests.faults.home import Home
from tests.faults.model import WAIT, played
from tests.faults.table import Row, as_text
from tests.postgres import NEVER, Cluster, programs

EXAMPLES = {False: (400, 50), True: (16, 30)}
"""Of the model, by whether it is the short round: how many, of how many steps."""
ON_POSTGRESQL = 4
"""There every fourth of them is played."""


def model(cluster: Cluster | None, short: bool) -> Row:
    begun, examples, steps = time.monotonic(), *EXAMPLES[short]
    patience, database.PATIENCE = database.PATIENCE, WAIT
    home = Home(cluster)
    try:
        seen = played(home, examples // (ON_POSTGRESQL if cluster else 1), steps)
    finally:
        home.close()
        database.PATIENCE = patience
    return Row("model", name_of(cluster), seen["records"], seen["photos"], seen["kills"], seen["acknowledged"], 0, 0, 0,
               0, time.monotonic() - begun)  # fmt: skip


def behind_a_bad_network(cluster: Cluster | None, short: bool) -> Row:
    size = sockets.SHORT if short else sockets.FULL
    return sockets.Round(size, cluster.new() if cluster else "").run()


def in_the_browser(cluster: Cluster | None, short: bool) -> Row:
    if chromium() is None:
        raise RuntimeError("no Chromium here: apt-get install chromium")
    return browser.Round(browser.SHORT if short else browser.FULL).run()


Test = Callable[[Cluster | None, bool], Row]
TESTS: dict[str, tuple[Test, bool]] = {
    "model": (model, True), "sockets": (behind_a_bad_network, True), "browser": (in_the_browser, False)
}  # fmt: skip
"""By name, and whether it is done on PostgreSQL as well."""


def name_of(cluster: Cluster | None) -> str:
    return "PostgreSQL" if cluster else "SQLite"


@contextmanager
def postgresql() -> Iterator[Cluster | None]:
    if programs() is None:
        print(NEVER, file=sys.stderr)
        yield None
        return
    cluster = Cluster()
    try:
        yield cluster
    finally:
        cluster.stop()


def rows(names: Iterable[str], short: bool) -> Iterator[Row]:
    with postgresql() as cluster:
        for name in names:
            test, on_both = TESTS[name]
            for one in (None, cluster) if on_both and cluster else (None,):
                yield row(name, test, one, short)


def row(name: str, test: Test, cluster: Cluster | None, short: bool) -> Row:
    """What a test came to; one that does not come to its end is a row as well."""
    begun = time.monotonic()
    print(f"{name} on {name_of(cluster)} ...", file=sys.stderr, flush=True)
    try:
        return test(cluster, short)
    except Exception as error:  # the table is for all of them
        traceback.print_exc()
        says = (str(error).splitlines() or [type(error).__name__])[0]
        return Row(name, name_of(cluster), 0, 0, 0, 0, 0, 0, 0, 0, time.monotonic() - begun, f"failed: {says[:60]}")


def told(found: Iterable[Row]) -> int:
    """Print the table; the exit status."""
    found = list(found)
    print(as_text(found))
    return 0 if all(one.good for one in found) else 1


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("tests", nargs="*", choices=[*TESTS, []], help="which of them; all where none is named")
    parser.add_argument("--short", action="store_true", help="the short round, as tests/run does it")
    asked = parser.parse_args()
    return told(rows(asked.tests or list(TESTS), asked.short))


if __name__ == "__main__":
    sys.exit(main())
