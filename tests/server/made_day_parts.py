"""Who works at the shop of the made day, what it makes, and what was planted there."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

PLAN = (Path(__file__).parent / "made_day_plan.yaml").read_text(encoding="utf-8")
JOBS = ("D1", "D2", "D3", "D4")
SHIFTS = ("06:00", "14:00", "22:00")
READINGS = 3000
A_SHEET = 100
BETWEEN = timedelta(seconds=10)
"""How long one record takes."""
INSPECTORS = ("ada_kestrel", "bo_marchetti", "cleo_vantongeren", "dag_wolniewicz", "eve_zanotti", "finn_aberdare")
FITTER, WELDER = "gil_hartmann", "hana_oyelaran"
EIGHT = (*INSPECTORS, FITTER, WELDER)
SUPERVISOR, ENGINEER, VISITOR, RESTING = "iris_delacroix", "jon_pettersson", "kira_blomquist", "lars_umbridge"
ROLES = {
    **dict.fromkeys((*INSPECTORS, RESTING), "inspector"), FITTER: "fitter", WELDER: "welder", SUPERVISOR: "supervisor",
    ENGINEER: "engineer", VISITOR: "authorized inspector",
}  # fmt: skip
SILENT = {"eve_zanotti": (9, 14, 11), "finn_aberdare": (5, 3, 6)}
"""Phones not heard from: for how many hours, how many records they said wait, and how old the oldest of them is."""
LOST = "a lost phone"
HEARD = {**SILENT, LOST: (10, 2, 12), RESTING: (31 * 24, 0, 0)}
"""The same of all phones that were not heard just now. What is shut out, and what has long had nothing left, is not
told."""
CYCLE = ("2.508", "2.512", "2.510", "2.506", "2.514", "2.510")
"""Holes one after another, so that no run of them drifts."""
ROLLED = ("2.245", "2.255", "2.250", "2.240", "2.260", "2.250")
BASELINE, RISING = 102, 24
OUT = "out of tolerance"
BORES = (("2.021", 0.05), ("2.08", 3.0), ("2.3", 14.0), ("1.999", 0.05), ("1.99", 0.5), ("1.9", 5.0))
ONE_SIDED = (("face", "0.055", "", 0.1), ("face", "0.15", "CAL", 100.0), ("depth", "0.7", "", 0.3))
WALLS = (("0.2505", -0.005), ("0.2499", 0.001), ("0.3495", -0.005), ("0.3505", 0.005))
"""What was read, and by how many tolerances it is past its limit."""
COUNTS = {"nozzle": 16, "plate": 8, "seam": 5, "flange": 8, "coupon": 5, "ring": 3, "cover": 3, "lug": 2, "sheet": 9,
          "bundle": 1}  # fmt: skip
LETTERS = {"nozzle": "N", "plate": "P", "seam": "S", "flange": "F", "coupon": "C", "ring": "R", "cover": "K",
           "lug": "L", "sheet": "SH", "bundle": "B"}  # fmt: skip


@dataclass(frozen=True)
class Planted:
    """A flag that the review must show. piece: its id. past: by how many tolerances, None where that is not told."""

    kind: str
    piece: str
    step: str
    item: str
    station: str
    past: float | None
    record: str

    @property
    def place(self) -> tuple[str, ...]:
        return (self.kind, self.piece, self.step, self.item, self.station)


@dataclass
class Planting:
    """All that was planted: flags by their state, lines of the lists by piece and step, and steps released on the
    day."""

    open: list[Planted] = field(default_factory=list)
    on_the_spot: list[Planted] = field(default_factory=list)
    decided: list[Planted] = field(default_factory=list)
    closed: list[Planted] = field(default_factory=list)
    lists: dict[str, set[tuple[str, str]]] = field(default_factory=dict)
    released: int = 0


def split(place: str) -> tuple[str, str, str, str, str]:
    """Job, mark, step, item and station out of 'D1 N-1 nozzle.bore 12'."""
    job, mark, code, station = (*place.split(" "), "", "")[:4]
    step, _, item = code.partition(".")
    return job, mark, step, item, station


def zone_at(hour: int) -> ZoneInfo:
    """A time zone in which it is about an hour of the day now."""
    ahead = (hour - datetime.now(UTC).hour + 12) % 24 - 12
    return ZoneInfo(f"Etc/GMT{-ahead:+d}")


def nozzles() -> Iterator[str]:
    """Those at which nothing else was planted."""
    for job, first in (("D1", 1), ("D2", 1), ("D3", 11), ("D4", 6)):
        yield from (f"{job} N-{number}" for number in range(first, COUNTS["nozzle"] + 1))


def pieces() -> list[dict[str, Any]]:
    """The pieces of each job; a cover joins the plate of its own number."""
    found = []
    for kind, count in COUNTS.items():
        for number in range(1, count + 1):
            piece: dict[str, Any] = {"mark": f"{LETTERS[kind]}-{number}", "kind": kind, "place": "at its middle"}
            piece |= {"figures": {"size": "1/4"}} if kind == "plate" else {}
            found.append(piece | ({"joins": [f"P-{number}"]} if kind == "cover" else {}))
    return found
