"""Cases: what one shift leaves for the next, where a tag is, and points that hold for a whole job."""

# Laid out by hand, so that a case is read at a glance.
# fmt: off

from tests.vectors.progress_builder import call, case, note, reading, set_point, sign, state, tagging, void, weld

FIT, GAP, IN = "W1 fit", "W1 fit.gap", "3/32"

case("a note passed on", "it stays on top until somebody clears it", "gap", note("n1", "W1", pass_on=True),
     note("n2", "W1"), passed_on={"W1": ["n1"]}, flags={"W1": []})

case("a note cleared", "anybody clears it, by a note that says so", "gap", note("n1", "W1", pass_on=True),
     note("n2", "W1", pass_on=True), note("n3", "W1", by="ike", clears="n1"), passed_on={"W1": ["n2"]})

case("a note cleared and passed on anew", "the note that clears may be passed on itself", "gap",
     note("n1", "W1", pass_on=True), note("n2", "W1", by="ike", clears="n1", pass_on=True), passed_on={"W1": ["n2"]})

case("a note made void", "what is void is not passed on", "gap", note("n1", "W1", pass_on=True), void("v1", "n1"),
     passed_on={"W1": []})

case("a clearing made void", "and clears nothing", "gap", note("n1", "W1", pass_on=True), note("n2", "W1", clears="n1"),
     void("v1", "n2"), passed_on={"W1": ["n1"]})

case("no tag", "a piece whose tag nobody has touched", "gap", passed_on={"W1": []}, tagging={"W1": None})

case("a tag taken off", "the last that was done with a tag counts", "gap", tagging("t1", "W1", "put on"),
     tagging("t2", "W1", "taken off"), tagging={"W1": "t2"}, flags={"W1": []})

case("a tagging made void", "but for what is void", "gap", tagging("t1", "W1", "put on"),
     tagging("t2", "W1", "taken off"), void("v1", "t2"), tagging={"W1": "t1"})

POINT = set_point("p1", FIT, "H", reach="job")

case("a point for the whole job", "holds at every piece that has the step", "pair", POINT,
     steps={FIT: state("started", "QC AI", "QC AI"), "W2 fit": state("open", "QC AI", "QC AI"),
            "W2 weld": state("open", "maker", "", ["W2 fit QC AI"])})

case("a point for one piece", "holds at no other", "pair", set_point("p1", FIT, "H", reach="piece"),
     steps={FIT: state("started", "QC AI", "QC AI"), "W2 fit": state("open", "QC", "QC")})

case("a point for the whole job, made void", "holds nowhere", "pair", POINT, void("v1", "p1", by="abe"),
     steps={FIT: state("started", "QC", "QC"), "W2 fit": state("open", "QC", "QC")})

case("a point for the whole job, without the role", "is none", "pair",
     set_point("p1", FIT, "H", by="sam", role="not held", reach="job"), steps={"W2 fit": state("open", "QC", "QC")})

case("released, then a point for the whole job", "asks for one more signature at each piece", "pair",
     reading("r2", "W2 fit.gap", IN), sign("q2", "W2 fit", "r2"), POINT,
     steps={"W2 fit": state("complete", "AI", "AI")}, signoffs={"q2": "valid"})

case("behind a point for the whole job", "what is made behind it went past it", "pair", POINT,
     reading("r2", "W2 fit.gap", IN), sign("q2", "W2 fit", "r2"), weld("w2", "W2 weld.root", under="q2"),
     past_hold={"w2": ["W2 fit AI"]}, flags={"W2": [["went past an open hold", "w2", "open"]]})

R1, M1 = reading("r1", GAP, IN), sign("m1", FIT, "", "maker")
Q1 = sign("q1", FIT, "r1", under="m1")

case("why a role is in doubt", "the flag says whether the role was not held or may have been", "gap", R1,
     sign("s1", FIT, "r1", by="sam", role="not held"), sign("s2", FIT, "r1", by="ike", role="changed"),
     flags_say={"W1": [["role in doubt", "s1", "role not held", None],
                       ["role in doubt", "s2", "role to be confirmed", None]]})

case("an earlier call that is not named", "counts for nobody who names another", "line", R1, M1, Q1, call("c1", FIT),
     sign("a1", FIT, "r1", "AI", by="ivy", attendance="not attended after notice", call="c9", under="m1 q1"),
     signoffs={"a1": "no notice was given"})

case("two valid signatures", "what comes next relies on the newest", "line", R1, M1, Q1,
     sign("q2", FIT, "r1", under="m1"), call("c1", FIT), call("c2", FIT), relied_on={"W1 weld": "q2 c2"})
