"""Cases: doubts and the words that close them, witnesses who had no notice, and who may not decide about a finding."""

# Laid out by hand, so that a case is read at a glance.
# fmt: off

from tests.vectors.progress_builder import (
    agree,
    call,
    case,
    dispose,
    look,
    photo,
    reading,
    set_point,
    sign,
    state,
    void,
    weld,
)

FIT, GAP, IN, BAD = "W1 fit", "W1 fit.gap", "3/32", "1/4"
OUT, RAN_OUT, NO_PHOTO = "out of tolerance", "gauge ran out", "photo missing"
NO_NOTICE, PAST, ROLE = "witness without notice", "went past an open hold", "role in doubt"
R1 = reading("r1", GAP, IN)

# A word is about one kind of flag

LATE = "2026-03-07T08:00:00-06:00"
SHOWN = "W1 check.shown"
LAND = "W1 fit.shop"
OLD = reading("r1", LAND, BAD, gauge="hi-lo", at=LATE)

case("a doubt beside a finding", "a word about the finding says nothing of the gauge", "limits", OLD,
     dispose("d1", "use as is", "r1"), items={LAND: "met"},
     flags={"W1": [[OUT, "r1", "closed", "d1"], [RAN_OUT, "r1", "open", ""]]})

case("a finding beside a doubt", "and a word about the gauge does not accept the finding", "limits", OLD,
     dispose("d1", "use as is", "r1", flag=RAN_OUT), items={LAND: "flagged"},
     flags={"W1": [[OUT, "r1", "open", ""], [RAN_OUT, "r1", "closed", "d1"]]})

case("a finding and a doubt", "each by its own word", "limits", OLD, dispose("d1", "use as is", "r1"),
     dispose("d2", "use as is", "r1", flag=RAN_OUT), items={LAND: "met"},
     flags={"W1": [[OUT, "r1", "closed", "d1"], [RAN_OUT, "r1", "closed", "d2"]]})

case("measured again for the gauge's sake", "what asks for a new reading asks it of the finding as well", "limits", OLD,
     dispose("d1", "rework", "r1", flag=RAN_OUT), items={LAND: "flagged"},
     flags={"W1": [[OUT, "r1", "decided", "d1"], [RAN_OUT, "r1", "decided", "d1"]]})

case("reworked for the finding's sake", "the doubt is closed with the new reading", "limits", OLD,
     dispose("d1", "rework", "r1"),
     reading("r2", LAND, IN, gauge="hi-lo", replaces="r1", why="after rework", under="d1"), items={LAND: "met"},
     flags={"W1": [[OUT, "r1", "closed", "d1"], [RAN_OUT, "r1", "closed"]]})

case("a word about a key's line", "nor does a word about what only the server sees accept a finding", "gap",
     reading("r1", GAP, BAD), dispose("d1", "use as is", "r1", flag="chain gap"), items={GAP: "flagged"},
     flags={"W1": [[OUT, "r1", "open", ""]]})

case("past a hold, a word about its finding", "a word about a finding does not close what went past a hold", "line",
     R1, look("r3", "W1 done.look", "reject"), dispose("d1", "use as is", "r3", flag="rejected"),
     flags={"W1": [[PAST, "r3", "open", ""], ["rejected", "r3", "closed", "d1"]]})

case("past a hold, a word about it", "a word about that does", "line", R1, look("r3", "W1 done.look"),
     dispose("d1", "use as is", "r3", flag=PAST), flags={"W1": [[PAST, "r3", "closed", "d1"]]})

# A photo that is missing

S1 = reading("r1", SHOWN, "0.5")
case("photo missing, a word about it", "the flag names the record, and a word about it closes it; the item stays unmet",
     "items", S1, dispose("d1", "use as is", "r1", flag=NO_PHOTO),
     items={SHOWN: {"state": "started", "photo_missing": True}}, flags={"W1": [[NO_PHOTO, "r1", "closed", "d1"]]})

case("photo missing, a word about another kind", "a word about another kind of flag does not", "items", S1,
     dispose("d1", "use as is", "r1"), flags={"W1": [[NO_PHOTO, "r1", "open", ""]]})

