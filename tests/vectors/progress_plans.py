"""Cases: a new plan revision, new figures, a new drawing."""

# Laid out by hand, so that a case is read at a glance.
# fmt: off

from tests.vectors.progress_builder import case, look, reading, sign, state, weld

FIT, GAP, CLEAN = "W1 fit", "W1 fit.gap", "W1 clean"
R1, L1 = reading("r1", GAP, "3/32"), look("l1", "W1 clean.clean", under="s1")
S1, S2 = sign("s1", FIT, "r1"), sign("s2", CLEAN, "l1", under="s1")
BEFORE = [R1, S1, L1, S2]

case("a changed limit", "what a plan revision changes reopens, what it leaves alone keeps its release", "tightened",
     *BEFORE, standing={"r1": "plan changed", "l1": "in force"}, signoffs={"s1": "plan changed", "s2": "valid"},
     steps={FIT: state("started", "QC", "QC"), CLEAN: state("released", "", ""),
     "W1 weld": state("open", blocked=["W1 fit QC"])}, items={GAP: {"state": "open", "missing": [""]}},
     verdicts={"r1": "in tolerance"}, flags={"W1": [["sign-off shaken", "s1", "open"]]})

case("recorded under the old plan, arrived late", "a record is judged by the revision it names", "tightened",
     reading("r1", GAP, "1/8"), reading("r2", GAP, "1/8", by="ike", basis="B1"),
     verdicts={"r1": "in tolerance", "r2": "out of tolerance"}, standing={"r1": "plan changed", "r2": "in force"})

case("recorded anew under the new plan", "a new record and a new sign-off release it", "tightened", *BEFORE,
     reading("r2", GAP, "3/32", basis="B1"), sign("s3", FIT, "r1 r2", basis="B1"), signoffs={"s3": "valid"},
     steps={FIT: state("released", "", "")}, flags={"W1": [["sign-off shaken", "s1", "closed"]]})

case("signed under the old plan, after the change", "a sign-off under the old revision does not release", "tightened",
     reading("r2", GAP, "3/32", basis="B1"), sign("s3", FIT, "r2"), signoffs={"s3": "plan changed"})

case("a change taken back", "what a change reopened does not come back by taking the change back", "revised", *BEFORE,
     standing={"r1": "plan changed"}, signoffs={"s1": "plan changed"}, steps={FIT: state("started", "QC", "QC")})

case("recorded between the changes", "nor what was recorded in between", "revised",
     reading("r2", GAP, "3/32", basis="B1"), sign("s3", FIT, "r2", basis="B1"), standing={"r2": "plan changed"},
     signoffs={"s3": "plan changed"})

case("a changed note", "the item's whole text is what it asks", "revised", L1, S2, standing={"l1": "plan changed"},
     signoffs={"s2": "plan changed"}, items={"W1 clean.clean": "open"})

case("a plan that is not known", "a record under a plan that is not here does not count yet", "gap",
     reading("r1", GAP, "3/32", basis="Z1"), sign("s1", FIT, "r1", basis="Z1"), standing={"r1": "plan changed"},
     verdicts={"r1": "unjudged"}, signoffs={"s1": "plan changed"})

case("a changed point", "a step whose points change is signed anew, its records stay", "new_hold", R1,
     sign("m1", FIT, "r1", "maker"), standing={"r1": "in force"}, signoffs={"m1": "plan changed"},
     steps={FIT: state("complete", "maker QC", "QC")})

SEEN = [look("l1", "W1 look.clean"), sign("s1", "W1 look", "l1"), look("l2", "W2 look.clean"),
    sign("s2", "W2 look", "l2")]
case("a new revision of a drawing", "a sheet's new revision reopens the pieces drawn on it, and no others", "figures",
     *SEEN, standing={"l1": "in force", "l2": "plan changed"}, signoffs={"s1": "valid", "s2": "plan changed"},
     steps={"W1 look": "released", "W2 look": state("started", "QC", "QC")})

THICK = [reading("r1", GAP, "3/32"), sign("s1", FIT, "r1")]
case("figures that change nothing", "new figures that leave the limits alone reopen nothing", "figures", *THICK,
     signoffs={"s1": "valid"}, steps={FIT: "released"})

case("a figure that moves a limit", "a figure that moves a limit reopens what the limit is of", "thinner", *THICK,
     look("l1", "W1 look.clean"), sign("s2", "W1 look", "l1"), standing={"r1": "plan changed", "l1": "in force"},
     signoffs={"s1": "plan changed", "s2": "valid"})

case("a figure taken back", "which does not come back with the old figure", "taken_back", *THICK,
     reading("r2", GAP, "3/32", by="ike", basis="A3"), reading("r3", GAP, "3/32", by="ike", basis="A4"),
     standing={"r1": "plan changed", "r2": "plan changed", "r3": "in force"}, signoffs={"s1": "plan changed"})

VENT = [look("l1", "W1 vent.drilled"), sign("s1", "W1 vent", "l1")]
case("an item not asked", "what a figure makes not asked is not missed", "figures", *VENT, signoffs={"s1": "valid"},
     items={"W1 vent.hole": "not asked"}, steps={"W1 vent": state("released", "", "")})

case("an item asked now", "a figure that makes an item asked reopens the step", "thinner", *VENT,
     items={"W1 vent.hole": "open"}, signoffs={"s1": "plan changed"}, steps={"W1 vent": state("started", "QC", "QC")})

case("an item asked for a while", "and what it reopened does not come back when it is asked no more", "taken_back",
     *VENT, items={"W1 vent.hole": "not asked"}, signoffs={"s1": "plan changed"},
     steps={"W1 vent": state("complete", "QC", "QC")})

RATIO = [reading("r1", "W1 ratio.x", "2"), sign("s1", "W1 ratio", "r1")]
case("a figure of a formula", "a figure by which a value is worked out reopens it", "thinner", *RATIO,
     items={"W1 ratio.y": {"state": "flagged", "derived": {"": ["2", "out of tolerance"]}}},
     signoffs={"s1": "plan changed"})

case("a figure of a formula taken back", "and does not come back with the old figure", "taken_back", *RATIO,
     items={"W1 ratio.y": {"state": "met", "derived": {"": ["1", "in tolerance"]}}}, signoffs={"s1": "plan changed"},
     steps={"W1 ratio": state("complete", "QC", "QC")})

case("a new hold", "a hold that a revision adds blocks what is not begun", "new_hold", look("l1", "W1 clean.clean"),
     sign("s2", CLEAN, "l1"), weld("w1", "W1 weld.root", under="s2"),
     steps={"W1 weld": state("complete", "maker", "", ["W1 fit QC"])}, past_hold={"w1": []})
