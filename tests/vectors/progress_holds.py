"""Cases: what may not begin yet, and what went on all the same."""

# Laid out by hand, so that a case is read at a glance.
# fmt: off

from tests.vectors.progress_builder import (
    call,
    case,
    look,
    note,
    photo,
    reading,
    set_point,
    sign,
    state,
    void,
    weld,
)

FIT, GAP, IN = "W1 fit", "W1 fit.gap", "3/32"
R1 = reading("r1", GAP, IN)
M1 = sign("m1", FIT, "", "maker")
Q1 = sign("q1", FIT, "r1", under="m1")
A1 = sign("a1", FIT, "r1", "AI", under="m1 q1")
ROOT = "W1 weld.root"
PAST = [["went past an open hold", "w1", "open"]]

case("behind an open hold", "a record behind a hold that names no release of it is flagged", "line", R1, M1,
     weld("w1", ROOT), past_hold={"w1": ["W1 fit QC AI"], "r1": [], "m1": []}, flags={"W1": PAST})

case("released later", "and stays flagged though the hold is released later", "line", R1, M1, Q1, A1, weld("w1", ROOT),
     past_hold={"w1": ["W1 fit QC AI"]}, flags={"W1": PAST}, steps={"W1 weld": state("complete", "maker", "", [])})

case("under the releases", "a record that names the releases it relies on went past nothing", "line", R1, M1, Q1, A1,
     weld("w1", ROOT, under="q1 a1"), past_hold={"w1": []}, flags={"W1": []})

case("under one of two", "each party's release is asked", "line", R1, M1, Q1, A1, weld("w1", ROOT, under="q1"),
     past_hold={"w1": ["W1 fit AI"]}, flags={"W1": [["witness without notice", "w1", "open"]]})

case("under a notice", "at a witness point the notice is enough to go on", "line", R1, M1, Q1, call("c1", FIT),
     weld("w1", ROOT, under="q1 c1"), past_hold={"w1": []}, flags={"W1": []})

case("a notice passes no hold", "at a hold a notice is not enough", "line", R1, M1, call("c1", FIT, "QC"), A1,
     weld("w1", ROOT, under="c1 a1"), past_hold={"w1": ["W1 fit QC"]}, flags_include={"W1": PAST})

case("under what is not here yet", "an 'under' not yet here means waiting, and is not flagged", "line", R1, M1, Q1,
     weld("w1", ROOT, under="q1 a1"), past_hold={"w1": None}, flags={"W1": []})

case("under an unneeded one not here", "what is released needs no waiting for more", "line", R1, M1, Q1, A1,
     weld("w1", ROOT, under="q1 a1 z9"), past_hold={"w1": []}, flags={"W1": []})

case("under a release without the role", "a sign-off by who does not hold the role lets nothing go", "gap", R1,
     sign("s1", FIT, "r1", by="sam", role="not held"), weld("w1", ROOT, under="s1"), past_hold={"w1": ["W1 fit QC"]},
     flags={"W1": [*PAST, ["role in doubt", "s1", "open"]]})

case("under a release shaken later", "what was a release when it was relied on is not held against it", "gap", R1,
     sign("s1", FIT, "r1"), weld("w1", ROOT, under="s1"), reading("r2", GAP, "1/4", by="ike"),
     signoffs={"s1": "shaken"}, past_hold={"w1": []},
     flags={"W1": [["sign-off shaken", "s1", "open"], ["out of tolerance", "r2", "open"]]})

case("under a release of another step", "a sign-off releases its own step only", "parties", R1,
     sign("s1", "W1 wipe", ""), sign("k1", "W1 wipe", "", "customer"), weld("w1", ROOT, under="s1 k1"),
     past_hold={"w1": ["W1 fit QC AI customer"]})

case("a sign-off behind an open hold", "a sign-off goes past a hold like any work", "gap", R1,
     sign("m2", "W1 weld", "", "maker", by="wes"), past_hold={"m2": ["W1 fit QC"]}, signoffs={"m2": "valid"},
     flags={"W1": [["went past an open hold", "m2", "open"]]})

case("a photo behind an open hold", "and a photo", "gap", R1, photo("p1", ROOT), past_hold={"p1": ["W1 fit QC"]})

