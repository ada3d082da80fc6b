"""Cases: a party from outside the shop signs in ink on a page, which QC photographs and enters."""

# Laid out by hand, so that a case is read at a glance.
# fmt: off

from tests.vectors.progress_builder import (
    SHA,
    call,
    case,
    dispose,
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
BEFORE = [R1, M1, Q1]
PAGE = photo("p1", FIT, under="m1 q1")
INK = sign("a1", FIT, "r1 p1", "AI", by="ivy", page=SHA, under="m1 q1")
FLAG = ["signed in ink", "a1", "open"]
TO_SIGN = state("complete", "AI", "AI")

case("signed in ink", "QC enters it over the photo of the page; the step is released, and the supervisor sees it",
     "line", *BEFORE, PAGE, INK, steps={FIT: state("released", "", ""), "W1 weld": state("open", blocked=[])},
     signoffs={"a1": "valid"}, flags={"W1": [FLAG]}, relied_on={"W1 weld": "q1 a1"}, covered={FIT: "r1"})

case("signed in ink, entered by the party", "the party may enter the page himself", "line", *BEFORE,
     photo("p1", FIT, by="abe", under="m1 q1"), sign("a1", FIT, "r1 p1", "AI", page=SHA, under="m1 q1"),
     signoffs={"a1": "valid"}, flags={"W1": [FLAG]})

case("signed in ink, at an item of the step", "the page's photo may stand at an item", "line", *BEFORE,
     photo("p1", GAP, under="m1 q1"), INK, signoffs={"a1": "valid"})

case("signed in ink by the customer", "the customer may sign so as well", "parties", R1, sign("s1", FIT, "r1"),
     call("c1", FIT), photo("p1", FIT), sign("k1", FIT, "r1 p1", "customer", by="ivy", page=SHA, under="s1 c1"),
     signoffs={"k1": "valid"}, flags={"W1": [["signed in ink", "k1", "open"]]})

case("signed in ink, seen", "any word of a supervisor about it closes it, and leaves the release as it is", "line",
     *BEFORE, PAGE, INK, dispose("d1", "use as is", "a1", flag="signed in ink"), signoffs={"a1": "valid"},
     steps={FIT: "released"}, flags={"W1": [[*FLAG[:2], "closed", "d1"]]})

case("signed in ink, sent back", "rework is such a word too", "line", *BEFORE, PAGE, INK,
     dispose("d1", "rework", "a1", flag="signed in ink"), signoffs={"m1": "asked again", "a1": "out of order"},
     flags_include={"W1": [[*FLAG[:2], "closed"]]})

case("signed in ink, replaced", "another in its place does not close it", "line", *BEFORE, PAGE, INK,
     sign("a2", FIT, "r1 p1", "AI", by="ivy", page=SHA, under="m1 q1", replaces="a1", why="slip"),
     flags={"W1": [FLAG, ["signed in ink", "a2", "open"]]})

case("signed in ink, a word about another kind", "a word about another kind of flag does not", "line", *BEFORE, PAGE,
     INK, dispose("d1", "use as is", "a1", flag="role in doubt"), flags={"W1": [[*FLAG, ""]]})

case("signed in ink, a word without the role", "nor a word by who may not decide", "line", *BEFORE, PAGE, INK,
     dispose("d1", "use as is", "a1", flag="signed in ink", by="sam", role="not held"),
     flags={"W1": [["role in doubt", "d1", "open"], FLAG]})

case("signed in ink, made void", "one that is void releases nothing, and is closed", "line", *BEFORE, PAGE, INK,
     void("v1", "a1"), signoffs={"a1": "void"}, steps={FIT: TO_SIGN}, flags={"W1": [[*FLAG[:2], "closed"]]})

case("signed in ink, no role", "by who neither is the party nor QC it releases nothing", "line", *BEFORE, PAGE,
     sign("a1", FIT, "r1 p1", "AI", by="sam", role="not held", page=SHA, under="m1 q1"),
     signoffs={"a1": "role not held"}, flags={"W1": [["role in doubt", "a1", "open"], FLAG]})

# The page

case("the page is not here yet", "it waits for the photo of the page", "line", *BEFORE, INK,
     signoffs={"a1": "waiting for records"}, steps={FIT: TO_SIGN}, flags={"W1": [FLAG]})

case("the page is not covered", "it rests on the photo that it lists, not on one that comes", "line", *BEFORE, PAGE,
     sign("a1", FIT, "r1", "AI", by="ivy", page=SHA, under="m1 q1"), signoffs={"a1": "no photo of the page"},
     steps={FIT: TO_SIGN}, flags={"W1": [["sign-off shaken", "a1", "open"], FLAG]})

case("another page", "a photo of another page is none", "line", *BEFORE, photo("p1", FIT, sha="cd" * 32), INK,
     signoffs={"a1": "no photo of the page"}, steps={FIT: TO_SIGN})

case("the page at another step", "nor one at another step", "line", *BEFORE, photo("p1", "W1 done", under="q1"), INK,
     signoffs={"a1": "no photo of the page"})

case("the page was void before", "nor one that was void, its void listed", "line", *BEFORE, PAGE, void("v1", "p1"),
     sign("a1", FIT, "r1 p1 v1", "AI", by="ivy", page=SHA, under="m1 q1"), signoffs={"a1": "no photo of the page"},
     covered={FIT: "r1 v1"})

case("the page made void", "without its page a release does not stand", "line", *BEFORE, PAGE, INK, void("v1", "p1"),
     signoffs={"a1": "shaken"}, steps={FIT: TO_SIGN}, flags={"W1": [["sign-off shaken", "a1", "open"], FLAG]})

case("the page made void, photographed again", "and does not come back by another photo of it", "line", *BEFORE, PAGE,
     INK, void("v1", "p1"), photo("p2", FIT, under="m1 q1"), signoffs={"a1": "shaken"}, steps={FIT: TO_SIGN})

case("the page replaced", "a replacement of the page shakes it, and its void does not mend that", "line", *BEFORE,
     PAGE, INK, photo("p2", FIT, replaces="p1", why="slip", under="m1 q1"), void("v1", "p2"),
     signoffs={"a1": "shaken"}, steps={FIT: TO_SIGN})

case("the page with marks over it", "the same photo once more, with marks, changes nothing", "line", *BEFORE, PAGE,
     INK, photo("p2", FIT, under="m1 q1"), signoffs={"a1": "valid"}, steps={FIT: "released"})

case("signed in ink anew", "after another page it is entered anew", "line", *BEFORE, PAGE, INK, void("v1", "p1"),
     photo("p2", FIT, sha="cd" * 32, under="m1 q1"),
     sign("a2", FIT, "r1 p2 v1", "AI", by="ivy", page="cd" * 32, under="m1 q1"),
     signoffs={"a1": "shaken", "a2": "valid"}, steps={FIT: "released"},
     flags={"W1": [["sign-off shaken", "a1", "closed"], FLAG, ["signed in ink", "a2", "open"]]})

REWORK = dispose("d1", "rework", "r1", again="fit")
AFTER = [reading("r2", GAP, IN, under="d1"), sign("m2", FIT, "", "maker", under="d1"),
    sign("q2", FIT, "r1 r2 d1", under="m2 d1")]
case("asked again, the old page", "a page from before a rework does not release what was done after it", "line",
     *BEFORE, PAGE, INK, REWORK, *AFTER,
     sign("a2", FIT, "r1 r2 d1 p1", "AI", by="ivy", page=SHA, under="m2 q2 d1"),
     signoffs={"a1": "asked again", "q2": "valid", "a2": "no photo of the page"}, steps={FIT: TO_SIGN})

case("asked again, a new page", "a page photographed after it does", "line", *BEFORE, PAGE, INK, REWORK, *AFTER,
     photo("p2", FIT, sha="cd" * 32, under="m2 q2 d1"),
     sign("a2", FIT, "r1 r2 d1 p2", "AI", by="ivy", page="cd" * 32, under="m2 q2 d1"),
     signoffs={"a1": "asked again", "a2": "valid"}, steps={FIT: "released"})

# All else of a sign-off stays

case("signed in ink before its turn", "a page has its turn like any sign-off", "line", R1, M1, PAGE,
     sign("a1", FIT, "r1 p1", "AI", by="ivy", page=SHA, under="m1"), signoffs={"a1": "out of order"},
     steps={FIT: state("complete", "QC AI", "QC AI")})

case("signed in ink over nothing", "and is judged over what it covers", "line", *BEFORE, PAGE,
     sign("a1", FIT, "p1", "AI", by="ivy", page=SHA, under="m1 q1"), signoffs={"a1": "step was not met"})

case("signed in ink, then a reject", "what is adverse and not listed shakes it", "line", *BEFORE, PAGE, INK,
     reading("r2", GAP, "1/4", by="ike"), void("v1", "r2", by="ike"), signoffs={"a1": "out of order", "q1": "shaken"})

case("waived in ink", "a witness may waive in ink", "line", *BEFORE, PAGE,
     sign("a1", FIT, "r1 p1", "AI", by="ivy", page=SHA, attendance="waived", under="m1 q1"), signoffs={"a1": "valid"})

case("a hold waived in ink", "and nobody a hold", "line", *BEFORE, set_point("x1", FIT, "H"), PAGE,
     sign("a1", FIT, "r1 p1", "AI", by="ivy", page=SHA, attendance="waived", under="m1 q1"),
     signoffs={"a1": "must be present"})

case("signed in ink, entered by the welder", "who made the work does not enter the page, whatever the plan says of QC",
     "line", *BEFORE, weld("w1", GAP, by="ike"), photo("p1", FIT, by="ike"),
     sign("a1", FIT, "r1 w1 p1", "AI", by="ike", page=SHA, under="m1 q1"), signoffs={"a1": "own work"},
     flags_include={"W1": [["sign-off shaken", "a1", "open"], FLAG]})

case("signed in ink, entered by who signed as the maker", "nor does who signed for the makers", "line", *BEFORE, PAGE,
     sign("a1", FIT, "r1 p1", "AI", by="fay", page=SHA, under="m1 q1"), signoffs={"a1": "own work"})

case("a page of QC's own", "of a party of the shop a page changes nothing", "line", R1, M1,
     sign("q1", FIT, "r1", page=SHA, under="m1"), signoffs={"q1": "valid"}, flags={"W1": []})

case("work under a page", "work that names it went past nothing", "line", *BEFORE, PAGE, INK,
     weld("w1", "W1 weld.root", under="q1 a1"), past_hold={"w1": []}, flags={"W1": [FLAG]})
