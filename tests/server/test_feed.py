import pytest
from sqlalchemy import select

from seamtag.database import db
from seamtag.sync.models import Device
from tests.shop import Shop

pytestmark = pytest.mark.both_databases


def test_the_shop_scope_has_people_gauges_plans_jobs_and_keys(shop: Shop) -> None:
    answer = shop.sign_in("fitter").get("/api/v1/feed?scope=shop").get_json(force=True)
    assert {one["kind"] for one in answer["entries"]} == {"person", "gauge", "plan", "job", "key"}
    assert (answer["head"]["number"], answer["head"]["hash"]) == shop.head()
    assert not answer["more"]


def test_the_job_scope_has_its_basis_pieces_tags_and_records(shop: Shop) -> None:
    text, _ = shop.reading()
    shop.push(text)
    answer = shop.sign_in("fitter").get("/api/v1/feed?scope=job:T1").get_json(force=True)
    assert [one["kind"] for one in answer["entries"]] == ["basis", "pieces", "tags", "record"]
    assert answer["entries"][-1]["body"] == text
    assert answer["entries"][-1]["verdict"] == "in tolerance"
    assert answer["entries"][0]["body"]["values"] == {"gap_nom": "3/32"}


def test_a_cursor_reads_on_without_gap_or_repeat(shop: Shop) -> None:
    shop.push(*[shop.reading()[0] for _ in range(5)])
    browser, after, numbers = shop.sign_in("fitter"), 0, []
    while True:
        answer = browser.get(f"/api/v1/feed?scope=job:T1&after={after}&most=3").get_json(force=True)
        numbers += [one["number"] for one in answer["entries"]]
        if not answer["more"]:
            break
        after = numbers[-1]
    assert numbers == sorted(set(numbers))
    assert len(numbers) == 8


def test_another_jobs_scope_is_empty(shop: Shop) -> None:
    shop.push(shop.reading()[0])
    assert shop.sign_in("fitter").get("/api/v1/feed?scope=job:T2").get_json(force=True)["entries"] == []


@pytest.mark.parametrize(
    "query", ["", "scope=shop&after=-1", "scope=shop&most=0", "scope=shop&most=1001", "scope=shop&after=x"]
)
def test_a_wrong_query_is_422_and_names_the_field(shop: Shop, query: str) -> None:
    answer = shop.sign_in("fitter").get(f"/api/v1/feed?{query}")
    assert answer.status_code == 422
    assert answer.get_json()["fields"]


def pulled(shop: Shop, who: str, device: str, **more: int) -> int:
    query = {"scope": "shop", "device": device, **more}
    return shop.sign_in(who).get("/api/v1/feed", query_string=query).status_code


def test_the_phone_counts_as_heard_from_by_its_own_key_alone(shop: Shop) -> None:
    own = shop.phones["fitter"].device
    assert pulled(shop, "fitter", own, waiting=4) == 200
    assert pulled(shop, "inspector", own, waiting=0) == 200
    assert pulled(shop, "fitter", "phone-9", waiting=99) == 200
    with shop.app.app_context():
        heard = {one.id: (one.person, one.waiting) for one in db.session.scalars(select(Device))}
    assert heard == {own: ("fitter", 4)}


def test_a_phone_with_room_for_ever_pulls_all_the_same(shop: Shop) -> None:
    assert pulled(shop, "fitter", shop.phones["fitter"].device, holds=2**29) == 200
    assert pulled(shop, "fitter", shop.phones["fitter"].device, holds=2**30 - 1) == 200
