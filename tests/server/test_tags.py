import io

import pytest
import zxingcpp
from PIL import Image

from seamtag.core.tagcode import is_code, link_of, read_link
from seamtag.database import db
from seamtag.tags.models import Tag
from seamtag.tags.stickers import board_link, gauge_link, gauge_sticker, job_board
from tests.shop import Shop


def code_of(shop: Shop, mark: str = "S-1") -> str:
    with shop.app.app_context():
        return str(db.session.query(Tag).filter(Tag.piece == f"T1.{mark}").one().code)


def test_each_piece_has_a_tag_of_its_own(shop: Shop) -> None:
    codes = {code_of(shop, mark) for mark in ("V", "P-1", "P-2", "S-1")}
    assert len(codes) == 4
    assert all(is_code(code) for code in codes)


def test_a_code_leads_to_its_piece_however_it_is_typed(shop: Shop) -> None:
    code = code_of(shop)
    browser = shop.sign_in("inspector")
    for typed in (code, code.lower(), f"{code[:3]}-{code[3:]}", code.replace("0", "o").replace("1", "l")):
        answer = browser.get(f"/api/v1/tags/{typed}")
        assert answer.get_json() == {"code": code, "piece": "T1.S-1", "mark": "S-1", "job": "T1", "retired": False}


def test_a_misread_symbol_is_said_to_be_one(shop: Shop) -> None:
    code = code_of(shop)
    misread = ("2" if code[0] != "2" else "3") + code[1:]
    answer = shop.sign_in("inspector").get(f"/api/v1/tags/{misread}")
    assert answer.status_code == 404
    assert "misread" in answer.get_json()["message"]


def test_a_code_of_another_shop_is_said_to_be_unknown(shop: Shop) -> None:
    code = code_of(shop)
    with shop.app.app_context():
        db.session.query(Tag).filter(Tag.code == code).delete()
        db.session.commit()
    answer = shop.sign_in("inspector").get(f"/api/v1/tags/{code}")
    assert answer.status_code == 404
    assert "No tag of this shop" in answer.get_json()["message"]


def test_both_symbols_of_a_label_are_read_as_the_link(shop: Shop) -> None:
    code = code_of(shop)
    answer = shop.sign_in("inspector").get(f"/api/v1/tags/{code}/label.png")
    assert answer.mimetype == "image/png"
    with Image.open(io.BytesIO(answer.data)) as label:
        half = label.width // 2
        sides = [label.crop((0, 0, half, label.height)), label.crop((half, 0, label.width, label.height))]
        for side in sides:
            assert [found.text for found in zxingcpp.read_barcodes(side)] == [link_of("tags.example", code)]
    assert read_link(link_of("tags.example", code)) == ("tags.example", code)


@pytest.mark.parametrize(("gauge", "link"), [
    ("HL-07", "HTTPS://TAGS.EXAMPLE/G/HL-07"),
    ("hl-07", "HTTPS://TAGS.EXAMPLE/G/HL-07"),
    ("Ü 3/a_b", "HTTPS://TAGS.EXAMPLE/G/%C3%9C%203%2FA%5FB"),
])  # fmt: skip
def test_the_sticker_of_a_gauge_is_read_as_its_link(gauge: str, link: str) -> None:
    assert gauge_link("tags.example", gauge) == link
    found = zxingcpp.read_barcodes(gauge_sticker("tags.example", gauge, "Hi-lo gauge 07"))
    assert [one.text for one in found] == [link]


def test_the_board_of_a_job_is_read_as_its_link() -> None:
    found = zxingcpp.read_barcodes(job_board("tags.example", "26-104", "Heat recovery boiler, lower drum"))
    assert [one.text for one in found] == [board_link("tags.example", "26-104")] == ["HTTPS://TAGS.EXAMPLE/J/26-104"]


@pytest.mark.parametrize("path", ["/G/HL-07", "/G/3%2FA", "/J/T1"])
def test_the_link_of_a_gauge_or_a_board_opens_the_app(shop: Shop, path: str) -> None:
    with shop.client.get(path) as answer:
        assert answer.mimetype == "text/html"


@pytest.mark.parametrize("path", ["/t/{}", "/T/{}"])
def test_a_link_opens_the_app(shop: Shop, path: str) -> None:
    with shop.client.get(path.format(code_of(shop))) as answer:
        assert answer.status_code == 200
        assert answer.mimetype == "text/html"