case("a word behind an open hold", "notes, calls and voids are no work", "gap", R1, note("n1", ROOT),
     call("c1", "W1 weld"), photo("p1", "W1"), past_hold={"n1": [], "c1": [], "p1": []}, flags={"W1": []})

case("past a hold, then replaced", "a replacement does not close what went past a hold", "gap", R1,
     sign("s1", FIT, "r1"), weld("w1", ROOT), weld("w2", ROOT, under="s1", replaces="w1", why="slip"),
     standing={"w1": "replaced"}, past_hold={"w2": []}, flags={"W1": PAST})

case("past a hold, then void", "what is void is shown closed", "gap", R1, weld("w1", ROOT), void("v1", "w1", by="wes"),
     flags={"W1": [["went past an open hold", "w1", "closed"]]})

case("a hold the AI sets", "a hold a party sets is one like the plan's", "gap", R1, sign("s1", FIT, "r1"),
     set_point("p1", FIT, "H"), weld("w1", ROOT, under="s1"), past_hold={"w1": ["W1 fit AI"]},
     steps={"W1 weld": state("complete", "maker", "", ["W1 fit AI"])})

WIPED = sign("s9", "W1 clean", "c1")
case("a hold of a later revision", "a hold a later revision brings is not held against what was there before",
     "new_hold", look("c1", "W1 clean.clean"), WIPED, weld("w1", ROOT, under="s9"),
     weld("w2", ROOT, under="s9", basis="B1"), past_hold={"w1": [], "w2": ["W1 fit QC"]},
     steps={"W1 weld": state("complete", "maker", "", ["W1 fit QC"])})

case("under a plan that is not here", "by a plan that is not known every hold counts", "new_hold",
     look("c1", "W1 clean.clean"), WIPED, weld("w1", ROOT, under="s9", basis="Z1"), past_hold={"w1": ["W1 fit QC"]})


# What stands before what, over the pieces of a boiler


def done(mark: str, code: str) -> list:
    return look(f"{mark}.{code}", f"{mark} {code}.look")


def release(mark: str, code: str, party: str = "QC", under: str = "") -> list:
    return sign(f"{mark}.{code}.{party}", f"{mark} {code}", f"{mark}.{code}", party, under=under)


def whole(mark: str, code: str) -> list:
    qc = f"{mark}.{code}.QC"
    return [done(mark, code), release(mark, code), release(mark, code, "AI", qc)]


def blocked(*places: str) -> dict:
    return state("open", blocked=places)


PAPERS = whole("B", "papers")
RECEIPTS = [one for mark in ("P1", "P2") for one in (done(mark, "receipt"), release(mark, "receipt"))]

case("a boiler at its beginning", "before each step stand holds of the whole job, joined pieces, named kinds, parts",
     "boiler", steps={"P1 receipt": blocked(), "B papers": blocked(),
     "L1 long": blocked("B papers QC", "P1 receipt QC"), "G1 girth": blocked("B papers QC", "P1 receipt QC",
     "L1 long QC AI", "P2 receipt QC", "F1 rods"), "G1 skim": blocked("B papers QC", "G1 girth QC AI"),
     "G1 wipe": blocked("G1 girth QC", "B papers QC"), "D1 stay": blocked("B papers QC", "G1 girth QC AI"),
     "K1 stay": blocked("B papers QC"), "B close": blocked("B papers QC", "D1 stay maker", "K1 stay maker"),
     "B test": blocked("B papers QC AI", "B close QC", "P1 receipt QC", "L1 long QC AI", "P2 receipt QC",
     "G1 girth QC AI", "G1 skim maker", "G1 wipe maker", "D1 stay maker", "K1 stay maker", "F1 rods", "X1 receipt QC")})

case("a piece made in place of one scrapped", "all that waited for the old piece waits for the new one", "remade",
     steps={"P1R receipt": blocked(), "L1 long": blocked("B papers QC", "P1R receipt QC"),
     "G1 girth": blocked("B papers QC", "L1 long QC AI", "P1R receipt QC", "P2 receipt QC", "F1 rods"),
     "B test": blocked("B papers QC AI", "B close QC", "L1 long QC AI", "P2 receipt QC", "G1 girth QC AI",
     "G1 skim maker", "G1 wipe maker", "D1 stay maker", "K1 stay maker", "F1 rods", "X1 receipt QC",
     "P1R receipt QC")})

