"""Histories of a small job as hypothesis draws them: people on phones that know some of what went before."""

from dataclasses import dataclass, field
from typing import Any

from hypothesis import strategies as st

from seamtag.core.items import MET, NOT_ASKED, ON_ITEMS
from seamtag.core.job import Job
from seamtag.core.progress import Progress
from seamtag.core.signing import Signing
from tests.vectors import progress_builder as make
from tests.vectors.progress_jobs import JOBS

Record = list[Any]

SMALL = ("gap", "line", "parties", "limits", "tubes")
PLACES = {
    "gap": ["W1 fit.gap"],
    "line": ["W1 fit.gap", "W1 weld.root", "W1 done.look", "W1 done.rt"],
    "parties": ["W1 fit.gap", "W1 wipe.clean"],
    "limits": ["W1 fit.shop", "W1 fit.drawing", "W1 weld.root"],
    "tubes": ["T1 hole.dia 14-7", "T1 hole.dia 14-8", "T1 roll.inside 14-7", "T1 roll.inside 14-8"],
}
VALUES = {"gap": ["3/32", "1/4"], "inside": ["2.59", "2.6", "2.7", "4"], "dia": ["2.5", "2.51", "4"]}
GOOD = {
    "dia": lambda id, where: make.reading(id, where, "2.5"),
    "inside": lambda id, where: make.reading(id, where, "2.59"),
    "root": make.weld,
    "look": make.look,
    "clean": make.look,
    "rt": make.report,
}
INSPECTORS = ["ivy", "ike"]
SIGNERS = {**make.SIGNERS, "maker": "wes"}
ACTIONS = ["look"] * 4 + ["sign"] * 5 + ["void", "decide", "agree", "call", "point", "page", "ink", "ink"]
DOUBTS = ["out of tolerance", "out of tolerance", "gauge ran out", "signed in ink"]


@dataclass
class History:
    """Records in the order they were made, and of each sign-off whether it was honest and should release."""

    job: str
    records: list[Record] = field(default_factory=list)
    releasing: set[str] = field(default_factory=set)

    def progress(self, records: list[Record] | None = None) -> Progress:
        return Progress(Job(JOBS[self.job]), [(p, role) for p, role in (self.records if records is None else records)])


@st.composite
def histories(draw: st.DrawFn, most: int = 16) -> History:
    history = History(draw(st.sampled_from(SMALL)))
    if draw(st.integers(0, 3)):
        begin(history)
    for number in range(draw(st.integers(1, most))):
        known = known_records(draw, history.records)
        action = draw(st.sampled_from(ACTIONS))
        made = MAKE[action](draw, history, known, f"r{number:02}")
        if made is not None:
            history.records.append(made)
    return history


def begin(history: History) -> None:
    """Every step recorded in tolerance and signed by every party, so that there is a release to lose."""
    for where in [*PLACES[history.job], *(["W1 fit.code"] if history.job == "limits" else [])]:
        good = GOOD.get(where.split()[1].partition(".")[2])
        id = f"a{len(history.records):02}"
        history.records.append(good(id, where) if good else make.reading(id, where, "3/32", gauge="hi-lo"))
    for mark, code in dict.fromkeys(place_of_step(where) for where in PLACES[history.job]):
        for point in history.progress().piece(mark).signings[code].points:
            id = f"a{len(history.records):02}"
            history.records.append(honest(history.progress(), mark, code, point["party"], id))


def place_of_step(where: str) -> tuple[str, str]:
    mark, rest = where.split()[:2]
    return mark, rest.partition(".")[0]


def honest(
    progress: Progress, mark: str, code: str, party: str, id: str, by: str = "", photo: dict[str, Any] | None = None
) -> Record:
    """A sign-off that lists what the phone's own core says it rests upon; photo: of the page signed in ink."""
    covers, under = progress.covered(mark, code), progress.relied_on(mark, code)
    page = {"page": photo["body"]["sha256"]} if photo else {}
    listed = " ".join([*covers, *([photo["id"]] if photo else [])])
    return make.sign(id, f"{mark} {code}", listed, party, by or SIGNERS[party], under=" ".join(under), **page)


def known_records(draw: st.DrawFn, records: list[Record]) -> list[Record]:
    """All there is, three times in four; else what a phone had that was away for a while."""
    if draw(st.integers(0, 3)):
        return list(records)
    return [record for record in records if draw(st.booleans())]


def look(draw: st.DrawFn, history: History, known: list[Record], id: str) -> Record:
    where = draw(st.sampled_from(PLACES[history.job]))
    _, _, rest = where.partition(" ")
    code = rest.split()[0].partition(".")[2]
    by = draw(st.sampled_from([*INSPECTORS, "wes"]))
    more = replacing(draw, known, where, id)
    if draw(st.booleans()):
        more["under"] = " ".join(p["id"] for p, _ in known if p["type"] in ("sign-off", "disposition", "call"))
    if code in ("look", "clean"):
        return make.look(id, where, draw(st.sampled_from(["accept", "accept", "reject"])), by, **more)
    if code == "rt":
        return make.report(id, where, draw(st.sampled_from(["accept", "accept", "reject", None])), by, **more)
    if code == "root":
        return make.weld(id, where, by, stamp=draw(st.sampled_from(["W7", "W7", ""])), **more)
    return make.reading(id, where, draw(st.sampled_from(VALUES.get(code, VALUES["gap"]))), by, **more)


