"""Cases: when an item is met, by its kind."""

# Laid out by hand, so that a case is read at a glance.
# fmt: off

from tests.vectors.progress_builder import (
    agree,
    case,
    dispose,
    look,
    photo,
    reading,
    report,
    sign,
    state,
    text,
    void,
    weld,
)

CLOCK, HOLES = "W1 check.clock", "W1 check.holes"


def round_the_clock(value: str = "0.5") -> list:
    return [reading(f"r{hour}", f"{CLOCK} {hour}", value) for hour in ("12", "3", "6", "9")]


case("stations missing", "every station asked for needs a record", "items", *round_the_clock()[:3],
     items={CLOCK: {"state": "started", "missing": ["9"], "in_force": {"12": ["r12"], "3": ["r3"], "6": ["r6"]}}})

case("every station", "with all of them it is met", "items", *round_the_clock(), items={CLOCK: "met"})

case("a station out", "one station out of tolerance flags the item", "items", *round_the_clock()[:3],
     reading("r9", f"{CLOCK} 9", "2"), items={CLOCK: {"state": "flagged", "missing": []}})

case("an extra station", "a station not asked for counts as well", "items", *round_the_clock(),
     reading("x1", f"{CLOCK} 7", "2"), items={CLOCK: "flagged"})

case("an extra station does not stand in", "but does not stand for one that is missing", "items",
     *round_the_clock()[:3], reading("x1", f"{CLOCK} 7", "0.5"), items={CLOCK: {"state": "started", "missing": ["9"]}})

case("two at one station", "each record in force at a station must be good", "items", *round_the_clock(),
     reading("r99", f"{CLOCK} 9", "2", by="ike"), items={CLOCK: "flagged"})

case("at least so many, none", "an open list says how many more are asked", "items",
     items={HOLES: {"state": "open", "missing": ["3 more"]}})

case("at least so many, too few", "two readings of one hole are one station", "items",
     reading("r1", f"{HOLES} A", "0.5"), reading("r2", f"{HOLES} A", "0.5", by="ike"),
     reading("r3", f"{HOLES} B", "0.5"), items={HOLES: {"state": "started", "missing": ["1 more"]}})

case("at least so many, more", "more than asked is met", "items",
     *[reading(f"r{hole}", f"{HOLES} {hole}", "0.5") for hole in "ABCD"],
     items={HOLES: {"state": "met", "missing": []}})

case("photo always", "where a photo is asked always, the item is not met without", "items",
     reading("r1", "W1 check.shown", "0.5"), items={"W1 check.shown": {"state": "started", "photo_missing": True,
     "missing": []}}, flags={"W1": [["photo missing", "r1", "open"]]})

case("photo taken", "with the photo it is", "items", reading("r1", "W1 check.shown", "0.5"),
     photo("p1", "W1 check.shown"), items={"W1 check.shown": {"state": "met", "photo_missing": False}},
     flags={"W1": []})

case("photo alone", "a photo does not stand for the reading", "items", photo("p1", "W1 check.shown"),
     items={"W1 check.shown": {"state": "open", "photo_missing": False, "missing": [""]}})

case("photo void", "a photo that is void is none", "items", reading("r1", "W1 check.shown", "0.5"),
     photo("p1", "W1 check.shown"), void("v1", "p1"),
     items={"W1 check.shown": {"state": "started", "photo_missing": True}})

case("photo when out, in", "where it is asked when out, a good reading needs none", "items",
     reading("r1", "W1 check.bad", "0.5"), items={"W1 check.bad": {"state": "met", "photo_missing": False}})

case("photo when out, out", "one that is out needs it, also when it is used as is", "items",
     reading("r1", "W1 check.bad", "2"), dispose("d1", "use as is", "r1"),
     items={"W1 check.bad": {"state": "started", "photo_missing": True}},
     flags={"W1": [["out of tolerance", "r1", "closed"], ["photo missing", "r1", "open"]]})