case("photo missing, a word about the finding", "nor one about the finding", "items",
     reading("r1", "W1 check.bad", "2"), dispose("d1", "use as is", "r1"),
     flags={"W1": [[OUT, "r1", "closed", "d1"], [NO_PHOTO, "r1", "open", ""]]})

case("photo missing, of two records", "it names the newest record in force", "items", S1,
     reading("r2", SHOWN, "0.6", by="ike"), reading("r3", SHOWN, "0.7", by="ike"), void("v1", "r3", by="ike"),
     dispose("d1", "use as is", "r1", flag=NO_PHOTO), flags={"W1": [[NO_PHOTO, "r2", "open", ""]]})

case("photo missing, taken", "with the photo there is no flag", "items", S1,
     dispose("d1", "rework", "r1", flag=NO_PHOTO), photo("p1", SHOWN), flags={"W1": []})

# Witnesses

M1 = sign("m1", FIT, "", "maker")
Q1 = sign("q1", FIT, "r1", under="m1")
ROOT = "W1 weld.root"

case("past a witness without notice", "work that went past a witness who had no notice is told as that", "line", R1,
     M1, Q1, weld("w1", ROOT, under="q1"), past_hold={"w1": ["W1 fit AI"]}, flags={"W1": [[NO_NOTICE, "w1", "open"]]})

case("past a witness, a word about it", "a word about it closes it", "line", R1, M1, Q1, weld("w1", ROOT, under="q1"),
     dispose("d1", "use as is", "w1", flag=NO_NOTICE), flags={"W1": [[NO_NOTICE, "w1", "closed", "d1"]]})

case("past a witness, a word about a hold", "a word about another kind does not", "line", R1, M1, Q1,
     weld("w1", ROOT, under="q1"), dispose("d1", "use as is", "w1", flag=PAST),
     flags={"W1": [[NO_NOTICE, "w1", "open", ""]]})

case("past a witness, then replaced", "nor does a replacement", "line", R1, M1, Q1, weld("w1", ROOT, under="q1"),
     weld("w2", ROOT, under="q1 c1", replaces="w1", why="slip"), call("c1", FIT),
     flags={"W1": [[NO_NOTICE, "w1", "open"]]})

case("past a hold and a witness", "past a hold as well it went past a hold", "line", R1, M1, weld("w1", ROOT),
     flags={"W1": [[PAST, "w1", "open"]]})

case("past a witness who set a hold", "a witness point made a hold is a hold", "line", R1, M1, Q1,
     set_point("x1", FIT, "H"), weld("w1", ROOT, under="q1"), flags={"W1": [[PAST, "w1", "open"]]})

ABSENT = "not attended after notice"
case("not attended, no notice, told as that", "so is a sign-off for want of attendance without notice", "line",
     R1, M1, Q1, sign("a1", FIT, "r1", "AI", by="ivy", attendance=ABSENT, under="m1 q1"),
     signoffs={"a1": "no notice was given"}, flags={"W1": [[NO_NOTICE, "a1", "open"]]})

case("not attended, no notice, signed since", "and is closed once the witness has signed", "line", R1, M1, Q1,
     sign("a1", FIT, "r1", "AI", by="ivy", attendance=ABSENT, under="m1 q1"),
     sign("a2", FIT, "r1", "AI", under="m1 q1"), signoffs={"a2": "valid"},
     flags={"W1": [[NO_NOTICE, "a1", "closed"]]})

AT_WIPE = sign("a1", "W1 weld", "w1", "AI", by="ivy", attendance=ABSENT, under="m2 q1")
case("past one witness and without notice to another", "both at one sign-off are one flag", "line", R1, M1, Q1,
     set_point("x1", "W1 weld", "W"), weld("w1", ROOT, under="q1 c1"), call("c1", FIT),
     sign("m2", "W1 weld", "w1", "maker", by="wes", under="q1 c1"), AT_WIPE,
     signoffs={"a1": "no notice was given"}, flags={"W1": [[NO_NOTICE, "a1", "open"]]},
     flags_say={"W1": [[NO_NOTICE, "a1", "W1 1.1", None]]})

