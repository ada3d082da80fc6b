"""Which source each test holds the core against, and how many values were held against each, told at the end."""

from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest

HERE = Path(__file__).parent
OUTCOMES = ("passed", "failed", "error", "skipped", "xfailed", "xpassed")


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    lacking = set()
    for item in items:
        if HERE not in item.path.parents:
            continue
        marker = item.get_closest_marker("source")
        if marker is None or len(marker.args) != 1 or not isinstance(marker.args[0], str) or not marker.args[0]:
            lacking.add(item.nodeid.split("[")[0])
        else:
            item.user_properties.append(("source", marker.args[0]))
    if lacking:
        raise pytest.UsageError(
            'A test of tests/reference names its source, as @pytest.mark.source("46 CFR 56.70-15"). Without: '
            + ", ".join(sorted(lacking))
        )


@pytest.fixture
def checked(request: pytest.FixtureRequest) -> Callable[[int], None]:
    """Says how many values a case checked; one that does not say counts as one."""

    def add(count: int) -> None:
        request.node.user_properties.append(("checked", count))

    return add


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    counts: Counter[str] = Counter()
    for outcome in OUTCOMES:
        for report in terminalreporter.stats.get(outcome, []):
            source = dict(getattr(report, "user_properties", ())).get("source")
            if source is None:
                continue
            said = [count for name, count in report.user_properties if name == "checked"]
            counts[source] += (sum(said) if said else 1) if outcome == "passed" else 0
    if not counts:
        return
    terminalreporter.section("values held against sources from outside")
    rows = [*sorted(counts.items()), ("total", sum(counts.values()))]
    width, figures = max(len(source) for source, _ in rows), len(str(rows[-1][1]))
    for source, count in rows:
        terminalreporter.write_line(f"{source:<{width}}  {count:>{figures}}")
