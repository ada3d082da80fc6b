"""The model-based test of phones, network and server; see model.py."""

import pytest

from tests.faults.home import Home
from tests.faults.model import played

SHORT = {"sqlite": (16, 30), "postgresql": (4, 30)}
"""How many examples, of how many steps each. `tests/faults/run` plays more of them."""

pytestmark = pytest.mark.both_databases


def test_whatever_happens_nothing_is_lost(home: Home, engine: str) -> None:
    examples, steps = SHORT[engine]
    seen = played(home, examples, steps)
    assert seen["records"] > examples * 5
