"""Drawings of a job: taken in as pictures alone, with pieces pinned on them; by feed, verify and backup as well."""

import base64
import io
import sys
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient
from PIL import Image
from sqlalchemy import update
from werkzeug.test import TestResponse

from seamtag.database import db, writing
from seamtag.drawings.models import Drawing
from seamtag.drawings.pictures import LONGEST, DrawingError, sheet_of
from seamtag.photos.models import Photo
from seamtag.sync.restoring import back_up, restore
from seamtag.sync.verifying import verify
from tests.conftest import app_in, close, made_ready
from tests.server.test_photos import picture
from tests.shop import JOB, Shop

pytestmark = pytest.mark.both_databases

PATH = f"/api/v1/jobs/{JOB}/drawings"
PINS = [{"piece": "T1.S-1", "x": 2500, "y": 5000}, {"piece": "T1.P-1", "x": 0, "y": 10_000}]


@pytest.fixture
def planner(shop: Shop) -> FlaskClient:
    return shop.sign_in("planner")


def lines(size: tuple[int, int] = (600, 400), kind: str = "PNG", mode: str = "RGB") -> bytes:
    out = io.BytesIO()
    image = Image.new(mode, size, "white")
    image.paste(0 if mode == "L" else (0, 0, 0), (10, 10, 200, 20))
    image.save(out, kind)
    return out.getvalue()


def put(client: FlaskClient, content: bytes | None = None, **more: Any) -> TestResponse:
    file = {"name": "sheet.png", "content": base64.b64encode(content or lines()).decode()}
    return client.post(PATH, json={"sheet": "1", "revision": "A", "title": "The vessel", "file": file, **more})


def said(answer: TestResponse) -> str:
    assert answer.status_code == 422, answer.text
    return str(answer.get_json()["message"])


def test_a_drawing_is_put_in_and_comes_to_the_phones_with_its_picture(shop: Shop, planner: FlaskClient) -> None:
    made = put(planner, pins=PINS)
    assert made.status_code == 201, made.text
    body = made.get_json()
    assert (body["id"], body["sheet"], body["revision"], body["title"]) == ("T1.1", "1", "A", "The vessel")
    assert (body["media_type"], body["width"], body["height"], body["pins"]) == ("image/png", 600, 400, PINS)
    fitter = shop.sign_in("fitter")
    assert fitter.get(PATH).get_json() == [body]
    entry = fitter.get(f"/api/v1/feed?scope=job:{JOB}").get_json(force=True)["entries"][-1]
    assert (entry["kind"], entry["body"]) == ("drawing", body)
    for size, longest in (("view", 600), ("large", 600), ("thumb", 320)):
        answer = fitter.get(f"/api/v1/photos/{body['sha256']}?size={size}")
        assert answer.status_code == 200
        with Image.open(io.BytesIO(answer.data)) as shown:
            assert max(shown.size) == longest
    assert shop.client.get(f"/api/v1/photos/{body['sha256']}?size=view").status_code == 401


