"""Cases: who signs what, in which order, in what attendance, and what undoes it."""

# Laid out by hand, so that a case is read at a glance.
# fmt: off

from tests.vectors.progress_builder import (
    call,
    case,
    dispose,
    look,
    reading,
    report,
    set_point,
    sign,
    state,
    void,
    weld,
)

FIT, GAP, IN, BAD = "W1 fit", "W1 fit.gap", "3/32", "1/4"
R1 = reading("r1", GAP, IN)
M1 = sign("m1", FIT, "", "maker")
Q1 = sign("q1", FIT, "r1", under="m1")
A1 = sign("a1", FIT, "r1", "AI", under="m1 q1")
CALL = call("c1", FIT)

# The order of the parties

case("all parties in order", "each names those before it; then the step is released", "line", R1, M1, Q1, A1,
     steps={FIT: state("released", "", "", [])}, signoffs={"m1": "valid", "q1": "valid", "a1": "valid"},
     flags={"W1": []}, relied_on={FIT: "m1 q1 a1", "W1 weld": "q1 a1"})

case("waiting for the next party", "the step is complete and says whom it waits for, in order", "line", R1, M1,
     steps={FIT: state("complete", "QC AI", "QC AI"), "W1 weld": state("open", blocked=["W1 fit QC AI"])})

case("inspector before the maker", "a sign-off before its turn is out of order", "line", R1, sign("q1", FIT, "r1"),
     signoffs={"q1": "out of order"}, steps={FIT: state("complete", "maker QC AI", "QC AI")},
     flags={"W1": [["sign-off shaken", "q1", "open"]]})

case("the maker signed, the inspector did not know", "order is by what a sign-off names, not by what is here", "line",
     R1, M1, sign("q1", FIT, "r1"), signoffs={"m1": "valid", "q1": "out of order"},
     steps={FIT: state("complete", "QC AI", "QC AI")})

case("order through covers", "a sign-off may list the one before among what it covers", "line", R1, M1,
     sign("q1", FIT, "r1 m1"), signoffs={"q1": "valid"})

case("the one before is not here yet", "an 'under' not yet here means waiting, not out of order", "line", R1, M1, A1,
     signoffs={"a1": "waiting for records"}, steps={FIT: state("complete", "QC AI", "QC AI")}, flags={"W1": []})

case("the one before is shaken", "who signed after it must sign anew as well", "line", R1, M1, Q1, A1,
     reading("r2", GAP, BAD, by="ike"), void("v1", "r2", by="ike"), sign("q2", FIT, "r1 r2 v1", under="m1"),
     signoffs={"q1": "shaken", "q2": "valid", "a1": "out of order"}, steps={FIT: state("complete", "AI", "AI")},
     flags={"W1": [["sign-off shaken", "a1", "open"], ["sign-off shaken", "q1", "closed"],
     ["out of tolerance", "r2", "closed"]]})

case("the one before is void", "a sign-off made void opens its point and those after it", "line", R1, M1, Q1, A1,
     void("v1", "q1"), signoffs={"q1": "void", "a1": "out of order"}, steps={FIT: state("complete", "QC AI", "QC AI")})

case("a party that has no point", "its sign-off is not asked and judged by nobody", "line", R1, M1,
     sign("k1", FIT, "r1", "customer", under="m1"), signoffs={"k1": None},
     steps={FIT: state("complete", "QC AI", "QC AI")})

# The role

case("no role", "a sign-off by who does not hold the role releases nothing, and is flagged", "line", R1, M1,
     sign("q1", FIT, "r1", by="sam", role="not held", under="m1"), signoffs={"q1": "role not held"},
     steps={FIT: state("complete", "QC AI", "QC AI")}, flags={"W1": [["role in doubt", "q1", "open"]]})

