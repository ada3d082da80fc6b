"""Cases: weld passes against their procedures, and whether their makers were qualified."""

# Laid out by hand, so that a case is read at a glance.
# fmt: off

from tests.vectors.progress_builder import case, dispose, void, weld

ROOT, CAP, LEG = (f"W1 weld.{code}" for code in ("root", "cap", "leg"))
IN, OUT, UNJUDGED = "in tolerance", "out of tolerance", "unjudged"
ON_JAN_10, ON_MAR_4, ON_MAR_5 = (f"2026-{day}T07:00:00-06:00" for day in ("01-10", "03-04", "03-05"))
NOT_QUALIFIED = "maker not qualified"


def by(id: str, where: str = ROOT, **more: str | bool) -> list:
    """A pass by the procedure W-12 unless another is named."""
    return weld(id, where, **{"procedure": "W-12", **more})


# Procedures

case("no procedures are kept", "a pass is complete with its stamp, procedure and lot", "gap",
     weld("w1", "W1 weld.root", amps="999"), verdicts={"w1": ["complete", None, ""]})

case("nothing typed", "a pass without a spot check is recorded", "welded", by("w1"), by("w2", procedure=" W-12 "),
     by("w3", amps=" "), by("w4", procedure="W-20", amps="110", preheat="20"), by("w5", lot=" "),
     verdicts={"w1": ["recorded", None, ""], "w2": "recorded", "w3": "recorded", "w4": "recorded",
     "w5": ["incomplete", None, "lot not given"]}, items={ROOT: "started"})

case("inside, edges and all", "both ends of a range are inside it", "welded",
     by("w1", preheat="50", interpass="550", volts="22", amps="90", travel="4"),
     by("w2", volts="28", amps="140", travel="8"), by("w3", preheat="999"), by("w4", interpass="-40"),
     by("w5", volts="25", amps="120", travel="4"),
     verdicts={"w1": [IN, None, ""], "w2": [IN, None, ""], "w3": [IN, None, ""], "w4": [IN, None, ""],
     "w5": [IN, None, ""]}, items={ROOT: "met"}, flags={"W1": []})

case("outside", "what is outside is named with its value and its range", "welded",
     by("w1", preheat="49.9"), by("w2", interpass="550.1"), by("w3", volts="21 31/32", amps="140.01"),
     by("w4", travel="8.5"), by("w5", where="W2 weld.root", volts="25.1", amps="120", travel="4"),
     by("w6", where="W2 weld.root", volts="27", amps="141", travel="7", preheat="60"),
     verdicts={"w1": [OUT, None, "preheat 49.9: W-12 asks at least 50 degF"],
     "w2": [OUT, None, "interpass 550.1: W-12 asks at most 550 degF"],
     "w3": [OUT, None, "volts 21.96875: W-12 asks 22 to 28 V; amps 140.01: W-12 asks 90 to 140 A"],
     "w4": [OUT, None, "travel 8.5: W-12 asks 4 to 8 in/min"],
     "w5": [OUT, None, "arc energy 45.18: W-12 asks at most 45 kJ/in"],
     "w6": [OUT, None, "amps 141: W-12 asks 90 to 140 A"]}, items={ROOT: "flagged"},
     flags={"W2": [[OUT, "w5", "open"], [OUT, "w6", "open"]]},
     flags_say={"W2": [[OUT, "w5", "arc energy 45.18: W-12 asks at most 45 kJ/in", None]]})

case("arc energy", "is compared without dividing, and shown rounded up", "welded",
     by("w1", procedure="W-4", volts="20", amps="75", travel="3"),
     by("w2", procedure="W-4", volts="20", amps="75", travel="2.9999999"),
     by("w3", procedure="W-4", volts="20", amps="75"), by("w4", procedure="W-4", volts="20", amps="75", travel="0"),
     by("w5", volts="24", amps="120", travel="0"), by("w6", procedure="W-4", volts="-20", amps="75", travel="3"),
     verdicts={"w1": [IN, None, ""], "w2": [OUT, None, "arc energy 30.0001: W-4 asks at most 30 kJ/in"],
     "w3": ["recorded", None, ""], "w4": [UNJUDGED, None, "the travel must be above 0, and it is 0"],
     "w5": [OUT, None, "travel 0: W-12 asks 4 to 8 in/min"],
     "w6": [UNJUDGED, None, "the volts must not be below 0, and it is -20"]})

