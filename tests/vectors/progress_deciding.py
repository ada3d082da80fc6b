"""Cases: dispositions and what they ask, agreements, repairs, scrap, and what was mended on the spot."""

# Laid out by hand, so that a case is read at a glance.
# fmt: off

from tests.vectors.progress_builder import (
    agree,
    case,
    dispose,
    look,
    reading,
    report,
    sign,
    state,
    void,
    weld,
)

FIT, GAP, IN, BAD = "W1 fit", "W1 fit.gap", "3/32", "1/4"
OUT = "out of tolerance"
SHOP, DRAWING, CODE = "W1 fit.shop", "W1 fit.drawing", "W1 fit.code"
GOOD = {"shop": reading("g1", SHOP, IN), "drawing": reading("g2", DRAWING, IN),
    "code": reading("g3", CODE, IN, gauge="hi-lo")}
B1, B2, B3 = reading("b1", SHOP, BAD), reading("b2", DRAWING, BAD), reading("b3", CODE, BAD, gauge="hi-lo")
R1, BAD1 = reading("r1", GAP, IN), reading("r1", GAP, BAD)
S1 = sign("s1", FIT, "r1")

# Use as is, and who must agree

case("use as is on a shop limit", "on a shop's own limit the supervisor's word is enough", "limits", B1,
     GOOD["drawing"], GOOD["code"], dispose("d1", "use as is", "b1", seen=OUT), sign("s1", FIT, "b1 g2 g3 d1"),
     items={SHOP: "met"}, steps={FIT: state("released", "", "")}, signoffs={"s1": "valid"},
     flags={"W1": [[OUT, "b1", "closed", "d1"]]}, covered={FIT: "b1 g2 g3 d1"})

case("signed without the use as is", "a sign-off must list the disposition it relies on", "limits", B1, GOOD["drawing"],
     GOOD["code"], dispose("d1", "use as is", "b1"), sign("s1", FIT, "b1 g2 g3"), signoffs={"s1": "step was not met"})

case("use as is on a drawing limit", "a drawing's limit needs engineering", "limits", B2,
     dispose("d1", "use as is", "b2"), items={DRAWING: "flagged"}, flags={"W1": [[OUT, "b2", "decided", "d1"]]})

case("engineering agrees", "with its agreement it has effect", "limits", B2, dispose("d1", "use as is", "b2"),
     agree("e1", "d1", "engineering", "eve"), items={DRAWING: "met"}, flags={"W1": [[OUT, "b2", "closed", "d1"]]})

case("an agreement to another disposition", "an agreement is to one disposition", "limits", B2,
     dispose("d1", "use as is", "b2"), agree("e1", "d2", "engineering", "eve"),
     agree("e2", "d0", "engineering", "eve"), items={DRAWING: "flagged"})

case("an agreement without the role", "by who may not agree it has no effect, and is flagged", "limits", B2,
     dispose("d1", "use as is", "b2"), agree("e1", "d1", "engineering", "sam", role="not held"),
     items={DRAWING: "flagged"}, flags={"W1": [[OUT, "b2", "decided", "d1"], ["role in doubt", "e1", "open", ""]]})

case("use as is on a code limit", "a code's limit needs engineering and the AI", "limits", B3,
     dispose("d1", "use as is", "b3"), agree("e1", "d1", "engineering", "eve"), items={CODE: "flagged"},
     flags={"W1": [[OUT, "b3", "decided", "d1"]]})

case("engineering and the AI agree", "with both it has effect", "limits", B3, dispose("d1", "use as is", "b3"),
     agree("e1", "d1", "engineering", "eve"), agree("e2", "d1", "AI", "abe"), items={CODE: "met"},
     flags={"W1": [[OUT, "b3", "closed", "d1"]]})

ALL = [GOOD["shop"], GOOD["code"], B2, dispose("d1", "use as is", "b2"), agree("e1", "d1", "engineering", "eve")]
case("signed with the agreement", "a sign-off lists the agreements as well", "limits", *ALL,
     sign("s1", FIT, "g1 g3 b2 d1 e1"), signoffs={"s1": "valid"}, covered={FIT: "g1 g3 b2 d1 e1"})

case("signed before the agreement", "an agreement that comes later does not make it good", "limits", *ALL,
     sign("s1", FIT, "g1 g3 b2 d1"), signoffs={"s1": "step was not met"}, steps={FIT: state("complete", "QC", "QC")})