# Findings of one's own

OWN = reading("r1", GAP, BAD, by="sue", basis="B1")
BY_IVY = reading("r1", GAP, BAD, basis="B1")
USED = dispose("d1", "use as is", "r1", basis="B1")

case("a finding of another", "where the plan asks for a second person another's finding is decided as ever",
     "two_persons", BY_IVY, photo("p1", GAP, basis="B1"), USED, items={GAP: "met"},
     flags={"W1": [[OUT, "r1", "closed", "d1"]]})

case("a finding of one's own", "one's own has no effect, and is flagged", "two_persons", OWN,
     photo("p1", GAP, basis="B1"), USED, items={GAP: "flagged"},
     flags={"W1": [[OUT, "r1", "open", ""], [ROLE, "d1", "open"]]},
     flags_say={"W1": [[ROLE, "d1", "disposes of own finding", None]]}, covered={FIT: "p1 r1"})

case("a finding of one's own, one of two", "nor where one of several is one's own", "two_persons", OWN,
     reading("r2", GAP, BAD, basis="B1"), dispose("d1", "use as is", "r1 r2", basis="B1"), items={GAP: "flagged"},
     flags={"W1": [[OUT, "r1", "open", ""], [OUT, "r2", "open", ""], [ROLE, "d1", "open"],
     [NO_PHOTO, "r2", "open"]]})

case("one's own rework", "rework and scrap have none either", "two_persons", OWN, photo("p1", GAP, basis="B1"),
     dispose("d1", "scrap", "r1", basis="B1"), dispose("d2", "rework", "r1", basis="B1", again="fit"),
     stopped=[], standing={"r1": "in force"}, items={GAP: "flagged"},
     flags={"W1": [[OUT, "r1", "open", ""], [ROLE, "d1", "open"], [ROLE, "d2", "open"]]})

case("one's own weld, logged by another", "of a pass the welder named counts as well", "two_persons",
     weld("w1", ROOT, by="ivy", welder="sue", basis="B1"), dispose("d1", "rework", "w1", flag=PAST, basis="B1"),
     flags={"W1": [[PAST, "w1", "open", ""], [ROLE, "d1", "open"]]})

case("a word about one's own word", "nor can one confirm one's own decision", "two_persons", OWN,
     photo("p1", GAP, basis="B1"), USED, dispose("d2", "use as is", "d1", flag=ROLE, basis="B1"),
     flags={"W1": [[OUT, "r1", "open"], [ROLE, "d1", "open"], [ROLE, "d2", "open"]]})

case("another's word about it", "another may", "two_persons", OWN, photo("p1", GAP, basis="B1"), USED,
     dispose("d2", "use as is", "d1", flag=ROLE, by="sam", basis="B1"),
     flags={"W1": [[OUT, "r1", "open"], [ROLE, "d1", "closed", "d2"]]})

case("one's own, made void", "one that is void is closed", "two_persons", OWN, photo("p1", GAP, basis="B1"), USED,
     void("v1", "d1", by="sue", basis="B1"), flags={"W1": [[OUT, "r1", "open"], [ROLE, "d1", "closed"]]})

M = sign("m1", FIT, "", "maker", basis="B1")
Q = sign("q1", FIT, "r1 p1", under="m1", basis="B1")
case("a release and one's own rework", "what has no effect does not undo a release, nor send the maker back",
     "two_persons", reading("r1", GAP, IN, by="sue", basis="B1"), photo("p1", GAP, basis="B1"), M, Q,
     dispose("d1", "rework", "r1", basis="B1", again="fit"), signoffs={"m1": "valid", "q1": "valid"},
     steps={FIT: "released"})

case("a release over one's own word", "nor does it release", "two_persons", OWN, photo("p1", GAP, basis="B1"), M, USED,
     sign("q1", FIT, "r1 p1 d1", under="m1", basis="B1"), signoffs={"q1": "step was not met"})