case("a procedure that is not known", "a pass by it is unjudged", "welded", by("w1", procedure="w-12"),
     by("w2", procedure="toString"), by("w3", procedure="W" * 50),
     verdicts={"w1": [UNJUDGED, None, "the procedure w-12 is not known"],
     "w2": [UNJUDGED, None, "the procedure toString is not known"],
     "w3": [UNJUDGED, None, f"the procedure {'W' * 40} is not known"]}, items={ROOT: "flagged"},
     flags={"W1": [[UNJUDGED, "w1", "open"], [UNJUDGED, "w2", "open"], [UNJUDGED, "w3", "open"]]})

case("a procedure withdrawn", "counts for what was welded before that day, and not on it", "welded",
     by("w1", procedure="W-3", at=ON_MAR_5), by("w2", procedure="W-3"),
     verdicts={"w1": "recorded", "w2": [UNJUDGED, None, "the procedure W-3 is withdrawn since 2026-03-06"]})

case("a value that cannot be read", "makes the pass unjudged, whatever the others are", "welded",
     by("w1", amps="1oo"), by("w2", volts="24,5", amps="999"), by("w3", volts="24,5", comma=True),
     by("w4", volts="24.5", comma=True), by("w5", volts="28,1", amps="120", comma=True),
     verdicts={"w1": [UNJUDGED, None, "amps: '1oo' is not a number. Type one such as 1 7/8 or .875."],
     "w2": [UNJUDGED, None, "volts: '24,5' has a comma. Type the decimals after a point."], "w3": IN,
     "w4": [UNJUDGED, None, "volts: '24.5' has a point. Type the decimals after a comma."],
     "w5": [OUT, None, "volts 28.1: W-12 asks 22 to 28 V"]})

case("a position", "that the procedure does not name is outside it", "welded", by("w1", position="O"),
     by("w2", position="V"), by("w3", position="V", volts="24"), by("w4", procedure="W-4", position="O"),
     verdicts={"w1": [OUT, None, "position O: W-12 asks F, H, V"], "w2": "recorded", "w3": IN, "w4": "recorded"})

case("outside, used as is", "closes by what is decided about it", "welded", by("w1", amps="141"),
     dispose("d1", "use as is", "w1", seen=OUT), items={ROOT: "met"}, flags={"W1": [[OUT, "w1", "closed", "d1"]]})

case("outside, logged again", "and by the pass logged again after rework", "welded", by("w1", amps="141"),
     by("w2", amps="140", replaces="w1", why="after rework"), items={ROOT: "met"},
     flags={"W1": [[OUT, "w1", "fixed on the spot"]]})

# Who may weld


def unqualified(one: str, says: str) -> list:
    return [NOT_QUALIFIED, one, says, None]


case("qualified", "a welder who is tested for the process, and welds by it, is not flagged", "qualified",
     by("w1", by="wes"), by("w2", by="gil", procedure="W-20"), by("w3", CAP, by="wes"),
     by("w4", by="wes", position="V"), flags={"W1": []})

case("no qualifications are kept", "nobody is flagged", "welded", by("w1", by="sam"), flags={"W1": []})

case("not qualified", "who has none, or none for the process, is flagged", "qualified", by("w1", by="sam"),
     by("w2", by="gil"), by("w3", by="wes", welder="gil"), by("w4", by="new"),
     flags={"W1": [[NOT_QUALIFIED, one, "open"] for one in ("w1", "w2", "w3", "w4")]},
     flags_say={"W1": [unqualified("w1", "sam: no qualification is kept"), unqualified("w2", "gil: none for SMAW"),
     unqualified("w3", "gil: none for SMAW"), unqualified("w4", "new: none for SMAW before 2026-04-01")]})