def replacing(draw: st.DrawFn, known: list[Record], where: str, id: str) -> dict[str, Any]:
    here = [p["id"] for p, _ in known if p["type"] in ON_ITEMS and make.place(where).items() <= p.items()]
    if not here or draw(st.integers(0, 2)):
        return {}
    return {"replaces": draw(st.sampled_from(here)), "why": draw(st.sampled_from(["slip", "after rework"]))}


def sign(draw: st.DrawFn, history: History, known: list[Record], id: str) -> Record | None:
    """Honest nine times in ten."""
    mark, code = place_of_step(draw(st.sampled_from(PLACES[history.job])))
    progress = history.progress(known)
    signing = progress.piece(mark).signings[code]
    outstanding = [p["party"] for p in (signing.outstanding() or signing.points)]
    party = outstanding[0] if draw(st.integers(0, 4)) else draw(st.sampled_from([p["party"] for p in signing.points]))
    by = draw(st.sampled_from(INSPECTORS)) if party == "QC" else SIGNERS[party]
    if not draw(st.integers(0, 9)):
        some = [one for one in progress.covered(mark, code) if draw(st.booleans())]
        return make.sign(id, f"{mark} {code}", " ".join(some), party, by)
    if len(known) == len(history.records) and releases(progress, signing, party, by):
        history.releasing.add(id)
    return honest(progress, mark, code, party, id, by)


def releases(progress: Progress, signing: Signing, party: str, by: str) -> bool:
    """Whether an honest sign-off that knows all should be valid, told from the state alone."""
    state = progress.step(signing.piece, signing.step["code"])
    met = all(item.state in (MET, NOT_ASKED) for item in state.items.values())
    parties = [p["party"] for p in signing.points]
    before = signing.points[: parties.index(party)]
    ready = all(signing.valid(p["party"]) or (p["point"] == "W" and signing.calls_to(p["party"])) for p in before)
    point = signing.points[parties.index(party)]
    own = bool(point.get("not_maker")) and any(r.payload["by"] == by for r in signing.here if r.type == "weld")
    return (met or point["point"] == "sign") and ready and not own


def void(draw: st.DrawFn, history: History, known: list[Record], id: str) -> Record | None:
    """Of anything but points: a point withdrawn is a party's own word."""
    named = [p for p, _ in known if p["type"] != "point"]
    if not named:
        return None
    target = draw(st.sampled_from(named))
    by = draw(st.sampled_from([target["by"], "sue", "sam"]))
    return make.void(id, target["id"], by, target["piece"])


def decide(draw: st.DrawFn, history: History, known: list[Record], id: str) -> Record | None:
    findings = [p for p, _ in known if p["type"] in ON_ITEMS or p["body"].get("page")]
    if not findings:
        return None
    target = draw(st.sampled_from(findings))
    what = draw(st.sampled_from(["use as is", "use as is", "rework", "repair"]))
    steps = sorted({place_of_step(where)[1] for where in PLACES[history.job]})
    again = draw(st.sampled_from(["", "", *steps])) if what != "use as is" else ""
    where = target["piece"]
    if history.job == "tubes" and draw(st.booleans()):
        where = f"T1 roll.play {draw(st.sampled_from(['14-7', '14-8']))}"
    return make.dispose(id, what, target["id"], where=where, again=again, flag=draw(st.sampled_from(DOUBTS)))


def agree(draw: st.DrawFn, history: History, known: list[Record], id: str) -> Record | None:
    decided = [p for p, _ in known if p["type"] == "disposition"]
    if not decided:
        return None
    target = draw(st.sampled_from(decided))
    return make.agree(id, target["id"], "engineering", "eve", where=target["piece"])


def call(draw: st.DrawFn, history: History, known: list[Record], id: str) -> Record:
    mark, code = place_of_step(draw(st.sampled_from(PLACES[history.job])))
    return make.call(id, f"{mark} {code}", draw(st.sampled_from(["AI", "QC"])))


def point(draw: st.DrawFn, history: History, known: list[Record], id: str) -> Record:
    mark, code = place_of_step(draw(st.sampled_from(PLACES[history.job])))
    return make.set_point(id, f"{mark} {code}", draw(st.sampled_from(["H", "W", "R"])))


def page(draw: st.DrawFn, history: History, known: list[Record], id: str) -> Record:
    """A photo of a page, the same one again, or one that replaces another."""
    mark, code = place_of_step(draw(st.sampled_from(PLACES[history.job])))
    pages = [p["id"] for p, _ in known if p["type"] == "photo" and p["step"] == code]
    more = {"replaces": draw(st.sampled_from(pages)), "why": "slip"} if pages and draw(st.booleans()) else {}
    under = " ".join(history.progress(known).relied_on(mark, code))
    sha = draw(st.sampled_from([make.SHA, "cd" * 32]))
    return make.photo(id, f"{mark} {code}", draw(st.sampled_from(INSPECTORS)), sha=sha, under=under, **more)


def ink(draw: st.DrawFn, history: History, known: list[Record], id: str) -> Record | None:
    """The page entered by QC, over whichever photo of it."""
    pages = [p for p, _ in known if p["type"] == "photo"]
    if not pages:
        return None
    photo = draw(st.sampled_from(pages))
    by = draw(st.sampled_from([*INSPECTORS, "wes", "abe"]))
    party = draw(st.sampled_from(["AI", "AI", "customer"]))
    return honest(history.progress(known), photo["piece"], photo["step"], party, id, by, photo)


MAKE = {"look": look, "sign": sign, "void": void, "decide": decide, "agree": agree, "call": call, "point": point,
        "page": page, "ink": ink}  # fmt: skip