case("the agreement made void", "an agreement made void shakes what relied on it", "limits", *ALL,
     sign("s1", FIT, "g1 g3 b2 d1 e1"), void("v1", "e1", by="eve"), signoffs={"s1": "shaken"},
     items={DRAWING: "flagged"}, flags_include={"W1": [[OUT, "b2", "decided"]]})

CLOSE = reading("b3", CODE, "1/8", gauge="hi-lo")
BOTH = [agree("e1", "d1", "engineering", "eve"), agree("e2", "d1", "AI", "abe")]
case("too close to call, used as is", "a verdict too close to call is decided like one out of tolerance", "limits",
     CLOSE, dispose("d1", "use as is", "b3", flag="too close to call", seen="too close to call"), *BOTH,
     verdicts={"b3": "too close to call"}, items={CODE: "met"},
     flags={"W1": [["too close to call", "b3", "closed", "d1"]]})

case("judged worse than seen", "a use as is lapses where the verdict is worse than the one it was made upon", "limits",
     B3, dispose("d1", "use as is", "b3", seen="too close to call"), *BOTH, items={CODE: "flagged"},
     flags={"W1": [[OUT, "b3", "open", ""]]})

case("judged better than seen", "it stands where the verdict is better", "limits", CLOSE,
     dispose("d1", "use as is", "b3", seen=OUT), *BOTH, items={CODE: "met"})

case("use as is of what is not here", "it waits for the record", "gap", dispose("d1", "use as is", "r1"),
     items={GAP: "open"}, flags={"W1": []})

case("use as is after the release", "a disposition about what a sign-off covers shakes it", "gap", R1, S1,
     dispose("d1", "use as is", "r1"), signoffs={"s1": "shaken"}, steps={FIT: state("complete", "QC", "QC")})

case("use as is about a late entry", "about a good record it does not cover it changes nothing", "gap", R1, S1,
     reading("r2", GAP, IN, by="ike"), dispose("d1", "use as is", "r2", flag="entry after release"),
     signoffs={"s1": "valid"}, steps={FIT: "released"}, flags={"W1": [["entry after release", "r2", "closed", "d1"]]})

case("rework of a late entry", "rework of what it does not cover shakes it all the same", "gap", R1, S1,
     reading("r2", GAP, IN, by="ike"), dispose("d1", "rework", "r2"), void("v1", "d1", by="sue"),
     signoffs={"s1": "shaken"}, steps={FIT: state("complete", "QC", "QC")})

# Conflicts

UAI, REWORK = dispose("d3", "use as is", "r1"), dispose("d2", "rework", "r1")
REPAIR, SCRAP = dispose("d1", "repair", "r1"), dispose("d0", "scrap", "r1")
case("use as is against rework", "the stricter stands", "gap", BAD1, UAI, REWORK, items={GAP: "flagged"},
     flags={"W1": [[OUT, "r1", "decided", "d2"]]}, repairs={"W1": 0})
case("rework against repair", "repair is stricter than rework", "gap", BAD1, UAI, REWORK, REPAIR,
     flags={"W1": [[OUT, "r1", "decided", "d1"]]}, repairs={"W1": 1})
case("repair against scrap", "scrap is the strictest", "gap", BAD1, UAI, REWORK, REPAIR, SCRAP, items={GAP: "flagged"},
     flags={"W1": [[OUT, "r1", "closed", "d0"]]}, stopped=["W1"])
case("the stricter made void", "of what is void nothing stands", "gap", BAD1, UAI, REWORK, void("v1", "d2", by="sue"),
     items={GAP: "met"}, flags={"W1": [[OUT, "r1", "closed", "d3"]]})
case("a disposition made void by a stranger", "a void by who may not has no effect", "gap", BAD1, REWORK,
     void("v1", "d2"), items={GAP: "flagged"}, flags_include={"W1": [["role in doubt", "v1", "open"]]})

case("scrap", "scrap stops the piece and what it is part of, and nothing else", "limits", B1,
     dispose("d1", "scrap", "b1"), stopped=["C1", "S1", "W1"],
     steps={FIT: state("flagged", "QC", "QC", ["W1"]), "W2 fit": state("open", blocked=[]),
     "W1 weld": state("open", blocked=["W1 fit QC", "W1"])})