case("a release over a word about more than it covers", "whatever of it a sign-off lists", "two_persons",
     reading("r2", "W1 weld.other", IN, by="sue", basis="B1"), BY_IVY, photo("p1", GAP, basis="B1"), M,
     dispose("d1", "use as is", "r1 r2", basis="B1"), sign("q1", FIT, "r1 p1 d1", under="m1", basis="B1"),
     signoffs={"q1": "step was not met"}, items={GAP: "flagged"})

case("by a later revision", "it counts by the revision that the disposition names", "two_persons",
     reading("r1", GAP, BAD, by="sue", basis="C1"), photo("p1", GAP, basis="C1"),
     dispose("d1", "use as is", "r1", basis="C1"), items={GAP: "met"}, flags={"W1": [[OUT, "r1", "closed", "d1"]]})

case("by an older revision", "and by the one in force: naming an older one gets nobody round it", "rule_brought_in",
     reading("r1", GAP, BAD, by="sue", basis="B1"), photo("p1", GAP, basis="B1"),
     dispose("d1", "use as is", "r1", basis="A1"), items={GAP: "flagged"},
     flags={"W1": [[OUT, "r1", "open"], [ROLE, "d1", "open"]]})

case("by who welded there", "who welded at the step cannot give the finding away either", "two_persons",
     weld("w1", GAP, by="sue", basis="B1"), reading("r1", GAP, BAD, by="ivy", basis="B1"),
     photo("p1", GAP, basis="B1"), dispose("d1", "use as is", "r1", basis="B1"), items={GAP: "flagged"},
     flags_include={"W1": [[OUT, "r1", "open"], [ROLE, "d1", "open"]]})

case("by a revision that is not here", "and by the one in force where that is not known", "two_persons",
     reading("r1", GAP, BAD, by="sue", basis="C1"), photo("p1", GAP, basis="C1"),
     dispose("d1", "use as is", "r1", basis="Z1"), items={GAP: "met"})

case("agreed to, one's own", "an agreement gives it no effect", "two_persons", OWN, photo("p1", GAP, basis="B1"), USED,
     agree("e1", "d1", "engineering", "eve", basis="B1"), items={GAP: "flagged"})

case("where no plan asks it", "elsewhere one's own finding is decided as ever", "gap",
     reading("r1", GAP, BAD, by="sue"), dispose("d1", "use as is", "r1"), items={GAP: "met"},
     flags={"W1": [[OUT, "r1", "closed", "d1"]]}, steps={FIT: state("complete", "QC", "QC")})

# A doubt that is seen gives no limit away

CODE, DRAWING = "W1 fit.code", "W1 fit.drawing"
LATE_CODE = reading("r1", CODE, IN, gauge="hi-lo", at=LATE)
SEEN = dispose("d1", "use as is", "r1", flag=RAN_OUT)
OTHERS = reading("g1", LAND, IN), reading("g2", DRAWING, IN)

case("a doubt about a code limit", "of a doubt that is seen nobody else has to agree", "limits", LATE_CODE, SEEN,
     items={CODE: "met"}, flags={"W1": [[RAN_OUT, "r1", "closed", "d1"]]})

case("a finding on a code limit", "of a finding they have", "limits",
     reading("r1", CODE, BAD, gauge="hi-lo"), dispose("d1", "use as is", "r1"), items={CODE: "flagged"},
     flags={"W1": [[OUT, "r1", "decided", "d1"]]})

case("a doubt seen after the release", "and no release is touched", "limits", LATE_CODE, *OTHERS,
     sign("s1", FIT, "r1 g1 g2"), SEEN, signoffs={"s1": "valid"}, steps={FIT: state("released", "", "")},
     flags={"W1": [[RAN_OUT, "r1", "closed", "d1"]]})

case("a doubt that asks for another reading", "what asks for a new reading does touch it", "limits", LATE_CODE, *OTHERS,
     sign("s1", FIT, "r1 g1 g2"), dispose("d1", "rework", "r1", flag=RAN_OUT), signoffs={"s1": "shaken"})


case("a word about a piece that is in no plan", "it settles the finding and raises no flag of its own", "gap",
     reading("r1", "Z9 fit.gap", IN), dispose("d1", "use as is", "r1", where="Z9", flag="not in the plan"),
     flags={"Z9": [["not in the plan", "r1", "closed", "d1"]]})