case("not qualified, the procedure not known", "the process is that of the procedure; where it is not known, whether he"
     " has any counts", "qualified", by("w1", by="gil", procedure="W-99"), by("w2", by="sam", procedure="W-99"),
     flags={"W1": [[UNJUDGED, "w1", "open"], [UNJUDGED, "w2", "open"], [NOT_QUALIFIED, "w2", "open"]]})

case("not qualified, no procedures", "as in a shop that keeps none", "no_procedures", by("w1", by="gil"),
     by("w2", by="sam"), flags={"W1": [[NOT_QUALIFIED, "w2", "open"]]})

case("too thick", "the test's weld metal is held against the item's, where the plan says it", "qualified",
     by("w1", "W1 weld.cap", by="wes"), by("w2", "W2 weld.cap", by="wes"), by("w3", "W2 weld.root", by="wes"),
     by("w4", "W3 weld.cap", by="wes"), by("w5", "W2 weld.cap", by="two"),
     flags={"W1": [], "W2": [[NOT_QUALIFIED, "w2", "open"]], "W3": []},
     flags_say={"W2": [unqualified("w2", "wes: SMAW to 0.75 in; the item is 0.7500001 in")]})

case("in another position", "the test's positions are those of a groove, or of a fillet where the item is one",
     "qualified", by("w1", by="wes", position="H"), by("w2", LEG, by="wes", position="H"),
     by("w3", CAP, by="two", position="H"), by("w4", "W2 weld.cap", by="two", position="H"),
     flags={"W1": [[NOT_QUALIFIED, "w1", "open"]], "W2": [[NOT_QUALIFIED, "w4", "open"]]},
     flags_say={"W1": [unqualified("w1", "wes: SMAW in F, V; welded in H")],
     "W2": [unqualified("w4", "two: SMAW in F, O; welded in H")]})

LAPSED = "old: SMAW lapsed on 2026-03-05; last proof 2025-09-05"
case("lapsed", "six months after the last proof a process lapses, on that very day", "qualified",
     by("w1", by="old", at=ON_MAR_4), by("w2", "W2 weld.root", by="old", at=ON_MAR_5), flags={"W1": [], "W2": []})

case("lapsed, on the day", "and what he welds from then on is flagged", "qualified", by("w1", by="old", at=ON_MAR_5),
     by("w2", by="old"), flags_say={"W1": [unqualified("w1", LAPSED), unqualified("w2", LAPSED)]})

case("kept up", "a weld of this job by the process keeps it up, on whatever piece", "qualified", by("w1", by="old"),
     by("w2", "W2 weld.root", by="sue", welder="old", at=ON_JAN_10), flags={"W1": [], "W2": []})

case("not kept up by another process", "by no other process", "qualified", by("w1", by="old"),
     by("w2", "W2 weld.root", by="old", procedure="W-20", at=ON_JAN_10), flags_say={"W1": [unqualified("w1", LAPSED)]})

case("not kept up after the lapse", "who welds on after the lapse renews nothing", "qualified",
     by("w1", by="old", at=ON_MAR_5), by("w2", "W2 weld.root", by="old"),
     flags_say={"W1": [unqualified("w1", LAPSED)], "W2": [unqualified("w2", LAPSED)]})

case("kept up by what is void", "a pass made void or replaced keeps nothing up", "qualified", by("w1", by="old"),
     by("w2", "W2 weld.root", by="old", at=ON_JAN_10), void("v1", "w2", by="old", where="W2"),
     by("w3", "W3 weld.root", by="wes", welder="old", at=ON_JAN_10),
     by("w4", "W3 weld.root", by="wes", replaces="w3", why="slip"), flags_say={"W1": [unqualified("w1", LAPSED)]})

case("not qualified, seen", "a supervisor's word closes it", "qualified", by("w1", by="gil"),
     dispose("d1", "use as is", "w1", flag=NOT_QUALIFIED), flags={"W1": [[NOT_QUALIFIED, "w1", "closed", "d1"]]})
