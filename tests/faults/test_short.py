"""The fault tests at their short size: a bad network and a killed server, a killed browser. See `tests/faults/run`."""

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from tests.browser.place import chromium
from tests.faults import browser, every, sockets
from tests.faults.table import Row, as_text
from tests.postgres import Cluster

WEB = Path(__file__).resolve().parents[2] / "webapp" / "dist"


def test_the_server_killed_behind_a_bad_network_on_sqlite() -> None:
    found = sockets.Round(sockets.SHORT).run()
    assert found.good, as_text([found])
    assert (found.records, found.acknowledged, found.photos, found.kills) == (160, 160, 12, 3)


def test_the_server_killed_behind_a_bad_network_on_postgresql(cluster: Cluster) -> None:
    found = sockets.Round(sockets.SHORT, cluster.new()).run()
    assert found.good, as_text([found])
    assert (found.records, found.acknowledged, found.photos, found.kills) == (160, 160, 12, 3)


def test_the_browser_killed_while_it_records() -> None:
    if chromium() is None:
        pytest.skip("no Chromium here: apt-get install chromium")
    if not (WEB / "index.html").is_file():
        pytest.fail("the app is not built: npm run build in webapp")
    # In a thread of its own: another browser test of this run may hold playwright in this one.
    with ThreadPoolExecutor(1) as aside:
        found = aside.submit(browser.Round(browser.SHORT).run).result()
    assert found.good, as_text([found])
    assert found.acknowledged > 2
    assert (found.photos, found.kills) == (2, 2)


def test_the_table_tells_a_loss_and_so_does_the_exit_status(capsys: pytest.CaptureFixture[str]) -> None:
    good = Row("sockets", "SQLite", 10_000, 400, 50, 10_000, 0, 0, 0, 0, 431.2)
    lost = Row("browser", "SQLite", 300, 30, 30, 301, 1, 0, 0, 0, 120.0)
    assert every.told([good]) == 0
    assert every.told([good, lost]) == 1
    last = capsys.readouterr().out.splitlines()[-1]
    assert last.split() == ["browser", "SQLite", "300", "30", "30", "301", "1", "0", "0", "0", "120", "s"]