case("signed Friday, left Saturday, arrived Monday", "a role that changed meanwhile is to be confirmed", "gap", R1,
     sign("s1", FIT, "r1", role="changed"), weld("w1", "W1 weld.root", under="s1"),
     signoffs={"s1": "role to be confirmed"}, steps={FIT: state("complete", "QC", "QC")}, past_hold={"w1": []},
     flags={"W1": [["role in doubt", "s1", "open"]]})

case("signed Friday, still there, arrived Monday", "a role held throughout is held, however late it arrives", "gap", R1,
     sign("s1", FIT, "r1", at="2026-03-06T16:50:00-06:00"), signoffs={"s1": "valid"}, steps={FIT: "released"})

case("confirmed by another", "another who holds the role signs anew", "gap", R1, sign("s1", FIT, "r1", role="changed"),
     sign("s2", FIT, "r1", by="ike"), signoffs={"s1": "role to be confirmed", "s2": "valid"}, steps={FIT: "released"})

case("a disposition without the role", "it has no effect, and is flagged", "gap", reading("r1", GAP, BAD),
     dispose("d1", "use as is", "r1", by="sam", role="not held"), items={GAP: "flagged"},
     flags={"W1": [["out of tolerance", "r1", "open", ""], ["role in doubt", "d1", "open"]]})

# Own work

case("inspected by the maker", "who signed the work does not release it where the plan says so", "line", R1, M1,
     sign("q1", FIT, "r1", by="fay", under="m1"), signoffs={"q1": "own work"},
     flags={"W1": [["sign-off shaken", "q1", "open"]]})

case("inspected by the welder", "nor who logged a pass at the step", "line", R1, M1, weld("w1", GAP, by="ivy"),
     sign("q1", FIT, "r1 w1", under="m1"), signoffs={"q1": "own work"})

case("a pass logged for its welder", "who logs a spot check of another's pass has not welded it", "line", R1, M1,
     weld("w1", GAP, by="ivy", welder="wes"), sign("q1", FIT, "r1 w1", under="m1"), signoffs={"q1": "valid"})

case("a pass logged by another", "who is named as its welder has", "line", R1, M1,
     weld("w1", GAP, by="wes", welder="ivy"), sign("q1", FIT, "r1 w1", under="m1"), signoffs={"q1": "own work"})

case("own work allowed", "where the plan does not say so the maker may sign", "gap", R1, weld("w1", GAP, by="ivy"),
     sign("s1", FIT, "r1 w1"), signoffs={"s1": "valid"})

case("the pass made void later", "a void that a sign-off does not list does not make it good", "line", R1, M1,
     weld("w1", GAP, by="ivy"), void("v1", "w1"), sign("q1", FIT, "r1 w1", under="m1"), signoffs={"q1": "own work"})

case("the pass made void before", "with the void listed he is not the maker", "line", R1, M1, weld("w1", GAP, by="ivy"),
     void("v1", "w1"), sign("q1", FIT, "r1 w1 v1", under="m1"), signoffs={"q1": "valid"}, covered={FIT: "r1 w1 v1"})

case("own work, late", "a pass logged by the inspector after his release undoes it", "line", R1, M1, Q1,
     weld("w1", GAP, by="ivy"), signoffs={"q1": "own work"})

# Witness points, notice, attendance

case("no notice given", "a witness point without notice blocks like a hold", "line", R1, M1, Q1,
     steps={FIT: state("complete", "AI", "AI"), "W1 weld": state("open", blocked=["W1 fit AI"])})

case("notice given", "with notice it blocks no more, though the step is not released", "line", R1, M1, Q1, CALL,
     steps={FIT: state("complete", "AI", ""), "W1 weld": state("open", blocked=[])}, relied_on={"W1 weld": "q1 c1"})

case("notice to another", "notice to another party is none", "line", R1, M1, Q1, call("c1", FIT, "customer"),
     steps={FIT: state("complete", "AI", "AI")})

case("notice at another step", "nor is notice of another step", "line", R1, M1, Q1, call("c1", "W1 done"),
     steps={FIT: state("complete", "AI", "AI")})

