"""The people of the demonstration at work on one job: what they record, sign and photograph, step by step."""

import random
from collections.abc import Callable, Iterator, Mapping
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any

from seamtag.core.items import NOT_ASKED
from seamtag.core.job import Job, Step
from seamtag.core.numbers import text_of
from seamtag.core.progress import RELEASED, Progress
from seed_demo.phone import Phone
from seed_demo.pictures import Picture, scene
from seed_demo.readings import stations_of, within_limits

Push = Callable[[list[str], datetime], None]
Entered = Mapping[tuple[str, str], str]
"""Readings that are wanted instead of drawn ones, by item and station."""


class Crew:
    """Works on one job; pushes what it records through the server's intake.

    hurried: works through nights and weekends, so that a seeding at any hour ends before its own moment.
    """

    def __init__(self, job: Job, phones: Mapping[str, Phone], push: Push, photos: dict[str, Picture], clock: datetime,
                 dice: random.Random) -> None:  # fmt: skip
        self.job, self.phones, self.push, self.photos = job, phones, push, photos
        self.clock, self.dice = clock, dice
        self.hurried = False
        self.progress = Progress(job, [])
        self.texts: list[str] = []
        self.gauges: dict[str, str] = {}
        self.instead: dict[tuple[str, str], Callable[[str, Step], None]] = {}
        """What is recorded in place of the usual items, by piece and step."""
        self.makers = {"fitter": ("ngozi_albrecht", "emil_saavedra"), "tube roller": ("silas_nakahara",),
                       "welder": ("rosa_lindholm", "kwame_petrossian", "duc_hargrave", "yusuf_marchand"),
                       "layout": ("tadeusz_brannock",), "tester": ("anneke_baptiste",)}  # fmt: skip
        self.inspector = dice.choice(("priya_solheim", "owen_dlomo"))

    def piece(self, mark: str) -> str:
        return f"{self.job.data['id']}.{mark}"

    def pass_time(self, minutes: float) -> None:
        """Let time pass; nobody works from 15:30 to 07:00 or at weekends, but who is hurried."""
        self.clock += timedelta(minutes=minutes)
        if self.hurried:
            return
        if self.clock.hour >= 16 or (self.clock.hour == 15 and self.clock.minute > 30):
            self.clock = (self.clock + timedelta(days=1)).replace(hour=7, minute=self.dice.randint(0, 25))
        while self.clock.weekday() > 4:
            self.clock += timedelta(days=1)

    def record(self, who: str, kind: str, piece: str, body: Mapping[str, Any], **place: Any) -> str:
        """One record by a person; its id. place: step, item, station, replaces, why, under."""
        self.clock += timedelta(seconds=self.dice.randint(2, 6))
        given = {name: value for name, value in place.items() if value}
        whole = {"job": self.job.data["id"], "piece": piece, "basis": dict(self.job.basis), **given}
        text, payload = self.phones[who].record(kind, self.clock, whole, body)
        self.texts.append(text)
        self.progress.add(payload, "" if kind not in ("sign-off", "disposition", "agreement") else "held")
        return str(payload["id"])

    def send(self) -> None:
        """Push what was recorded since the last time."""
        if self.texts:
            self.push(self.texts, self.clock)
            self.texts = []

    def work(self, wanted: Callable[[str, Step], bool], minutes: float) -> Iterator[None]:
        """Do every step that is wanted and not blocked, until there is none left; stops after each, so that others
        work in between. minutes: for one step."""
        left = [(piece, step["code"]) for piece in self.job.pieces for step in self.job.steps_of(piece)
                if wanted(piece, step) and self.progress.step(piece, step["code"]).state != RELEASED]  # fmt: skip
        done = True
        while done:
            stopped = []
            for piece, code in left:
                if self.progress.blocked(piece, code):
                    stopped.append((piece, code))
                    continue
                self.step(piece, code)
                state = self.progress.step(piece, code)
                assert state.state == RELEASED, f"{piece} {code} is {state.state}: {state.items}"
                self.send()
                self.pass_time(minutes)
                yield
            done, left = len(stopped) < len(left), stopped

    def step(self, piece: str, code: str, entered: Entered | None = None, parties: int = 9) -> None:
        """A whole step: the maker signs, the inspector records every item, and the parties sign in their order.

        parties: how many of them sign; the later ones are left waiting.
        """
        step = self.job.steps[code]
        signing = [point["party"] for point in step["points"] if point["point"] != "S"]
        for item in step["items"]:
            if item["kind"] == "weld":
                self.weld(piece, step, item)
        if "maker" in signing and parties:
            self.sign(piece, step, "maker")
        if (piece, code) in self.instead:
            self.instead[piece, code](piece, step)
        self.items(piece, step, entered or {})
        for party in [p for p in signing if p != "maker"][: parties - ("maker" in signing)]:
            self.pass_time(4)
            self.sign(piece, step, party)

    def items(self, piece: str, step: Step, entered: Entered) -> None:
        under = self.progress.relied_on(piece, step["code"])
        for item in step["items"]:
            state = self.progress.step(piece, step["code"]).items[item["code"]].state
            if item["kind"] in ("derived", "weld") or state == NOT_ASKED:
                continue
            read = self.progress.step(piece, step["code"]).items[item["code"]].in_force
            for station in stations_of(item, self.job.pieces[piece]["kind"]):
                if station in read and (piece, step["code"]) in self.instead:
                    continue
                self.one(piece, step, item, station, entered, under)
                self.pass_time(0.4)
            if item.get("photo") == "always":
                self.photo(piece, step, item, self.inspector, under)

    def one(self, piece: str, step: Step, item: Any, station: str, entered: Entered, under: list[str]) -> str:
        place = {"step": step["code"], "item": item["code"], "station": station, "under": under}
        if item["kind"] == "measure":
            typed = entered.get((item["code"], station)) or self.bore(piece, step, item, station)
            typed = typed or within_limits(self.job, piece, step["code"], item, self.dice)
            body = {"entered": typed, "uom": item["uom"], "gauge": self.gauges.get(item.get("gauge", ""), "")}
            return self.record(self.inspector, "reading", piece, {k: v for k, v in body.items() if v}, **place)
        if item["kind"] == "visual":
            return self.record(self.inspector, "visual", piece, {"result": "accept"}, **place)
        if item["kind"] == "report":
            body = {"kind": item["name"], "state": "in", "number": f"R-{self.dice.randint(1000, 9999)}",
                    "firm": "outside laboratory, invented", "result": "accept"}  # fmt: skip
            return self.record(self.inspector, "report", piece, body, **place)
        value = f"H{self.dice.randint(10000, 99999)}-{self.dice.randint(1, 9)}"
        return self.record(self.inspector, "text", piece, {"value": value}, **place)

    def bore(self, piece: str, step: Step, item: Any, station: str) -> str:
        """The bore of a rolled tube: as much as the hole and the tube before ask for a wall reduction near 7.5 %."""
        if item["code"] != "ida":
            return ""
        bench = self.progress.piece(piece).bench
        idb, clear = (bench.readings(("tubes_in", code), station) for code in ("idb", "clear"))
        if not idb or not clear:
            return ""
        tube = self.job.names(piece, self.job.basis).figures["tube_od"]
        reduction = Decimal(self.dice.randint(680, 820)) / 100
        return self.rolled(idb[0], clear[0], tube, reduction)

    @staticmethod
    def rolled(before: Decimal, clear: Decimal, tube: Decimal, reduction: Decimal) -> str:
        return text_of(round(before + clear + reduction / 100 * (tube - before), 3))

    def weld(self, piece: str, step: Step, item: Any) -> None:
        who = self.dice.choice(self.makers["welder"])
        stamps = {"rosa_lindholm": "B14", "kwame_petrossian": "C07", "duc_hargrave": "K22", "yusuf_marchand": "M31"}
        layer = item["code"] if item["code"] in ("root", "cap") else "cap"
        body = {"layer": layer, "welder": who, "stamp": stamps[who], "procedure": "W-12", "lot": "FL-1"}
        under = self.progress.relied_on(piece, step["code"])
        self.record(who, "weld", piece, body, step=step["code"], item=item["code"], under=under)
        if item.get("photo") == "always":
            self.photo(piece, step, item, who, under)
        self.pass_time(9)

    def photo(self, piece: str, step: Step, item: Any, who: str, under: list[str], words: str = "", ring: bool = False,
              station: str = "") -> None:  # fmt: skip
        mark = self.job.pieces[piece]["mark"]
        picture = scene(mark, words or item["name"], self.dice, "seam" in step["code"] or item["kind"] == "weld", ring)
        self.photos[picture.sha256] = picture
        self.record(who, "photo", piece, picture.body(words), step=step["code"], item=item["code"], under=under,
                    station=station)  # fmt: skip

    def sign(self, piece: str, step: Step, party: str) -> str:
        trade = next((p.get("trade", "fitter") for p in step["points"] if p["party"] == party), "fitter")
        who = {"QC": self.inspector, "AI": "leonora_fenwick_diaz"}.get(party) or self.dice.choice(self.makers[trade])
        covers = self.progress.covered(piece, step["code"])
        body = {"party": party, "covers": covers, "attendance": "present"}
        under = self.progress.relied_on(piece, step["code"])
        return self.record(who, "sign-off", piece, body, step=step["code"], under=under)

    def decide(self, piece: str, about: list[str], flag: str, disposition: str, reason: str, **more: Any) -> str:
        """A disposition by the supervisor."""
        found = {"records": about, "flag": flag, "verdict": more.pop("verdict", "out of tolerance")}
        body = {"about": found, "disposition": disposition, "reason": reason, **more}
        return self.record("helena_castellan", "disposition", piece, body)
