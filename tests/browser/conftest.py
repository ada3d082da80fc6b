import json
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Playwright, sync_playwright

from seamtag import create_app
from seamtag.database import db
from seamtag.settings import Settings
from tests.browser.place import Server, chromium, free_port
from tests.shop import Shop

TOP = Path(__file__).resolve().parents[2]
WEB = TOP / "webapp" / "dist"


@pytest.fixture
def shop(empty_database: Path, tmp_path: Path) -> Iterator[Shop]:
    """The small shop, on disk, so that a server process can serve it."""
    shutil.copy(empty_database, tmp_path / "seamtag.db")
    app = create_app(Settings(database=f"sqlite:///{tmp_path}/seamtag.db", photos=str(tmp_path / "photos")))
    yield Shop(app)
    with app.app_context():
        db.engine.dispose()


@pytest.fixture
def server(shop: Shop, tmp_path: Path) -> Iterator[Server]:
    if chromium() is None:
        pytest.skip("no Chromium here: apt-get install chromium")
    if not (WEB / "index.html").is_file():
        pytest.fail("the app is not built: npm run build in webapp")
    one = Server(tmp_path, free_port())
    one.start()
    yield one
    one.kill()


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    with sync_playwright() as one:
        yield one


@pytest.fixture(scope="session")
def demo(demonstration: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """The demonstration shop, served."""
    if chromium() is None:
        pytest.skip("no Chromium here: apt-get install chromium")
    folder = tmp_path_factory.mktemp("demo")
    shutil.copytree(demonstration, folder, dirs_exist_ok=True)
    server = Server(folder, free_port())
    server.start()
    yield server
    server.kill()


def invitation(server: Server, role: str) -> str:
    """A new invitation for somebody of the demonstration who holds a role."""
    people = json.loads((server.folder / "invitations.json").read_text())
    person: str = next(one["person"] for one in people if role in one["roles"])
    command = [str(Path(sys.executable).with_name("seamtag")), "invite", person]
    made = subprocess.run(command, env=server.env, cwd=TOP, check=True, capture_output=True, text=True)
    return made.stdout.strip()