case("scrap, remade", "what was scrapped and remade stops itself alone", "remade",
     look("b1", "P1 receipt.look", "reject"), dispose("d1", "scrap", "b1", where="P1 receipt"), stopped=["P1"])
case("scrap made void", "scrap that is void stops nothing", "limits", B1, dispose("d1", "scrap", "b1"),
     void("v1", "d1", by="sue"), stopped=[])
case("scrap without the role", "nor does it by who may not", "limits", B1,
     dispose("d1", "scrap", "b1", by="sam", role="not held"), stopped=[])

# Rework, repair, and what they ask again

case("rework asks for a new record", "until it is there the item stays flagged", "gap", BAD1, REWORK,
     reading("r2", GAP, IN, by="ike", under="d2"), standing={"r1": "in force", "r2": "in force"},
     items={GAP: "flagged"})

case("rework of a good record", "also where the record is good by itself", "gap", R1, REWORK, items={GAP: "flagged"})

case("rework after the release", "what it asks anew is signed anew", "gap", R1, S1, REWORK, signoffs={"s1": "shaken"},
     steps={FIT: state("flagged", "QC", "QC")})

case("the rework made void after the release", "a disposition made void does not bring the release back", "gap", R1, S1,
     REWORK, void("v1", "d2", by="sue"), signoffs={"s1": "shaken"}, steps={FIT: state("complete", "QC", "QC")},
     flags={"W1": [["sign-off shaken", "s1", "open"]]}, covered={FIT: "r1 d2 v1"})

case("signed anew over the void disposition", "it is signed anew, listing both", "gap", R1, S1, REWORK,
     void("v1", "d2", by="sue"), sign("s2", FIT, "r1 d2 v1"), signoffs={"s2": "valid"}, steps={FIT: "released"})

case("named under but not covered", "a disposition about what it covers must be covered, to name it is not enough",
     "gap", R1, REWORK, sign("s1", FIT, "r1", under="d2"), signoffs={"s1": "shaken"})

FITTED = [R1, sign("m1", FIT, "", "maker"), sign("q1", FIT, "r1", under="m1"),
    sign("a1", FIT, "r1", "AI", under="m1 q1")]
WELDED = [weld("w1", "W1 weld.root", under="q1 a1"), sign("m2", "W1 weld", "w1", "maker", by="wes", under="q1 a1")]
FOUND = [look("r3", "W1 done.look", "reject", under="q1 a1"), report("r4", "W1 done.rt", under="q1 a1")]
AGAIN = dispose("d1", "repair", "r3", flag="rejected", again="weld fit")
SEAM = [*FITTED, *WELDED, *FOUND, AGAIN]

case("repair names steps to inspect again", "old records and sign-offs at the steps it names no longer count", "line",
     *SEAM, repairs={"W1": 1}, standing={"r1": "asked again", "w1": "asked again", "r4": "in force"},
     signoffs={"m1": "asked again", "q1": "asked again", "a1": "asked again", "m2": "asked again"},
     steps={FIT: state("started", "maker QC AI", "QC AI"), "W1 weld": state("started", "maker"),
     "W1 done": state("flagged", "QC AI", "QC", ["W1 fit QC AI"])},
     items={GAP: "open", "W1 weld.root": "open", "W1 done.look": "flagged"},
     flags={"W1": [["rejected", "r3", "decided", "d1"]]}, relied_on={FIT: "d1"})

REFIT = [reading("r5", GAP, IN, under="d1"), sign("m3", FIT, "", "maker", under="d1"),
    sign("q2", FIT, "r1 r5 d1", under="m3 d1"), sign("a2", FIT, "r1 r5 d1", "AI", under="m3 q2 d1")]
case("inspected again", "new ones that name the disposition do", "line", *SEAM, *REFIT,
     weld("w2", "W1 weld.root", under="q2 a2 d1"), sign("m4", "W1 weld", "w1 w2", "maker", by="wes", under="q2 a2 d1"),
     look("r6", "W1 done.look", by="ike", replaces="r3", why="after repair", under="q2 a2 d1"),
     sign("q3", "W1 done", "r3 r4 r6 d1", under="q2 a2 d1"),
     sign("a3", "W1 done", "r3 r4 r6 d1", "AI", under="q3 q2 a2"),
     standing={"r5": "in force", "w2": "in force", "r6": "in force", "r3": "replaced"},
     signoffs={"m3": "valid", "q2": "valid", "a2": "valid", "m4": "valid", "q3": "valid", "a3": "valid"},
     steps={FIT: "released", "W1 weld": "released", "W1 done": "released"}, covered={FIT: "r1 r5 d1"},
     flags={"W1": [["rejected", "r3", "closed", "d1"]]}, repairs={"W1": 1})