def test_a_large_drawing_is_kept_at_4000_pixels_and_shown_so(planner: FlaskClient) -> None:
    body = put(planner, lines((5000, 2500), mode="L")).get_json()
    assert (body["width"], body["height"]) == (LONGEST, LONGEST // 2)
    with Image.open(io.BytesIO(planner.get(f"/api/v1/photos/{body['sha256']}?size=large").data)) as shown:
        assert shown.size == (LONGEST, LONGEST // 2)


def test_the_next_revision_of_a_sheet_keeps_its_pins(shop: Shop, planner: FlaskClient) -> None:
    first = put(planner, pins=PINS).get_json()
    second = put(planner, lines((300, 200)), revision="B").get_json()
    assert (second["id"], second["pins"]) == (first["id"], PINS)
    assert second["sha256"] != first["sha256"]
    put(planner, sheet="10")
    put(planner, sheet="2")
    assert [(one["sheet"], one["revision"]) for one in planner.get(PATH).get_json()] == [
        ("1", "B"), ("2", "A"), ("10", "A"),
    ]  # fmt: skip


def test_pins_are_changed(planner: FlaskClient) -> None:
    put(planner, pins=PINS)
    moved = [{"piece": "T1.P-2", "x": 1, "y": 2}]
    answer = planner.post(f"{PATH}/T1.1/pins", json={"pins": moved})
    assert answer.status_code == 201, answer.text
    assert answer.get_json()["pins"] == moved
    assert planner.get(PATH).get_json()[0]["pins"] == moved
    assert (
        planner.post(f"{PATH}/T1.7/pins", json={"pins": []})
        .get_json()["message"]
        .startswith("Job T1 has no drawing T1.7.")
    )


def test_who_may(shop: Shop, planner: FlaskClient) -> None:
    put(planner)
    for who in ("fitter", "inspector", "supervisor"):
        assert put(shop.sign_in(who)).status_code == 403
        assert shop.sign_in(who).post(f"{PATH}/T1.1/pins", json={"pins": []}).status_code == 403
    assert shop.client.get(PATH).status_code == 401
    assert planner.get("/api/v1/jobs/T9/drawings").status_code == 404


@pytest.mark.parametrize(
    ("pins", "says"),
    [
        ([{"piece": "T1.X", "x": 1, "y": 1}], "Job T1 has no piece T1.X. Take the pin away"),
        ([PINS[0], PINS[0]], "S-1: pinned twice on this sheet."),
        ([{"piece": "T1.S-1", "x": 10_001, "y": 1}], "Some fields are not right."),
        ([{"piece": "T1.S-1", "x": 1.5, "y": 1}], "Some fields are not right."),
    ],
)
def test_a_wrong_pin_is_refused_and_nothing_is_changed(planner: FlaskClient, pins: Any, says: str) -> None:
    assert said(put(planner, pins=pins)).startswith(says)
    assert planner.get(PATH).get_json() == []
    put(planner, pins=PINS)
    assert said(planner.post(f"{PATH}/T1.1/pins", json={"pins": pins})).startswith(says)
    assert planner.get(PATH).get_json()[0]["pins"] == PINS


def test_a_wrong_file_is_refused_in_words(planner: FlaskClient) -> None:
    assert said(put(planner, b"not a picture")).startswith("The file is no picture. Save the drawing as PNG")
    assert said(put(planner, lines()[:300])).startswith("The picture is damaged.")
    assert said(put(planner, b"%PDF-1.4 nothing")).startswith("The PDF cannot be read")
    assert said(put(planner, sheet=" ")).startswith("The sheet has no number.")
    file = {"name": "sheet.png", "content": "*"}
    assert said(planner.post(PATH, json={"sheet": "1", "file": file})).startswith("The file did not arrive whole.")
    with pytest.raises(DrawingError, match="600 by 400 pixels, which is too many"):
        sheet_of(lines(), 1000)


def test_metadata_is_left_out_and_the_picture_stands_upright() -> None:
    made = sheet_of(picture(), 10_000_000)
    assert (made.media_type, made.width, made.height) == ("image/jpeg", 200, 400)
    assert b"SECRET" not in made.content
    with Image.open(io.BytesIO(made.content)) as found:
        assert not found.getexif()


def test_what_is_transparent_is_white() -> None:
    out = io.BytesIO()
    Image.new("RGBA", (20, 10), (0, 0, 0, 0)).save(out, "PNG")
    with Image.open(io.BytesIO(sheet_of(out.getvalue(), 1000).content)) as found:
        assert found.convert("RGB").getpixel((5, 5)) == (255, 255, 255)


def test_a_page_of_a_pdf_becomes_a_picture(monkeypatch: pytest.MonkeyPatch) -> None:
    out = io.BytesIO()
    pages = [Image.new("RGB", (200, 100), "red"), Image.new("RGB", (100, 200), "blue")]
    pages[0].save(out, "PDF", save_all=True, append_images=pages[1:])
    made = sheet_of(out.getvalue(), 10_000_000, page=2)
    assert (made.media_type, made.width, made.height) == ("image/png", LONGEST // 2, LONGEST)
    with pytest.raises(DrawingError, match="The PDF has no page 3: it has 2"):
        sheet_of(out.getvalue(), 10_000_000, page=3)
    monkeypatch.setitem(sys.modules, "pypdfium2", None)
    with pytest.raises(DrawingError, match="This server reads no PDF"):
        sheet_of(out.getvalue(), 10_000_000)


def test_verify_sees_a_pin_that_was_moved_behind_the_chain_and_a_picture_that_is_gone(
    shop: Shop, planner: FlaskClient
) -> None:
    sha256 = put(planner, pins=PINS).get_json()["sha256"]
    with shop.app.app_context():
        vault = shop.app.extensions["vault"]
        assert list(verify(db.session(), vault)) == []
        with writing() as session:
            session.execute(update(Drawing).values(pins=[{**PINS[0], "x": 9}]))
            session.execute(update(Photo).values(stored=False))
        found = [(one.kind, one.where.split()[0]) for one in verify(db.session(), vault)]
    assert found == [("photo", sha256[:12]), ("row", "drawing")]


def test_a_restored_server_has_the_drawings_and_their_pictures(
    shop: Shop, planner: FlaskClient, tmp_path: Path, engine: str
) -> None:
    body = put(planner, pins=PINS).get_json()
    with shop.app.app_context():
        back_up(db.session(), shop.app.extensions["vault"], tmp_path / "backup")
    folder = tmp_path / "fresh"
    folder.mkdir()
    fresh = app_in(folder)
    made_ready(fresh)
    with fresh.app_context():
        restore(fresh.extensions["vault"], tmp_path / "backup", 1)
        assert [one.as_data() for one in db.session.query(Drawing)] == [body]
        assert list(verify(db.session(), fresh.extensions["vault"])) == []
    close(fresh)
