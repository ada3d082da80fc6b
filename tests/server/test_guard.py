import pytest
from flask.testing import FlaskClient

from tests.shop import Shop


@pytest.mark.parametrize(
    "headers",
    [
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
        {"Origin": "https://elsewhere.example"},
        {"Origin": "null"},
    ],
)
def test_a_change_that_another_site_asks_for_is_refused(shop: Shop, headers: dict[str, str]) -> None:
    head = shop.head()
    body = {"records": [shop.reading()[0]]}
    answer = shop.client.post("/api/v1/records", json=body, headers=headers)
    assert answer.status_code == 403
    assert "another site" in answer.get_json()["message"]
    assert shop.head() == head


@pytest.mark.parametrize("headers", [{}, {"Sec-Fetch-Site": "same-origin"}, {"Origin": "http://localhost"}])
def test_our_own_page_may_change(client: FlaskClient, headers: dict[str, str]) -> None:
    assert client.post("/api/v1/challenges", headers=headers).status_code == 201


@pytest.mark.parametrize("path", ["/", "/healthz", "/api/v1/review", "/nothing", "/openapi.json"])
def test_every_answer_has_the_headers(client: FlaskClient, path: str) -> None:
    with client.get(path) as answer:
        headers = answer.headers
    assert "default-src 'none'" in headers["Content-Security-Policy"]
    assert "unsafe-inline" not in headers["Content-Security-Policy"]
    assert headers["X-Content-Type-Options"] == "nosniff"


@pytest.mark.parametrize(
    "path", ["/nothing.js", "/../seamtag.db", "/%2e%2e/seamtag.db", "/a%00b", "/" + "a" * 5000, "/api/v1/x", "/x/" * 90]
)
def test_a_missing_file_is_404_in_the_one_shape(client: FlaskClient, path: str) -> None:
    answer = client.get(path)
    assert answer.status_code == 404
    assert set(answer.get_json()) == {"status", "error", "message"}


def test_the_server_says_that_it_is_ready(client: FlaskClient) -> None:
    assert client.get("/healthz").get_json() == {"status": "ready"}


def test_a_wrong_method_is_405_in_the_one_shape(client: FlaskClient) -> None:
    answer = client.get("/api/v1/records")
    assert answer.status_code in (404, 405)
    assert set(answer.get_json()) == {"status", "error", "message"}
