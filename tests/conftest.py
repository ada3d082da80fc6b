import fcntl
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient

from seamtag import create_app
from seamtag.database import db, migrate, writing
from seamtag.settings import Settings
from seamtag.sync.epoch import set_up
from tests.postgres import NEVER, Cluster, programs
from tests.shop import Shop

TOP = Path(__file__).resolve().parents[1]


def app_in(folder: Path, database: str = "") -> Flask:
    return create_app(
        Settings(
            database=database or f"sqlite:///{folder}/seamtag.db",
            photos=str(folder / "photos"),
            web=str(folder / "web"),
            host="tags.example",
            unreadable_rate="100000/minute",
            attempt_rate="100000/minute",
            challenge_rate="100000/minute",
        )
    )


def close(app: Flask) -> None:
    with app.app_context():
        db.session.remove()
        db.engine.dispose()


def made_ready(app: Flask) -> None:
    """Migrated, and with its epoch."""
    migrate(app)
    with app.app_context(), writing() as session:
        set_up(session)
    close(app)


@pytest.fixture(scope="session")
def empty_database(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A migrated SQLite database, made once and copied for each test."""
    folder = tmp_path_factory.mktemp("empty")
    made_ready(app_in(folder))
    return folder / "seamtag.db"


@pytest.fixture(scope="session")
def demonstration(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demonstration's folder, with its database `seamtag.db` and its photos: filled by the first process of the
    run that asks, and copied by whoever changes it."""
    base = tmp_path_factory.getbasetemp()
    shared = base.parent if "PYTEST_XDIST_WORKER" in os.environ else base
    folder = shared / "demonstration"
    with (shared / "demonstration.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not folder.exists():
            making = shared / "demonstration.making"
            env = {**os.environ, "SEAMTAG_DATABASE": f"sqlite:///{making}/seamtag.db",
                   "SEAMTAG_PHOTOS": str(making / "photos"), "SEAMTAG_HOST": "tags.example.org"}  # fmt: skip
            command = [sys.executable, "-m", "seed_demo.fill", "--folder", str(making)]
            making.mkdir()
            subprocess.run(command, env=env, cwd=TOP, check=True, stdout=subprocess.DEVNULL)
            making.rename(folder)
    return folder


@pytest.fixture(scope="session")
def cluster() -> Iterator[Cluster]:
    """PostgreSQL, started once; its first database is migrated, and copied for each test."""
    if programs() is None:
        pytest.skip(NEVER)
    found = Cluster()
    made_ready(app_in(found.folder, found.new()))
    yield found
    found.stop()


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """Tests of a module marked 'both_databases' run on SQLite and on PostgreSQL."""
    if "engine" in metafunc.fixturenames:
        both = metafunc.definition.get_closest_marker("both_databases")
        metafunc.parametrize("engine", ["sqlite", "postgresql"] if both else ["sqlite"], indirect=True, ids=str)


@pytest.fixture
def engine(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def app(tmp_path: Path, engine: str, request: pytest.FixtureRequest) -> Iterator[Flask]:
    (tmp_path / "web").mkdir()
    (tmp_path / "web" / "index.html").write_text("<title>Seamtag</title>", encoding="utf-8")
    if engine == "postgresql":
        found = app_in(tmp_path, request.getfixturevalue("cluster").new("seamtag_1"))
    else:
        shutil.copy(request.getfixturevalue("empty_database"), tmp_path / "seamtag.db")
        found = app_in(tmp_path)
    yield found
    close(found)


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    return app.test_client()


@pytest.fixture
def shop(app: Flask) -> Shop:
    return Shop(app)
