"""What the app's own decoder reads of printed labels, beside zxing-cpp on the same pictures; tests/bench has more."""

import pytest
from playwright.sync_api import Playwright

from tests.bench.scanning import App, app_page, read_by_zxing_cpp, run
from tests.browser.place import chromium

MANY = 40


def test_the_app_reads_no_fewer_views_than_zxing_cpp(playwright: Playwright) -> None:
    if chromium() is None:
        pytest.skip("no Chromium here: apt-get install chromium")
    with app_page(playwright) as page:
        app = App(page)
        count = run(MANY, {"first": app.first, "second": app.then_sharpened, "zxing-cpp": read_by_zxing_cpp})
    assert count.wrong == []
    assert count.all_of("second") >= count.all_of("first")
    assert count.all_of("second") >= count.all_of("zxing-cpp")
    assert count.all_of("second") >= 0.93 * MANY
