from collections.abc import Iterator

import pytest

from seamtag import database
from tests.faults.home import Home
from tests.faults.model import WAIT


@pytest.fixture
def home(engine: str, request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> Iterator[Home]:
    """Databases for model servers, which do not wait long for one that is busy."""
    monkeypatch.setattr(database, "PATIENCE", WAIT)
    found = Home(request.getfixturevalue("cluster") if engine == "postgresql" else None)
    yield found
    found.close()