case("inspected again without knowing", "a new record that does not name it does not count", "line", *SEAM,
     reading("r5", GAP, IN, by="ike"), standing={"r5": "asked again"}, items={GAP: "open"})

case("the repair made void", "records count again, releases do not", "line", *SEAM, void("v1", "d1", by="sue"),
     standing={"r1": "in force", "w1": "in force"}, items={GAP: "met"},
     signoffs={"m1": "asked again", "q1": "out of order", "a1": "out of order", "m2": "asked again"},
     steps={FIT: state("complete", "maker QC AI", "QC AI")})

case("a second repair", "each repair counts a cycle", "line", *SEAM, *REFIT,
     look("r6", "W1 done.look", "reject", replaces="r3", why="after repair", under="q2 a2 d1"),
     dispose("d2", "repair", "r6", flag="rejected", again="weld"), repairs={"W1": 2}, next_repair={"r6": 2},
     items={"W1 done.look": "flagged"}, steps={FIT: "released", "W1 weld": "started"},
     flags={"W1": [["rejected", "r3", "closed", "d1"], ["rejected", "r6", "decided", "d2"]]})

case("one repair said twice", "two dispositions about one finding are one cycle", "gap", BAD1,
     dispose("d1", "repair", "r1"), dispose("d2", "repair", "r1", by="sue"), repairs={"W1": 1})

# Fixed on the spot

MENDED = reading("r2", GAP, IN, replaces="r1", why="after rework")
case("fixed on the spot", "out, then in after rework by the inspector before anyone signed: no disposition, but listed",
     "gap", BAD1, MENDED, sign("s1", FIT, "r1 r2"), signoffs={"s1": "valid"}, steps={FIT: "released"},
     flags={"W1": [[OUT, "r1", "fixed on the spot"]]})

case("mended after a signature", "once somebody signed without knowing of it, it wants a supervisor's word", "gap",
     BAD1, S1, MENDED, sign("s2", FIT, "r1 r2"), signoffs={"s1": "step was not met", "s2": "valid"},
     flags={"W1": [["sign-off shaken", "s1", "closed"], [OUT, "r1", "open"]]})

case("mended, and the maker had signed", "the maker's word that the work is done is no release", "line", BAD1,
     sign("m1", FIT, "", "maker"), MENDED, flags={"W1": [[OUT, "r1", "fixed on the spot"]]})

case("repaired on the spot", "a repair wants a supervisor's word", "gap", BAD1,
     reading("r2", GAP, IN, replaces="r1", why="after repair"), items={GAP: "met"}, flags={"W1": [[OUT, "r1", "open"]]})

case("measured again", "a reading measured again is no rework", "gap", BAD1,
     reading("r2", GAP, IN, replaces="r1", why="measured again"), flags={"W1": [[OUT, "r1", "closed"]]})

case("reworked and still out", "the later finding is the open one", "gap", BAD1,
     reading("r2", GAP, "3/16", replaces="r1", why="after rework"),
     flags={"W1": [[OUT, "r1", "closed"], [OUT, "r2", "open"]]})

case("reworked by another", "by another, unasked, nothing is fixed", "gap", BAD1,
     reading("r2", GAP, IN, by="ike", replaces="r1", why="after rework"), flags={"W1": [[OUT, "r1", "open"]]})

case("the mending made void", "what is void has fixed nothing", "gap", BAD1, MENDED, void("v1", "r2"),
     flags={"W1": [[OUT, "r1", "open"]]}, items={GAP: "flagged"})

case("a reject fixed on the spot", "a look is fixed on the spot like a reading", "line",
     look("r3", "W1 done.look", "reject"), look("r6", "W1 done.look", replaces="r3", why="after rework"),
     flags_include={"W1": [["rejected", "r3", "fixed on the spot"]]}, items={"W1 done.look": "met"})