case("photo when out, taken", "with the photo it is met", "items", reading("r1", "W1 check.bad", "2"),
     dispose("d1", "use as is", "r1"), photo("p1", "W1 check.bad"),
     items={"W1 check.bad": {"state": "met", "photo_missing": False}})

case("a look", "accepted is met, rejected is flagged", "items", look("r1", "W1 check.clean"),
     look("r2", "W2 check.clean", "reject"), items={"W1 check.clean": "met", "W2 check.clean": "flagged"},
     flags={"W2": [["rejected", "r2", "open"]]})

case("does not apply, allowed", "'does not apply' is the plan's to allow", "items",
     look("r1", "W1 check.gasket", "does not apply"), items={"W1 check.gasket": "met"},
     verdicts={"r1": "does not apply"})

case("does not apply, not allowed", "where it does not, the record is unjudged and the item flagged", "items",
     look("r1", "W1 check.clean", "does not apply"), items={"W1 check.clean": "flagged"}, verdicts={"r1": "unjudged"},
     flags={"W1": [["unjudged", "r1", "open"]]})

case("only if", "an item asked only of some is asked by the piece's own figure before the job's", "items",
     items={"W1 check.telltale": "not asked", "W2 check.telltale": "open"})

case("only if, figure missing", "a figure that is missing leaves it asked", "items", items={"W1 check.vent": "open"})

case("text, weld, report, photo", "each kind is met by its own record, complete", "items",
     text("r1", "W1 check.heat", "H 4711"), weld("r2", "W1 check.cap"), report("r3", "W1 check.mtr"),
     photo("r4", "W1 check.snap"), text("r5", "W2 check.heat", "  "), weld("r6", "W2 check.cap", lot=""),
     report("r7", "W2 check.mtr", None), text("r8", "W2 check.snap", "see photo"),
     items={"W1 check.heat": "met", "W1 check.cap": "met", "W1 check.mtr": "met", "W1 check.snap": "met",
     "W2 check.heat": "started", "W2 check.cap": "started", "W2 check.mtr": "started", "W2 check.snap": "open"},
     verdicts={"r1": "complete", "r5": "incomplete", "r6": "incomplete", "r7": "incomplete"}, flags={"W2": []})

case("a report rejected", "a report that came back bad is flagged", "items", report("r1", "W1 check.mtr", "reject"),
     items={"W1 check.mtr": "flagged"}, flags={"W1": [["rejected", "r1", "open"]]})

case("a report asked for and in", "the record that it is asked for is replaced by the one that it is in", "items",
     report("r1", "W1 check.mtr", None), report("r2", "W1 check.mtr", replaces="r1", why="measured again"),
     items={"W1 check.mtr": "met"}, standing={"r1": "replaced"})

case("a dimension without limits", "it is recorded, and good", "items", reading("r1", "W1 check.width", "41 3/8"),
     items={"W1 check.width": "met"}, verdicts={"r1": "recorded"}, flags={"W1": []})

case("a limit not known", "a figure that is missing leaves the reading unjudged", "items",
     reading("r1", "W1 check.land", "1/16", gauge="rule"), items={"W1 check.land": "flagged"},
     verdicts={"r1": "unjudged"}, flags={"W1": [["unjudged", "r1", "open"]]})

case("guarded", "in only inside by the gauge's uncertainty, out only outside by it", "items",
     reading("r1", "W1 check.fine", "0.99", gauge="cal"), reading("r2", "W1 check.fine", "0.995", gauge="cal"),
     reading("r3", "W1 check.fine", "1.011", gauge="cal"), reading("r4", "W1 check.fine", "0.5", gauge="bare"),
     reading("r5", "W1 check.fine", "0.5", gauge="lost"), reading("r6", "W1 check.fine", "0.5"),
     verdicts={"r1": "in tolerance", "r2": "too close to call", "r3": "out of tolerance", "r4": "unjudged",
     "r5": "unjudged", "r6": "unjudged"}, flags={"W1": [["out of tolerance", "r3", "open"],
     ["too close to call", "r2", "open"], ["unjudged", "r4", "open"], ["unjudged", "r5", "open"],
     ["unjudged", "r6", "open"]]})

