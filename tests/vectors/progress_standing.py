"""Cases: which records are in force, and what two phones make of one item."""

# Laid out by hand, so that a case is read at a glance.
# fmt: off

from tests.vectors.progress_builder import (
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

GAP = "W1 fit.gap"
IN, BAD = "3/32", "1/4"
R1 = reading("r1", GAP, IN)
S1 = sign("s1", "W1 fit", "r1")
LATE_BAD = reading("r2", GAP, BAD, by="ike")
UNSIGNED = state("complete", waiting="QC", holding="QC", blocked=[])

case("nothing recorded", "a step without records is open, and its hold blocks what follows", "gap",
     steps={"W1 fit": state("open", "QC", "QC", []), "W1 weld": state("open", "maker", "", ["W1 fit QC"])},
     items={"W1 fit.gap": {"state": "open", "missing": [""]}}, flags={"W1": []}, stopped=[], repairs={"W1": 0})

case("a reading in tolerance", "the item is met, the step complete and waiting for who must sign", "gap", R1,
     steps={"W1 fit": UNSIGNED, "W1 weld": state("open", "maker", "", ["W1 fit QC"])},
     items={"W1 fit.gap": {"state": "met", "in_force": {"": ["r1"]}, "missing": []}}, standing={"r1": "in force"},
     verdicts={"r1": "in tolerance"}, flags={"W1": []})

case("a reading out of tolerance", "the item and the step are flagged", "gap", reading("r1", GAP, BAD),
     steps={"W1 fit": state("flagged", "QC", "QC")}, items={"W1 fit.gap": "flagged"},
     verdicts={"r1": "out of tolerance"}, flags={"W1": [["out of tolerance", "r1", "open"]]})

case("released", "every item met and every party's sign-off valid; what follows may begin", "gap", R1, S1,
     steps={"W1 fit": state("released", "", "", []), "W1 weld": state("open", "maker", "", [])},
     signoffs={"s1": "valid"}, flags={"W1": []}, covered={"W1 fit": "r1"}, relied_on={"W1 weld": "s1", "W1 fit": "s1"})

case("a typing slip", "the same person replaces; the old value no longer counts", "gap", reading("r1", GAP, "3/3 2"),
     reading("r2", GAP, IN, replaces="r1", why="slip"), steps={"W1 fit": UNSIGNED},
     standing={"r1": "replaced", "r2": "in force"}, verdicts={"r1": "unjudged"},
     flags={"W1": [["unjudged", "r1", "closed"]]})

case("replaced twice", "what is replaced stays so, though its replacement was itself replaced", "gap", R1,
     reading("r2", GAP, BAD, replaces="r1", why="measured again"),
     reading("r3", GAP, "7/64", replaces="r2", why="measured again"),
     standing={"r1": "replaced", "r2": "replaced", "r3": "in force"}, steps={"W1 fit": UNSIGNED},
     items={"W1 fit.gap": {"state": "met", "in_force": {"": ["r3"]}}},
     flags={"W1": [["out of tolerance", "r2", "closed"]]})

case("two replace the same", "each that replaces is in force and must itself be good", "gap", R1,
     reading("r2", GAP, IN, replaces="r1", why="slip"), reading("r3", GAP, BAD, replaces="r1", why="slip"),
     standing={"r1": "replaced", "r2": "in force", "r3": "in force"}, items={"W1 fit.gap": "flagged"})

case("a void replacement", "what is void replaces nothing", "gap", R1,
     reading("r2", GAP, BAD, replaces="r1", why="slip"), void("v1", "r2"),
     standing={"r1": "in force", "r2": "void", "v1": "in force"}, steps={"W1 fit": UNSIGNED},
     flags={"W1": [["out of tolerance", "r2", "closed"]]})

case("a circle of replacements", "two that replace one another leave the item open", "gap",
     reading("r1", GAP, IN, replaces="r2", why="slip"), reading("r2", GAP, IN, replaces="r1", why="slip"),
     standing={"r1": "replaced", "r2": "replaced"}, steps={"W1 fit": "started"},
     items={"W1 fit.gap": {"state": "open", "missing": [""], "in_force": {}}})

case("a record that replaces itself", "it is replaced, and the item open", "gap",
     reading("r1", GAP, IN, replaces="r1", why="slip"), standing={"r1": "replaced"}, items={"W1 fit.gap": "open"})

case("a replacement of what is not here", "it stands by itself", "gap",
     reading("r2", GAP, IN, replaces="r1", why="slip"), standing={"r2": "in force"}, steps={"W1 fit": UNSIGNED})

case("another person's replacement", "it counts only where a disposition asks for it; else both stand", "gap",
     reading("r1", GAP, BAD), reading("r2", GAP, IN, by="ike", replaces="r1", why="measured again"),
     standing={"r1": "in force", "r2": "in force"}, items={"W1 fit.gap": "flagged"},
     flags={"W1": [["out of tolerance", "r1", "open"]]})

case("another person's replacement, asked for", "a rework asks for a new record, by whoever it is", "gap",
     reading("r1", GAP, BAD), dispose("d1", "rework", "r1"),
     reading("r2", GAP, IN, by="ike", replaces="r1", why="after rework", under="d1"),
     standing={"r1": "replaced", "r2": "in force"}, steps={"W1 fit": UNSIGNED},
     flags={"W1": [["out of tolerance", "r1", "closed", "d1"]]})

case("a replacement at another place", "a record replaces only at its own item and station", "items",
     reading("r1", "W1 check.clock 12", "0.5"), reading("r2", "W1 check.clock 3", "0.5", replaces="r1", why="slip"),
     look("r3", "W1 check.clean"), look("r4", "W1 check.gasket", replaces="r3", why="slip"),
     standing={"r1": "in force", "r2": "in force", "r3": "in force"})

case("a replacement of another type", "a record replaces only its own type", "items",
     look("r1", "W1 check.clean", "reject"), photo("r2", "W1 check.clean", replaces="r1", why="slip"),
     standing={"r1": "in force"}, items={"W1 check.clean": "flagged"})

case("void by its maker", "its maker makes a record void", "gap", R1, void("v1", "r1"), standing={"r1": "void"},
     items={"W1 fit.gap": "open"}, steps={"W1 fit": "started"}, flags={"W1": []})

case("void by a supervisor", "a supervisor makes anybody's record void", "gap", R1, void("v1", "r1", by="sue"),
     standing={"r1": "void"}, items={"W1 fit.gap": "open"}, flags={"W1": []})

case("void by a stranger", "a void by somebody else has no effect, and is shown", "gap", R1, void("v1", "r1", by="ike"),
     standing={"r1": "in force"}, steps={"W1 fit": UNSIGNED}, flags={"W1": [["role in doubt", "v1", "open"]]})

case("a void is final", "a void is not made void; a new record mends it", "gap", R1, void("v1", "r1"), void("v2", "v1"),
     standing={"r1": "void", "v1": "in force"}, items={"W1 fit.gap": "open"})

case("a void of what is not here", "it waits for what it names", "gap", R1, void("v1", "r9"),
     standing={"r1": "in force"}, flags={"W1": []})

case("two voids of one record, both listed", "a sign-off that lists the voids stands", "gap", reading("r1", GAP, BAD),
     void("v1", "r1"), void("v2", "r1", by="sue"), reading("r2", GAP, IN), sign("s1", "W1 fit", "r1 r2 v1 v2"),
     signoffs={"s1": "valid"}, covered={"W1 fit": "r1 r2 v1 v2"})

case("two voids of one record, one listed", "a void of what it covers that it does not list shakes a sign-off", "gap",
     reading("r1", GAP, BAD), void("v2", "r1"), void("v1", "r1", by="sue"), reading("r2", GAP, IN),
     sign("s1", "W1 fit", "r1 r2 v2"), signoffs={"s1": "shaken"})

case("two voids of one record, the other listed", "whichever of two voids is not listed shakes", "gap",
     reading("r1", GAP, BAD), void("v2", "r1"), void("v1", "r1", by="sue"), reading("r2", GAP, IN),
     sign("s1", "W1 fit", "r1 r2 v1"), signoffs={"s1": "shaken"})

case("a void record as the only one", "void records do not meet an item though a sign-off covers them", "gap", R1,
     void("v1", "r1"), sign("s1", "W1 fit", "r1 v1"), signoffs={"s1": "step was not met"},
     flags={"W1": [["sign-off shaken", "s1", "open"]]})

# Two inspectors, two phones

case("in tolerance, late", "what a sign-off does not list and is good changes nothing, and is shown", "gap", R1, S1,
     reading("r2", GAP, "7/64", by="ike"), steps={"W1 fit": "released", "W1 weld": state("open", blocked=[])},
     signoffs={"s1": "valid"}, flags={"W1": [["entry after release", "r2", "open"]]})

case("out of tolerance, late", "what a sign-off does not list and is adverse shakes it", "gap", R1, S1, LATE_BAD,
     steps={"W1 fit": state("flagged", "QC", "QC"), "W1 weld": state("open", blocked=["W1 fit QC"])},
     signoffs={"s1": "shaken"}, flags={"W1": [["sign-off shaken", "s1", "open"], ["out of tolerance", "r2", "open"]]})

case("unjudged, late", "an unjudged record that is not listed shakes as well", "gap", R1, S1,
     reading("r2", GAP, "2.4", by="ike", uom="psi"), signoffs={"s1": "shaken"}, verdicts={"r2": "unjudged"},
     steps={"W1 fit": "flagged"})

case("a late reject made void", "a release does not come back by itself", "gap", R1, S1, LATE_BAD,
     void("v1", "r2", by="ike"), steps={"W1 fit": UNSIGNED}, signoffs={"s1": "shaken"},
     flags={"W1": [["sign-off shaken", "s1", "open"], ["out of tolerance", "r2", "closed"]]})

case("a late reject replaced", "nor does it when what shook it is replaced by a good record", "gap", R1, S1, LATE_BAD,
     reading("r3", GAP, IN, by="ike", replaces="r2", why="slip"), steps={"W1 fit": UNSIGNED}, signoffs={"s1": "shaken"})

case("signed anew", "once shaken it is signed anew, listing all that is known", "gap", R1, S1, LATE_BAD,
     void("v1", "r2", by="ike"), sign("s2", "W1 fit", "r1 r2 v1", by="ike"),
     steps={"W1 fit": state("released", "", "")}, signoffs={"s1": "shaken", "s2": "valid"},
     flags={"W1": [["sign-off shaken", "s1", "closed"], ["out of tolerance", "r2", "closed"]]})

case("signed anew without the void", "a sign-off that lists the reject but not its void is over a step not met", "gap",
     R1, LATE_BAD, void("v1", "r2", by="ike"), sign("s2", "W1 fit", "r1 r2"), signoffs={"s2": "step was not met"})

case("a covered record made void", "a void of what a sign-off covers shakes it", "gap", R1, reading("r2", GAP, IN),
     sign("s1", "W1 fit", "r1 r2"), void("v1", "r2"), signoffs={"s1": "shaken"}, steps={"W1 fit": UNSIGNED})

case("a covered record replaced", "a replacement of what a sign-off covers shakes it, though it is good", "gap", R1, S1,
     reading("r2", GAP, IN, replaces="r1", why="slip"), signoffs={"s1": "shaken"}, steps={"W1 fit": UNSIGNED})

case("a covered record not replaced", "a replacement that does not count is one more good record", "gap", R1, S1,
     reading("r2", GAP, IN, by="ike", replaces="r1", why="slip"), signoffs={"s1": "valid"},
     steps={"W1 fit": "released"}, flags={"W1": [["entry after release", "r2", "open"]]})

case("a covered replacement made void later", "what it replaced is back in force, the release is not", "gap", R1,
     reading("r2", GAP, IN, replaces="r1", why="slip"), sign("s1", "W1 fit", "r1 r2"), void("v1", "r2"),
     standing={"r1": "in force"}, signoffs={"s1": "shaken"}, steps={"W1 fit": UNSIGNED})

case("covers that are not here yet", "a sign-off waits for what it lists", "gap", R1, sign("s1", "W1 fit", "r1 r9"),
     signoffs={"s1": "waiting for records"}, steps={"W1 fit": UNSIGNED}, flags={"W1": []})

case("covers arrived", "and is valid when all of it is here", "gap", R1, reading("r9", GAP, IN, by="ike"),
     sign("s1", "W1 fit", "r1 r9"), signoffs={"s1": "valid"}, flags={"W1": []})

case("signed over nothing", "a sign-off over a step not met releases nothing", "gap", R1, sign("s1", "W1 fit", ""),
     signoffs={"s1": "step was not met"}, steps={"W1 fit": UNSIGNED}, flags={"W1": [["sign-off shaken", "s1", "open"]]})

case("signed over a reject", "a sign-off over a record out of tolerance releases nothing", "gap",
     reading("r1", GAP, BAD), S1, signoffs={"s1": "step was not met"}, steps={"W1 fit": state("flagged", "QC", "QC")},
     flags={"W1": [["sign-off shaken", "s1", "open"], ["out of tolerance", "r1", "open"]]})

case("signed before a good record came", "it is judged by what it lists alone", "gap", reading("r1", GAP, BAD), S1,
     reading("r2", GAP, IN, replaces="r1", why="slip"), signoffs={"s1": "step was not met"}, steps={"W1 fit": UNSIGNED})

case("records twice", "a provisional record and the server's copy of it are one", "gap", R1, R1, S1, R1, S1,
     steps={"W1 fit": "released"}, items={"W1 fit.gap": {"state": "met", "in_force": {"": ["r1"]}}}, flags={"W1": []})

case("incomplete, late", "a record that is not complete shakes a release it is not listed by", "line",
     look("r1", "W1 done.look"), report("r2", "W1 done.rt"), sign("q1", "W1 done", "r1 r2"),
     sign("a1", "W1 done", "r1 r2", "AI", under="q1"), report("r3", "W1 done.rt", None, by="ike"),
     signoffs={"q1": "shaken", "a1": "out of order"}, steps={"W1 done": state("started", "QC AI", "QC")})

case("incomplete, late, made void", "and the release does not come back with its void", "line",
     look("r1", "W1 done.look"), report("r2", "W1 done.rt"), sign("q1", "W1 done", "r1 r2"),
     sign("a1", "W1 done", "r1 r2", "AI", under="q1"), report("r3", "W1 done.rt", None, by="ike"),
     void("v1", "r3", by="ike"), signoffs={"q1": "shaken"}, steps={"W1 done": state("complete", "QC AI", "QC")})

# Places that are not known

case("unknown piece", "a record of a piece that is not in the job is taken in and flagged", "gap",
     reading("r1", "W9 fit.gap", IN), flags={"W9": [["not in the plan", "r1", "open"]], "W1": []})

case("unknown step", "a record of a step that is not in the plan is flagged", "gap", look("r1", "W1 paint.coat"),
     flags={"W1": [["not in the plan", "r1", "open"]]}, steps={"W1 fit": "open"})

case("unknown item", "a record of an item that is not in the plan is flagged", "gap",
     text("r1", "W1 fit.colour", "red"), flags={"W1": [["not in the plan", "r1", "open"]]}, steps={"W1 fit": "started"})

case("a reading of an unknown item", "it is unjudged besides", "gap", reading("r1", "W1 fit.width", "3"),
     verdicts={"r1": "unjudged"}, flags={"W1": [["unjudged", "r1", "open"], ["not in the plan", "r1", "open"]]})

case("a step of another kind of piece", "a record at a step the piece does not have is flagged", "tubes",
     reading("r1", "S1 hole.dia 14-7", "2.5"), flags={"S1": [["not in the plan", "r1", "open"]]})

case("a photo of the piece alone", "a record without a step belongs to the piece and is no fault", "gap",
     photo("p1", "W1"), flags={"W1": []}, standing={"p1": "in force"}, past_hold={"p1": []})

case("a weld pass unstamped", "a record that is not complete does not meet the item", "gap", R1, S1,
     weld("w1", "W1 weld.root", stamp="  ", under="s1"), verdicts={"w1": "incomplete"},
     items={"W1 weld.root": "started"}, flags={"W1": []})
