import hashlib

import pytest
from sqlalchemy import select

from seamtag.database import db
from seamtag.sync.models import Entry
from tests.shop import Shop

pytestmark = pytest.mark.both_databases


def test_each_hash_covers_the_one_before_and_all_of_its_entry(shop: Shop) -> None:
    shop.push(shop.reading()[0], shop.reading(station="3")[0])
    previous = "0" * 64
    with shop.app.app_context():
        entries = db.session.scalars(select(Entry).order_by(Entry.number)).all()
        assert [one.number for one in entries] == list(range(1, len(entries) + 1))
        for one in entries:
            body = hashlib.sha256(one.body.encode()).hexdigest()
            lines = (previous, str(one.number), one.kind, one.scope, body, one.stamp)
            previous = hashlib.sha256("\n".join(lines).encode()).hexdigest()
            assert one.hash == previous


def test_every_answer_to_a_push_names_the_head(shop: Shop) -> None:
    answer = shop.post({"records": [shop.reading()[0]]}).get_json(force=True)
    assert (answer["head"]["number"], answer["head"]["hash"]) == shop.head()
    assert len(answer["epoch"]) == 16
    assert shop.post({"records": []}).get_json(force=True)["head"] == answer["head"]


def test_the_record_is_in_the_chain_as_it_was_signed(shop: Shop) -> None:
    text, _ = shop.reading()
    number = shop.push(text)[0]["number"]
    with shop.app.app_context():
        entry = db.session.get(Entry, number)
        assert entry is not None
        assert (entry.kind, entry.scope, entry.body) == ("record", "job:T1", text)