case("rounded before it is judged", "by the rounding method where the plan states the place", "items",
     reading("r1", "W1 check.yield", "35950", uom="psi"), reading("r2", "W2 check.yield", "35949", uom="psi"),
     verdicts={"r1": "in tolerance", "r2": "out of tolerance"})

case("not a number", "what cannot be read is kept and unjudged", "items", reading("r1", "W1 check.bad", "1/2 or so"),
     verdicts={"r1": "unjudged"}, items={"W1 check.bad": "flagged"})

case("the gauge ran out", "a gauge past its due day is flagged, its last day is not", "items",
     reading("r1", "W1 check.bad", "0.5", gauge="cal", at="2026-03-06T23:59:00-06:00"),
     reading("r2", "W1 check.width", "0.5", gauge="cal", at="2026-03-07T00:01:00-06:00"),
     flags={"W1": [["gauge ran out", "r2", "open"]]})

case("the gauge too coarse", "as is one whose uncertainty is over a quarter of the tolerance", "items",
     reading("r1", "W1 check.bad", "0.5", gauge="coarse"), flags={"W1": [["gauge too coarse", "r1", "open"]]},
     items={"W1 check.bad": "met"})

case("phone and server differ", "a verdict the phone foretold otherwise is flagged", "items",
     reading("r1", "W1 check.bad", "0.5", foretold="in tolerance"),
     reading("r2", "W2 check.fine", "2", gauge="cal", foretold="in tolerance"),
     flags={"W1": [], "W2": [["out of tolerance", "r2", "open"], ["phone and server differ", "r2", "open"]]})

# Worked out from readings

DIA, INSIDE = "T1 hole.dia", "T1 roll.inside"
PLAY, TWICE = "T1 roll.play", "T1 roll.twice"
A, B = "14-7", "14-8"
HOLE = [reading("h1", f"{DIA} {A}", "2.5"), reading("h2", f"{DIA} {B}", "2.5")]
HOLED = sign("s0", "T1 hole", "h1 h2")
ROLLED = [reading("i1", f"{INSIDE} {A}", "2.59", under="s0"), reading("i2", f"{INSIDE} {B}", "2.58", under="s0")]
TUBE = [*HOLE, HOLED, *ROLLED]
S1 = sign("s1", "T1 roll", "h1 h2 i1 i2", under="s0")

case("worked out across steps", "a value is worked out by station, from another step's readings too", "tubes", *TUBE,
     items={PLAY: {"state": "met", "derived": {A: ["0.09", "in tolerance"], B: ["0.08", "in tolerance"]}},
     TWICE: {"state": "met", "derived": {A: ["0.18", "in tolerance"], B: ["0.16", "in tolerance"]}}},
     steps={"T1 roll": state("complete", "QC", "QC")}, flags={"T1": []})

case("worked out and released", "a sign-off covers the readings of other steps it rests upon", "tubes", *TUBE, S1,
     signoffs={"s1": "valid"}, steps={"T1 roll": "released"}, covered={"T1 roll": "h1 h2 i1 i2"})

case("an input missing", "where an input is missing the value is open", "tubes", *TUBE[:4],
     items={PLAY: {"state": "started", "missing": [B], "derived": {A: ["0.09", "in tolerance"], B: [None, "open"]}}})

case("no input", "with none at all the item is open", "tubes",
     items={PLAY: {"state": "open", "missing": [A, B], "derived": {A: [None, "open"], B: [None, "open"]}}})

