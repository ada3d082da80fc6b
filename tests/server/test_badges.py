"""Blank badges to print, and the invitation that a phone scans."""

import base64
import re
import stat
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from seamtag.cli import main
from seamtag.people import badges
from seamtag.people.staff import address_of
from tests.shop import Shop


def run(*words: str, **environment: str) -> Result:
    return CliRunner(env=environment).invoke(main, list(words))


def test_a_badge_carries_a_fresh_secret_of_128_bits() -> None:
    texts = {badges.new_badge() for _ in range(200)}
    assert len(texts) == 200
    for text in texts:
        assert re.fullmatch("SEAMTAG-BADGE:[A-Z2-7]{26}", text)
        assert len(base64.b32decode(text.removeprefix(badges.PREFIX) + "======")) == 16


def test_its_symbol_is_small_enough_to_be_read_from_a_badge() -> None:
    """Capitals only, so that the symbol is of the alphanumeric mode: version 3 at level Q."""
    assert badges.code_of(badges.new_badge()).version == 3
    assert badges.symbol_of(badges.new_badge()).side == 29 + 2 * badges.QUIET


def test_a_page_of_badges_is_for_its_owner_alone_and_holds_no_two_alike(tmp_path: Path) -> None:
    file = tmp_path / "badges.html"
    result = run("badges", "--count", "12", "--out", str(file))
    assert result.exit_code == 0, result.output
    assert "12 badges are in" in result.output
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    text = file.read_text()
    paths = re.findall(r'<path d="([^"]+)"', text)
    assert (len(paths), len(set(paths))) == (12, 12)
    assert "Destroy the badges that nobody uses" in text
    assert badges.PREFIX not in text + result.output


def test_badges_are_not_written_over(tmp_path: Path) -> None:
    file = tmp_path / "badges.html"
    file.write_text("printed yesterday")
    result = run("badges", "--out", str(file))
    assert result.exit_code == 1
    assert "is there already" in result.output
    assert file.read_text() == "printed yesterday"


def test_badges_for_a_folder_that_is_not_there_say_so(tmp_path: Path) -> None:
    result = run("badges", "--out", str(tmp_path / "nowhere" / "badges.html"))
    assert result.exit_code == 1
    assert "cannot be written: No such file or directory." in result.output


@pytest.mark.parametrize(
    ("host", "address"),
    [
        ("seamtag.example", "https://seamtag.example/#/enrol/2Z6-K3V-D9T-0QW"),
        ("10.0.0.7:8443", "https://10.0.0.7:8443/#/enrol/2Z6-K3V-D9T-0QW"),
        ("127.0.0.1:8000", "http://127.0.0.1:8000/#/enrol/2Z6-K3V-D9T-0QW"),
        ("localhost", "http://localhost/#/enrol/2Z6-K3V-D9T-0QW"),
        ("[::1]:8000", "http://[::1]:8000/#/enrol/2Z6-K3V-D9T-0QW"),
    ],
)
def test_the_address_of_an_invitation(host: str, address: str) -> None:
    assert address_of(host, "2Z6-K3V-D9T-0QW") == address


def test_an_invitation_is_a_code_to_type_and_beside_it_a_symbol_to_scan(shop: Shop) -> None:
    given = shop.app.config["SEAMTAG"]
    settings = {"SEAMTAG_DATABASE": given.database, "SEAMTAG_PHOTOS": given.photos, "SEAMTAG_HOST": "s.example"}
    result = run("invite", "inspector", **settings)
    assert result.exit_code == 0, result.output
    code = result.stdout.strip()
    assert re.fullmatch(r"(\w{3}-){3}\w{3}", code)
    assert f"https://s.example/#/enrol/{code}" in result.stderr
    assert "▀" in result.stderr or "█" in result.stderr