case("the job's own hold released", "a hold whose reach is the job lets every later stage go", "boiler", PAPERS[0],
     PAPERS[1], steps={"B papers": state("complete", "AI", ""), "K1 stay": blocked(),
     "L1 long": blocked("P1 receipt QC"), "P1 receipt": blocked()})

case("the joined pieces' parts", "what a seam joins, with all its parts, is released first", "boiler", *PAPERS,
     *RECEIPTS, done("F1", "rods"), steps={"G1 girth": blocked("L1 long QC AI"), "L1 long": blocked(),
     "F1 rods": state("released", "", "")})

case("the whole release is asked", "'not before' asks for the release of the step, not for its hold alone", "boiler",
     *PAPERS, *RECEIPTS, done("F1", "rods"), done("L1", "long"), release("L1", "long"),
     steps={"L1 long": state("complete", "AI", "AI"), "G1 girth": blocked("L1 long AI")})

GIRTH = [*PAPERS, *RECEIPTS, done("F1", "rods"), *whole("L1", "long"), done("G1", "girth"), release("G1", "girth")]
case("the hold alone is asked", "of an earlier step of the same piece only the holds", "boiler", *GIRTH,
     steps={"G1 girth": state("complete", "AI", "", []), "G1 wipe": blocked(), "G1 skim": blocked("G1 girth AI"),
     "D1 stay": blocked("G1 girth AI"), "K1 stay": blocked()})

case("released whole", "when it is released whole, all that waited for it may begin", "boiler", *GIRTH,
     release("G1", "girth", "AI", "G1.girth.QC"),
     steps={"G1 skim": blocked(), "D1 stay": blocked(), "B close": blocked("D1 stay maker", "K1 stay maker"),
     "B test": blocked("B close QC", "G1 skim maker", "G1 wipe maker", "D1 stay maker", "K1 stay maker",
     "X1 receipt QC")}, relied_on={"L1 long": "B.papers.QC P1.receipt.QC L1.long.QC L1.long.AI",
     "B papers": "B.papers.QC B.papers.AI"})

case("under releases of other pieces", "a record names the releases of other pieces as well", "boiler", *GIRTH,
     look("x1", "G1 skim.look", under="B.papers.QC G1.girth.QC"),
     look("x2", "G1 wipe.look", under="B.papers.QC G1.girth.QC"), look("x3", "K1 stay.look", under="B.papers.QC"),
     look("x4", "D1 stay.look"), past_hold={"x1": ["G1 girth AI"], "x2": [], "x3": [],
     "x4": ["B papers QC", "G1 girth QC AI"]})

UP_TO_LONG = [*PAPERS, *RECEIPTS, done("F1", "rods"), done("L1", "long"), release("L1", "long")]
case("a witness whose release is asked whole", "there a notice is not enough", "boiler", *UP_TO_LONG,
     call("c1", "L1 long", "AI"),
     look("x1", "G1 girth.look", under="B.papers.QC P1.receipt.QC P2.receipt.QC L1.long.QC c1"),
     past_hold={"x1": ["L1 long AI"]}, flags={"G1": [["went past an open hold", "x1", "open"]]},
     steps={"L1 long": state("complete", "AI", ""), "G1 girth": state("complete", "QC AI", "QC", ["L1 long AI"])})

EARLY = sign("x1", "G1 girth", "G1.girth", "AI", under="B.papers.QC")
case("out of order, another piece's release not here", "it waits for what it names, of whatever piece", "boiler",
     done("G1", "girth"), EARLY, signoffs={"x1": "waiting for records"})

case("out of order, another piece's release here", "and is out of order once that has come", "boiler",
     done("G1", "girth"), EARLY, release("B", "papers"), signoffs={"x1": "out of order"})

case("the makers' word before", "where nobody releases the step before, the makers' sign is named", "boiler", *PAPERS,
     done("K1", "stay"), sign("m1", "K1 stay", "K1.stay", "maker"), done("D1", "stay"),
     look("x1", "B close.look", under="B.papers.QC m1"), past_hold={"x1": ["D1 stay maker"]},
     steps={"B close": state("complete", "QC", "QC", ["D1 stay maker"])})