case("worked out and out", "a value out of tolerance flags the item, by the newest reading it came from", "tubes",
     *HOLE, HOLED, ROLLED[0], reading("i2", f"{INSIDE} {B}", "2.75", under="s0"),
     items={PLAY: {"state": "flagged", "derived": {A: ["0.09", "in tolerance"], B: ["0.25", "out of tolerance"]}}},
     flags={"T1": [["out of tolerance", "i2", "open"], ["out of tolerance", "i2", "open"]]})

OUT_AT_B = [*HOLE, HOLED, ROLLED[0], reading("i2", f"{INSIDE} {B}", "2.63", under="s0")]
case("a value used as is", "a disposition of a value names its item and station, and whoever must agree agrees",
     "tubes", *OUT_AT_B, dispose("d1", "use as is", "i2", where=f"{PLAY} {B}"),
     items={PLAY: "flagged", TWICE: "flagged"},
     flags={"T1": [["out of tolerance", "i2", "decided", "d1"], ["out of tolerance", "i2", "open", ""]]})

case("a doubt about a value worked out", "a word about a doubt accepts no value that was worked out", "tubes",
     *OUT_AT_B, dispose("d1", "use as is", "i2", where=f"{TWICE} {B}", flag="run rule broken"),
     items={TWICE: "flagged"})

BY_SUE = reading("h2", f"{DIA} {B}", "2.5", by="sue")
case("a value of one's own input", "who took one of the readings behind a value does not decide about it",
     "tubes_of_two", HOLE[0], BY_SUE, HOLED, ROLLED[0], OUT_AT_B[-1],
     dispose("d1", "use as is", "i2", where=f"{TWICE} {B}"), items={TWICE: "flagged"},
     flags_include={"T1": [["role in doubt", "d1", "open"]]})

case("a value of others' inputs", "who took none of them does, nor does a reading at another station count",
     "tubes_of_two", reading("h1", f"{DIA} {A}", "2.5", by="sue"), HOLE[1], HOLED, ROLLED[0], OUT_AT_B[-1],
     dispose("d1", "use as is", "i2", where=f"{TWICE} {B}"), items={TWICE: "met"})

case("a value of one's own input, made void", "a reading that is void is nobody's", "tubes_of_two", HOLE[0],
     reading("h0", f"{DIA} {B}", "2.5", by="sue"), void("v1", "h0", by="sue", where="T1"), *OUT_AT_B[1:],
     dispose("d1", "use as is", "i2", where=f"{TWICE} {B}"), items={TWICE: "met"})

AGREED = [dispose("d1", "use as is", "i2", where=f"{PLAY} {B}", seen="out of tolerance"),
    agree("e1", "d1", "engineering", "eve", where="T1"), dispose("d2", "use as is", "i2", where=f"{TWICE} {B}")]
case("a value used as is, agreed", "then the item is met, and the step may be signed", "tubes", *OUT_AT_B, *AGREED,
     sign("s1", "T1 roll", "h1 h2 i1 i2 d1 e1 d2", under="s0"), items={PLAY: "met", TWICE: "met"},
     signoffs={"s1": "valid"}, covered={"T1 roll": "h1 h2 i1 i2 d1 e1 d2"},
     flags={"T1": [["out of tolerance", "i2", "closed", "d1"], ["out of tolerance", "i2", "closed", "d2"]]})

case("a release over a value of which one's own input is void", "nor does it hold up a release that lists none of it",
     "tubes_of_two", HOLE[0], reading("h0", f"{DIA} {B}", "2.5", by="sue"), void("v1", "h0", by="sue", where="T1"),
     *OUT_AT_B[1:], *AGREED, sign("s1", "T1 roll", "h1 h2 i1 i2 d1 e1 d2", under="s0"), items={PLAY: "met"},
     signoffs={"s1": "valid"})