case("past a hold, worked again", "what asks for it anew is done once it is there", "line", R1,
     look("r3", "W1 done.look", "accept"), dispose("d1", "rework", "r3", flag=PAST),
     look("r4", "W1 done.look", "accept", replaces="r3", why="after rework", under="d1"),
     flags={"W1": [[PAST, "r3", "closed", "d1"], [PAST, "r4", "open"]]})

case("not attended, no notice, seen", "a word closes it", "line",
     R1, M1, Q1, sign("a1", FIT, "r1", "AI", by="ivy", attendance=ABSENT, under="m1 q1"),
     dispose("d1", "use as is", "a1", flag=NO_NOTICE), signoffs={"a1": "no notice was given"},
     flags={"W1": [[NO_NOTICE, "a1", "closed", "d1"]]})

REPAIRED_TWO = [reading("r1", LAND, BAD), reading("r2", DRAWING, BAD), dispose("d1", "repair", "r1", cycle=4),
                dispose("d2", "repair", "r2", cycle=9)]
case("two findings repaired", "what was found side by side is one cycle, whatever number a repair claims", "limits",
     *REPAIRED_TWO, repairs={"W1": 1}, next_repair={"r1": 1, "r2": 1})

case("two findings repaired, one of them twice", "what replaces a repaired finding is the next cycle", "limits",
     *REPAIRED_TWO, reading("r3", LAND, BAD, replaces="r1", why="after repair"), dispose("d3", "repair", "r3"),
     reading("r4", LAND, BAD, replaces="r3", why="after repair"), repairs={"W1": 2}, next_repair={"r4": 3, "r2": 1})

case("repaired, recorded anew, repaired", "a finding made void takes back no word about it", "limits",
     reading("r1", LAND, BAD), dispose("d1", "repair", "r1"), void("v1", "r1"), reading("r2", LAND, BAD),
     dispose("d2", "repair", "r2"), repairs={"W1": 2}, next_repair={"r2": 2})

case("found elsewhere after a repair", "what names the repair came after it", "limits",
     reading("r1", LAND, BAD), dispose("d1", "repair", "r1"), reading("r2", DRAWING, BAD, under="d1"),
     dispose("d2", "repair", "r2"), repairs={"W1": 2}, next_repair={"r2": 2})

A, B = reading("r1", LAND, BAD), reading("r2", LAND, BAD, replaces="r1", why="after repair", under="d1")
FIRST = dispose("d1", "repair", "r1")
case("one word about both findings of a place", "a word that names the first finding again hides no cycle", "limits",
     A, FIRST, B, dispose("d2", "repair", "r1 r2"), repairs={"W1": 2}, next_repair={"r2": 2})

case("a repair made void once it was done", "it was done all the same", "limits", A, FIRST, B,
     void("v1", "d1", by="sue"), dispose("d2", "repair", "r2"), repairs={"W1": 2}, next_repair={"r2": 2})

case("a repair made void before it was done", "it counts for nothing", "limits", A, FIRST, void("v1", "d1", by="sue"),
     dispose("d2", "repair", "r1"), repairs={"W1": 1}, next_repair={"r1": 1})

case("a repair by who may not", "nor does one without effect, though a record names it", "limits", A,
     dispose("d1", "repair", "r1", by="ivy", role="not held"), B, repairs={"W1": 0}, next_repair={"r2": 1})

case("a repair done, the record of it made void", "what is void tells of no repair", "limits", A, FIRST, B,
     void("v1", "d1", by="sue"), void("v2", "r2"), repairs={"W1": 0})

case("a repair scrapped after it was done", "it was done all the same", "limits", A, FIRST, B,
     dispose("d0", "scrap", "r1"), repairs={"W1": 1})

case("repairs that name each other", "a circle of words ends", "limits",
     reading("r1", LAND, BAD, under="d2"), reading("r2", DRAWING, BAD, under="d1"), dispose("d1", "repair", "r1"),
     dispose("d2", "repair", "r2"), repairs={"W1": 2})
