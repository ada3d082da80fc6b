import hashlib
import io
import random
from pathlib import Path

import pytest
from PIL import Image
from werkzeug.test import TestResponse

from tests.shop import Shop

pytestmark = pytest.mark.both_databases


def picture(kind: str = "JPEG", size: tuple[int, int] = (400, 200)) -> bytes:
    """Left half red, right half blue, turned by its EXIF, with a place, a time and a comment."""
    image = Image.new("RGB", size, "blue")
    image.paste("red", (0, 0, size[0] // 2, size[1]))
    exif = Image.Exif()
    exif[0x0112] = 6  # turn by 90 degrees to the right
    exif[0x0132] = "2026:11:20 13:00:00"
    exif[0x010F] = "SECRETMAKER"
    exif.get_ifd(0x8825)[1] = "N"
    exif.get_ifd(0x8825)[2] = (40.0, 26.0, 46.0)
    out = io.BytesIO()
    image.save(out, kind, exif=exif, **({"comment": b"SECRETCOMMENT"} if kind == "JPEG" else {}))
    return out.getvalue()


def sha_of(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def put(shop: Shop, content: bytes, sha256: str = "") -> TestResponse:
    return shop.client.put(f"/api/v1/photos/{sha256 or sha_of(content)}", data=content)


def named(shop: Shop, content: bytes) -> None:
    """Push a record that names the photo."""
    body = {"sha256": sha_of(content), "media_type": "image/jpeg", "bytes": len(content), "width": 4, "height": 2}
    assert shop.push(shop.record("inspector", "photo", body)[0])[0]["outcome"] == "taken in"


def shown(shop: Shop, content: bytes, size: str = "view") -> TestResponse:
    return shop.sign_in("supervisor").get(f"/api/v1/photos/{sha_of(content)}?size={size}")


def test_a_photo_before_its_record_needs_a_session(shop: Shop) -> None:
    content = picture()
    assert put(shop, content).status_code == 403
    browser = shop.sign_in("fitter")
    assert browser.put(f"/api/v1/photos/{sha_of(content)}", data=content).status_code == 200


def test_a_photo_of_a_record_is_taken_in_again_and_again(shop: Shop) -> None:
    content = picture()
    named(shop, content)
    first = put(shop, content)
    assert first.get_json() == {"sha256": sha_of(content), "outcome": "taken in", "shown": "yes"}
    assert put(shop, content).get_json() == first.get_json()
    assert put(shop, b"other", sha_of(content)).get_json() == first.get_json()
    sealed = Path(shop.app.config["SEAMTAG"].photos) / "original" / sha_of(content)
    assert sealed.read_bytes() == content


@pytest.mark.parametrize(("kind", "field"), [("sign-off", "page"), ("report", "pages")])
def test_pages_of_paper_are_let_in_too(shop: Shop, kind: str, field: str) -> None:
    content = picture()
    bodies = {"sign-off": {"party": "QC", "covers": [], "page": sha_of(content)},
              "report": {"kind": "film", "state": "in", "pages": [sha_of(content)]}}  # fmt: skip
    shop.push(shop.record("inspector", kind, bodies[kind], step="fit", item="gap")[0])
    assert put(shop, content).status_code == 200, field


def test_a_record_that_is_not_taken_in_opens_no_door(shop: Shop) -> None:
    content = picture()
    shop.push(shop.record("inspector", "photo", {"sha256": sha_of(content)})[0])
    assert put(shop, content).status_code == 403


def test_a_photo_damaged_on_its_way_is_400_and_can_be_sent_again(shop: Shop) -> None:
    content = picture()
    named(shop, content)
    answer = put(shop, content[:-1], sha_of(content))
    assert answer.status_code == 400
    assert "SHA-256 differs" in answer.get_json()["message"]
    assert put(shop, content).status_code == 200


def test_an_address_that_is_no_hash_is_400(shop: Shop) -> None:
    assert put(shop, b"x", "..%2f..%2fetc").status_code in (400, 404, 405)
    assert put(shop, b"x", "A" * 64).status_code == 400


@pytest.mark.parametrize("content", [b"", b"no picture", picture()[:300], b"%PDF-1.7", b"<svg onload='x'/>"])
def test_what_is_no_picture_is_taken_in_with_a_message(shop: Shop, content: bytes) -> None:
    named(shop, content)
    answer = put(shop, content)
    assert answer.status_code == 200
    assert "Take the photo again" in answer.get_json()["shown"]
    looked = shown(shop, content)
    assert looked.status_code == 404
    assert "Take the photo again" in looked.get_json()["message"]


def test_too_many_pixels_are_sealed_and_not_decoded(shop: Shop) -> None:
    out = io.BytesIO()
    Image.new("1", (9000, 9000)).save(out, "PNG")
    named(shop, out.getvalue())
    answer = put(shop, out.getvalue())
    assert answer.status_code == 200
    assert "too many pixels" in answer.get_json()["shown"]


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("size", ["view", "thumb"])
def test_the_shown_copy_is_upright_and_says_nothing_but_the_picture(shop: Shop, kind: str, size: str) -> None:
    content = picture(kind)
    assert b"SECRETMAKER" in content
    named(shop, content)
    put(shop, content)
    answer = shown(shop, content, size)
    assert answer.mimetype == "image/jpeg"
    assert b"SECRET" not in answer.data
    assert b"Exif" not in answer.data
    with Image.open(io.BytesIO(answer.data)) as copy:
        assert copy.format == "JPEG"
        assert not copy.getexif()
        assert not {"exif", "comment", "icc_profile", "xmp"} & set(copy.info)
        assert copy.height == 2 * copy.width
        top, bottom = (copy.getpixel((copy.width // 2, y)) for y in (10, copy.height - 10))
    assert isinstance(top, tuple)
    assert isinstance(bottom, tuple)
    assert top[0] > 200 > 50 > top[2]
    assert bottom[2] > 200 > 50 > bottom[0]


def test_a_copy_is_no_larger_than_its_size_says(shop: Shop) -> None:
    content = picture(size=(3000, 1000))
    named(shop, content)
    put(shop, content)
    for size, longest in (("view", 1600), ("thumb", 320)):
        with Image.open(io.BytesIO(shown(shop, content, size).data)) as copy:
            assert max(copy.size) == longest


def test_a_photo_that_is_not_here_yet_is_404(shop: Shop) -> None:
    assert "not here yet" in shown(shop, b"never sent").get_json()["message"]


@pytest.mark.filterwarnings("ignore::UserWarning")
def test_a_damaged_picture_of_any_kind_is_answered(shop: Shop) -> None:
    dice = random.Random(5)
    browser = shop.sign_in("fitter")
    for kind in ("JPEG", "PNG", "WEBP"):
        whole = picture(kind, (40, 20))
        for _ in range(120):
            changed = bytearray(whole)
            for _ in range(dice.randint(1, 6)):
                changed[dice.randrange(min(len(changed), 400))] = dice.randrange(256)
            content = bytes(changed)
            answer = browser.put(f"/api/v1/photos/{sha_of(content)}", data=content)
            assert answer.status_code == 200, content.hex()