case("notice made void", "nor one that is void", "line", R1, M1, Q1, CALL, void("v1", "c1"),
     steps={FIT: state("complete", "AI", "AI")})

ABSENT = "not attended after notice"
case("not attended after notice", "who gave notice signs that the witness did not come", "line", R1, M1, Q1, CALL,
     sign("a1", FIT, "r1", "AI", by="ivy", attendance=ABSENT, call="c1", under="m1 q1"), signoffs={"a1": "valid"},
     steps={FIT: state("released", "", "")})

case("not attended, no notice", "without the notice he cannot", "line", R1, M1, Q1,
     sign("a1", FIT, "r1", "AI", by="ivy", attendance=ABSENT, under="m1 q1"), signoffs={"a1": "no notice was given"},
     steps={FIT: state("complete", "AI", "AI")}, flags={"W1": [["witness without notice", "a1", "open"]]})

case("not attended, another notice", "nor with notice given to another", "line", R1, M1, Q1,
     call("c1", FIT, "customer"), sign("a1", FIT, "r1", "AI", by="ivy", attendance=ABSENT, call="c1", under="m1 q1"),
     signoffs={"a1": "no notice was given"})

case("waived", "a witness may waive", "line", R1, M1, Q1,
     sign("a1", FIT, "r1", "AI", attendance="waived", under="m1 q1"), signoffs={"a1": "valid"}, steps={FIT: "released"})

case("a hold waived", "a hold cannot be waived", "line", R1, M1, sign("q1", FIT, "r1", attendance="waived", under="m1"),
     signoffs={"q1": "must be present"}, steps={FIT: state("complete", "QC AI", "QC AI")},
     flags={"W1": [["sign-off shaken", "q1", "open"]]})

case("a hold not attended", "nor passed for want of attendance", "line", R1, M1, call("c1", FIT, "QC"),
     sign("q1", FIT, "r1", attendance=ABSENT, call="c1", under="m1"), signoffs={"q1": "must be present"})

case("a maker's sign waived", "nor can the maker's word that the work is done", "line", R1,
     sign("m1", FIT, "", "maker", attendance="waived"), signoffs={"m1": "must be present"},
     steps={FIT: state("complete", "maker QC AI", "QC AI")})

DONE = "W1 done"
LOOK, RT = look("r1", "W1 done.look"), report("r2", "W1 done.rt")
case("a review waived", "nor a review", "line", LOOK, RT, sign("q1", DONE, "r1 r2"),
     sign("a1", DONE, "r1 r2", "AI", attendance="waived", under="q1"), signoffs={"a1": "must be present"})

case("a review outstanding", "a review is asked for the release, and blocks nothing", "line", LOOK, RT,
     sign("q1", DONE, "r1 r2"), steps={DONE: state("complete", "AI", "")})

K1 = sign("k1", FIT, "r1", "customer", under="s1 c1")
S1 = sign("s1", FIT, "r1")
case("past a witness who was called", "a later party may sign when the witness was called and it says so", "parties",
     R1, S1, CALL, K1, signoffs={"s1": "valid", "k1": "valid"}, steps={FIT: state("complete", "AI", "")},
     relied_on={FIT: "s1 c1 k1"})

case("past a witness, the notice not named", "the notice counts for the sign-off that names it", "parties", R1, S1,
     CALL, sign("k1", FIT, "r1", "customer", under="s1"), signoffs={"k1": "out of order"})

case("past a witness, no notice", "without notice it is out of order", "parties", R1, S1,
     sign("k1", FIT, "r1", "customer", under="s1"), signoffs={"k1": "out of order"},
     steps={FIT: state("complete", "AI customer", "AI customer")})

case("notice after the later party signed", "a notice does not mend what was signed before it", "parties", R1, S1,
     sign("k1", FIT, "r1", "customer", under="s1"), call("c9", FIT), signoffs={"k1": "out of order"},
     steps={FIT: state("complete", "AI customer", "customer")})

