import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient

from seamtag import create_app
from seamtag.database import db, migrate, writing
from seamtag.settings import Settings
from seamtag.sync.epoch import set_up
from tests.shop import Shop

TOP = Path(__file__).resolve().parents[1]


def app_in(folder: Path) -> Flask:
    return create_app(
        Settings(
            database=f"sqlite:///{folder}/seamtag.db",
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
        db.engine.dispose()


@pytest.fixture(scope="session")
def empty_database(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A migrated database with its epoch, made once and copied for each test."""
    folder = tmp_path_factory.mktemp("empty")
    app = app_in(folder)
    migrate(app)
    with app.app_context(), writing() as session:
        set_up(session)
    close(app)
    return folder / "seamtag.db"


@pytest.fixture
def app(tmp_path: Path, empty_database: Path) -> Iterator[Flask]:
    shutil.copy(empty_database, tmp_path / "seamtag.db")
    (tmp_path / "web").mkdir()
    (tmp_path / "web" / "index.html").write_text("<title>Seamtag</title>", encoding="utf-8")
    found = app_in(tmp_path)
    yield found
    close(found)


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    return app.test_client()


@pytest.fixture
def shop(app: Flask) -> Shop:
    return Shop(app)