case("a value used as is does not cover the reading", "it is about the value, not about the reading it names", "tubes",
     *HOLE, HOLED, ROLLED[0], reading("i2", f"{INSIDE} {B}", "3.5", under="s0"),
     dispose("d1", "use as is", "i2", where=f"{TWICE} {B}"), items={INSIDE: "flagged", PLAY: "flagged", TWICE: "met"},
     flags_include={"T1": [["out of tolerance", "i2", "open"]]})

case("a value used as is, measured again", "it lapses with a new reading", "tubes", *OUT_AT_B, *AGREED,
     reading("i3", f"{INSIDE} {B}", "2.64", replaces="i2", why="measured again", under="s0"),
     items={PLAY: "flagged", TWICE: "flagged"})

case("readings that disagree", "a value worked out from readings that disagree is unjudged", "tubes", *TUBE,
     reading("h3", f"{DIA} {B}", "2.51", by="ike"),
     items={DIA: "met", PLAY: {"state": "flagged", "derived": {A: ["0.09", "in tolerance"], B: [None, "unjudged"]}}},
     flags={"T1": [["readings disagree", "i2", "open"], ["entry after release", "h3", "open"]]})

case("readings that agree", "two that agree are one", "tubes", *TUBE, reading("h3", f"{DIA} {B}", "2.50", by="ike"),
     items={PLAY: "met"})

case("readings that disagree, after the release", "a good reading that leaves a value unjudged shakes the release",
     "tubes", *TUBE, S1, reading("h3", f"{DIA} {B}", "2.51", by="ike"), signoffs={"s0": "valid", "s1": "shaken"},
     steps={"T1 hole": "released", "T1 roll": state("flagged", "QC", "QC")})

case("the disagreeing one made void", "which does not come back by itself", "tubes", *TUBE, S1,
     reading("h3", f"{DIA} {B}", "2.51", by="ike"), void("v1", "h3", by="ike", where="T1"), signoffs={"s1": "shaken"},
     items={PLAY: "met"}, steps={"T1 roll": state("complete", "QC", "QC")})

case("an agreeing one, after the release", "one that leaves the value as it is changes nothing", "tubes", *TUBE, S1,
     reading("h3", f"{DIA} {B}", "2.50", by="ike"), signoffs={"s1": "valid"}, steps={"T1 roll": "released"})

case("another step asked again", "a repair that names the step its readings came from undoes the release", "tubes",
     *TUBE, S1, dispose("d1", "repair", "i9", where="T1", again="hole"), signoffs={"s0": "asked again", "s1": "shaken"},
     items={PLAY: "open", INSIDE: "met"})

FRONT, REAR = "front", "rear"
ROUND = [reading(f"o{place.replace(' ', '')}", f"S1 round.od {place}", value) for place,
    value in (("front 0", "60"), ("front 90", "60.54"), ("rear 0", "60"), ("rear 90", "60.56"))]
case("over the places of an end", "a value of an end takes the places called like it, rounded where the plan says so",
     "tubes", *ROUND, items={"S1 round.oval": {"state": "flagged",
     "derived": {FRONT: ["0.54", "in tolerance"], REAR: ["0.56", "out of tolerance"]}},
     "S1 round.strict": {"state": "met", "derived": {FRONT: ["60.54", "in tolerance"],
     REAR: ["60.56", "in tolerance"]}}})

case("one place only", "a spread of one reading is open", "tubes", ROUND[0],
     items={"S1 round.oval": {"state": "open", "missing": [FRONT, REAR]},
     "S1 round.strict": {"state": "started", "missing": [REAR]}})

case("readings of one place that disagree", "the largest of two that disagree at one place is unjudged too", "tubes",
     *ROUND[:3], reading("o9", "S1 round.od rear 0", "61", by="ike"),
     items={"S1 round.strict": {"state": "flagged", "derived": {FRONT: ["60.54", "in tolerance"],
     REAR: [None, "unjudged"]}}}, flags_include={"S1": [["readings disagree", "orear0", "open"]]})