case("surveillance", "a point of surveillance asks for nothing", "parties", look("r1", "W1 wipe.clean"),
     steps={"W1 wipe": state("released", "", "")})

# Points set for this job

WORK = weld("w1", "W1 weld.root", under="q1 a1")
MW = sign("m2", "W1 weld", "w1", "maker", by="wes", under="q1 a1")
case("a point the AI adds", "a party's own point is asked for like the plan's", "line", R1, M1, Q1, A1, WORK, MW,
     set_point("p1", "W1 weld", "H"), steps={"W1 weld": state("complete", "AI", "AI"),
     DONE: state("open", blocked=["W1 weld AI"])})

case("an added point released", "and released by his sign-off", "line", R1, M1, Q1, A1, WORK, MW,
     set_point("p1", "W1 weld", "H"), sign("a2", "W1 weld", "w1", "AI", under="m2 q1 a1"), signoffs={"a2": "valid"},
     steps={"W1 weld": state("released", "", ""), DONE: state("open", blocked=[])})

case("a stricter point", "of two points of one party the stricter counts", "line", LOOK, RT, set_point("p1", DONE, "H"),
     steps={DONE: state("complete", "QC AI", "QC AI")})

case("a milder point", "a milder one added changes nothing", "line", R1, M1, Q1, set_point("p1", FIT, "R"),
     steps={FIT: state("complete", "AI", "AI")})

TACK = weld("w1", "W1 tack.tacked", by="ivy")
case("a stricter point keeps not_maker", "a point made stricter keeps what the plan says of it", "parties", TACK,
     set_point("p1", "W1 tack", "H", party="QC", by="sue"), sign("q1", "W1 tack", "w1"), signoffs={"q1": "own work"},
     steps={"W1 tack": state("complete", "QC", "QC")})

case("a point by a stranger", "a point by who may not set it has no effect, and is flagged", "line", R1, M1, Q1, A1,
     WORK, MW, set_point("p1", "W1 weld", "H", by="sam", role="not held"), steps={"W1 weld": state("released", "", "")},
     flags={"W1": [["role in doubt", "p1", "open"]]})

case("a point withdrawn", "a point made void is not asked", "line", R1, M1, Q1, A1, WORK, MW,
     set_point("p1", "W1 weld", "H"), void("v1", "p1", by="abe"), steps={"W1 weld": state("released", "", "")})

# The maker's sign point

case("the work is done", "the maker's sign says so, and is not judged over a met step", "line", reading("r1", GAP, BAD),
     M1, signoffs={"m1": "valid"}, steps={FIT: state("flagged", "QC AI", "QC AI")})

case("a finding after the maker signed", "what is found later does not shake his sign", "line", R1, M1,
     reading("r2", GAP, BAD), void("v1", "r1"), signoffs={"m1": "valid"})

case("reworked after the maker signed", "rework he does not name asks for his sign again", "line",
     reading("r1", GAP, BAD), M1, dispose("d1", "rework", "r1"), signoffs={"m1": "asked again"},
     steps={FIT: state("flagged", "maker QC AI", "QC AI")})

case("the maker signs the rework", "a sign that names the disposition counts", "line", reading("r1", GAP, BAD), M1,
     dispose("d1", "rework", "r1"), sign("m2", FIT, "", "maker", under="d1"),
     signoffs={"m1": "asked again", "m2": "valid"}, relied_on={FIT: "m2 d1"})

case("the rework made void", "his earlier sign does not come back with its void", "line", R1, M1,
     dispose("d1", "rework", "r1"), void("v1", "d1", by="sue"), signoffs={"m1": "asked again"})

case("used as is", "a use as is does not ask the maker again", "line", reading("r1", GAP, BAD), M1,
     dispose("d1", "use as is", "r1"), signoffs={"m1": "valid"})
