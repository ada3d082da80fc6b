"""Cases: readings in another uom, gauges and their uncertainty, and the uncertainty of what is worked out."""

# Laid out by hand, so that a case is read at a glance.
# fmt: off

from tests.vectors.progress_builder import case, reading

SIZE, THICK, GAP, BORE, HEAT = (f"W1 check.{code}" for code in ("size", "thick", "gap", "bore", "heat"))
IN, OUT, CLOSE, UNJUDGED = "in tolerance", "out of tolerance", "too close to call", "unjudged"
NEARER, NO_U = "nearer to the limit than the gauge can tell", "the gauge's uncertainty is not known"

# Another uom

case("another unit of measure, converted", "a reading in another uom of the quantity is compared without rounding",
     "gauged", reading("r1", SIZE, "25.4", uom="mm"), reading("r2", SIZE, "25.400000000000000001", uom="mm"),
     reading("r3", SIZE, "1/16", uom="ft"), reading("r4", SIZE, "1/8", uom="ft"),
     verdicts={"r1": [IN, "0", ""], "r2": [OUT, "-0.00000000000000000003937007874015748031496062992", ""],
     "r3": [IN, "0.25", ""], "r4": [OUT, "-0.5", ""]}, items={SIZE: "flagged"})

case("another unit of measure, of another quantity", "what has no way to the item's uom is unjudged", "gauged",
     reading("r1", SIZE, "0.5", uom="psi"), reading("r2", SIZE, "0.5", uom="inch"),
     reading("r3", "W2 check.clean", "0.5", uom="in"),
     verdicts={"r1": [UNJUDGED, None, "recorded in psi, the plan asks in"],
     "r2": [UNJUDGED, None, "recorded in inch, the plan asks in"],
     "r3": [UNJUDGED, None, "recorded in in, the plan asks no reading"]}, items={SIZE: "flagged"})

case("a temperature in another unit", "a temperature is converted with its zero point, its uncertainty without",
     "gauged", reading("r1", HEAT, "50", uom="degC"), reading("r2", HEAT, "49", uom="degC", gauge="pyrometer"),
     reading("r3", HEAT, "49.1", uom="degC", gauge="pyrometer"),
     reading("r4", HEAT, "19", uom="degC", gauge="pyrometer"),
     verdicts={"r1": [UNJUDGED, "0", NO_U], "r2": [IN, "1.8", ""], "r3": [CLOSE, "1.62", NEARER],
     "r4": [OUT, "-3.8", ""]})

case("rounded after it is converted", "to the place in the item's uom", "gauged",
     reading("r1", "W1 check.weight", "0.9094", uom="kg"), reading("r2", "W2 check.weight", "0.91", uom="kg"),
     verdicts={"r1": [IN, "0", ""], "r2": [OUT, "-0.01", ""]})

case("a comma", "a reading typed with a comma is read with it, and a point is refused", "gauged",
     reading("r1", SIZE, "0,875", comma=True), reading("r2", SIZE, "0.875", comma=True), reading("r3", SIZE, "0,875"),
     reading("r4", SIZE, "0.875", comma=False), reading("r5", SIZE, "7/8", comma=True),
     verdicts={"r1": [IN, "0.125", ""],
     "r2": [UNJUDGED, None, "'0.875' has a point. Type the decimals after a comma."],
     "r3": [UNJUDGED, None, "'0,875' has a comma. Type the decimals after a point."], "r4": IN, "r5": IN})

# Gauges

NONE_NAMED = "no gauge was named; the plan asks for one: caliper"
case("a gauge not named", "where the plan names a gauge, a reading without one is unjudged", "gauged",
     reading("r1", THICK, "3/8"), reading("r2", "W2 check.thick", "1"), reading("r3", "W2 check.width", "1"),
     verdicts={"r1": [UNJUDGED, "0.125", NONE_NAMED], "r2": [UNJUDGED, "-0.5", NONE_NAMED],
     "r3": ["recorded", None, ""]}, items={THICK: "flagged", "W2 check.thick": "flagged", "W2 check.width": "met"},
     flags={"W1": [["unjudged", "r1", "open"]]}, flags_say={"W1": [["unjudged", "r1", NONE_NAMED, "-0.5"]]})

case("a gauge not known", "as is one with a gauge that is not on the shelf", "gauged",
     reading("r1", THICK, "3/8", gauge="lost"), reading("r2", THICK, "3/8", gauge="bare"),
     reading("r3", "W2 check.size", "3/8", gauge="lost"),
     verdicts={"r1": [UNJUDGED, "0.125", "the gauge lost is not known"], "r2": [IN, "0.125", ""],
     "r3": [IN, "0.375", ""]})

case("a gauge not named, nor the limit known", "that the limit is not known comes first", "gauged",
     reading("r1", "W1 check.unknown", "1"), verdicts={"r1": [UNJUDGED, None, "limit not known: no t"]})

case("a gauge in another unit", "its uncertainty is converted, and met exactly it is inside", "gauged",
     reading("r1", BORE, "0.9999", gauge="mil 0.1"), reading("r2", BORE, "0.9999000000000000001", gauge="mil 0.1"),
     reading("r3", BORE, "1.0001", gauge="mil 0.1"), reading("r4", BORE, "1.0001000000000000001", gauge="mil 0.1"),
     reading("r5", BORE, "25.37", uom="mm", gauge="no uom"), reading("r6", BORE, "25.4", uom="mm", gauge="no uom"),
     verdicts={"r1": [IN, "0.0001", ""], "r2": [CLOSE, "0.0000999999999999999", NEARER],
     "r3": [CLOSE, "-0.0001", NEARER], "r4": [OUT, "-0.0001000000000000001", ""],
     "r5": [IN, "0.001181102362204724409448818898", ""], "r6": [CLOSE, "0", NEARER]})

case("a gauge in a unit of another quantity", "its uncertainty is not known", "gauged",
     reading("r1", BORE, "0.995", gauge="scale"), reading("r2", BORE, "0.995", gauge="bare"),
     reading("r3", SIZE, "0.5", gauge="scale"),
     verdicts={"r1": [UNJUDGED, "0.005", NO_U], "r2": [UNJUDGED, "0.005", NO_U], "r3": [IN, "0.5", ""]},
     flags={"W1": [["unjudged", "r1", "open"], ["unjudged", "r2", "open"]]})

case("a gauge too coarse for one limit", "over a quarter of the limit, where there is an upper one only", "gauged",
     reading("r1", GAP, "0.1", gauge="quarter"), reading("r2", GAP, "0.1", gauge="over"),
     reading("r3", GAP, "0.15", gauge="mil 1"), flags_say={"W1": [["out of tolerance", "r3", "", "25"],
     ["gauge too coarse", "r2", "uncertainty over a quarter of the limit", None]]},
     flags={"W1": [["out of tolerance", "r3", "open"], ["gauge too coarse", "r2", "open"]]})

case("a gauge too coarse, in another unit", "its uncertainty is converted before it is held against the tolerance",
     "gauged", reading("r1", THICK, "3/8", gauge="mil 1"), reading("r2", THICK, "3/8", gauge="quarter"),
     reading("r3", "W2 check.thick", "3/8", gauge="pyrometer"), reading("r4", SIZE, "1/2", gauge="eighth"),
     reading("r5", HEAT, "100", uom="degF", gauge="pyrometer"), reading("r6", "W2 check.thick", "3/8", gauge="over"),
     flags={"W1": [], "W2": [["gauge too coarse", "r6", "open"]]})

COARSE = [reading("r1", "W1 check.bore", "0.995", gauge="over"), reading("r2", BORE, "0.995", gauge="mil 0.1")]
case("a gauge too coarse, for a tolerance", "where it is over a quarter of the tolerance", "gauged", *COARSE,
     flags_say={"W1": [["gauge too coarse", "r1", "uncertainty over a quarter of the tolerance", None]]},
     flags={"W1": [["too close to call", "r1", "open"], ["gauge too coarse", "r1", "open"]]})

# The uncertainty of what is worked out

PLAY, TWICE, AREA, ROOT, OVAL = (f"W1 tube.{code}" for code in ("play", "twice", "area", "root", "oval"))


def two(a: str, b: str, gauge_a: str | None = "three", gauge_b: str | None = "four", **more: str) -> list:
    return [reading("r1", "W1 tube.a", a, gauge=gauge_a), reading("r2", "W1 tube.b", b, gauge=gauge_b, **more)]


def worked(value: str | None, word: str, margin: str | None = None, why: str = "") -> dict:
    return {"derived": {"": [value, word, margin, why]}}


case("worked out, guarded, at its uncertainty", "U of a difference is the root of the sum of the squares", "gauged",
     *two("1.995", "1.5"), items={PLAY: {"state": "met", **worked("0.495", IN, "0.005")}})

case("worked out, guarded, too close", "nearer than that it is too close to call", "gauged", *two("1.9950001", "1.5"),
     items={PLAY: {"state": "flagged", **worked("0.4950001", CLOSE, "0.0049999", NEARER)}},
     flags_include={"W1": [["too close to call", "r2", "open"]]})

case("worked out, guarded, at its uncertainty beyond", "past the limit by exactly it is too close as well", "gauged",
     *two("2.005", "1.5"), items={PLAY: worked("0.505", CLOSE, "-0.005", NEARER)})

case("worked out, guarded, out", "and out beyond", "gauged", *two("2.0050001", "1.5"),
     items={PLAY: {"state": "flagged", **worked("0.5050001", OUT, "-0.0050001")}})

case("worked out, guarded, a gauge's uncertainty not known", "without the U of every reading there is none", "gauged",
     *two("1.6", "1.5", gauge_b="bare"), items={PLAY: {"state": "flagged", **worked("0.1", UNJUDGED, "0.4", NO_U)}},
     flags_include={"W1": [["unjudged", "r2", "open"]]})

case("worked out, guarded, no gauge", "nor where a reading names none", "gauged", *two("1.6", "1.5", gauge_a=None),
     items={PLAY: worked("0.1", UNJUDGED, "0.4", NO_U)})

case("worked out, guarded, read twice", "two who agree at one station are one reading, moved together", "gauged",
     *two("1.995", "1.5"), reading("r3", "W1 tube.a", "1.995", by="ike", gauge="three"),
     items={PLAY: {"state": "met", **worked("0.495", IN, "0.005")}})

case("worked out, guarded, read twice, once coarsely", "by the larger U of the two", "gauged", *two("1.995", "1.5"),
     reading("r3", "W1 tube.a", "1.995", by="ike", gauge="four"), items={PLAY: worked("0.495", CLOSE, "0.005", NEARER)})

case("worked out, guarded, read twice, once without U", "and of none where one is not known", "gauged",
     *two("1.995", "1.5"), reading("r3", "W1 tube.a", "1.995", by="ike", gauge="bare"),
     items={PLAY: worked("0.495", UNJUDGED, "0.005", NO_U)})

for value, way in (("1.996", "more"), ("1.994", "less")):
    case(f"worked out, guarded, read twice, the second {way}", "readings of one station that disagree give nothing",
         "gauged", *two("1.995", "1.5"), reading("r3", "W1 tube.a", value, by="ike", gauge="three"),
         items={PLAY: worked(None, UNJUDGED, None, "readings of a disagree")})

case("worked out of what is worked out, guarded", "the U of a value worked out goes on into the next", "gauged",
     *two("1.995", "1.5"), items={TWICE: {"state": "met", **worked("0.99", IN, "0.01")}})

case("worked out of what is worked out, too close", "and is held against its own limit", "gauged",
     *two("1.996", "1.5"), items={TWICE: worked("0.992", CLOSE, "0.008", NEARER)})

case("a product worked out, guarded", "a reading counts by how much the value goes with it", "gauged",
     *two("2", "1.5", gauge_b="three"), items={AREA: {"state": "met", **worked("3", IN, "0.0075")}})

case("a product worked out, too close", "also a little more of it", "gauged", *two("2.0001", "1.5", gauge_b="three"),
     items={AREA: worked("3.00015", CLOSE, "0.0073", NEARER)})

case("a value that cannot be worked out nearby", "has no uncertainty that is known", "gauged",
     *two("2", "1.202", gauge_b="three"),
     items={ROOT: {"state": "flagged", **worked("0.04472135954999579392818347337", UNJUDGED,
     "0.9552786404500042060718165266", NO_U)}})

case("a spread, guarded", "each reading of an end is moved by itself", "gauged",
     reading("r1", "W1 tube.ends top 0", "2", gauge="three"),
     reading("r2", "W1 tube.ends top 90", "2.095", gauge="four"),
     items={OVAL: {"state": "met", "derived": {"top": ["0.095", IN, "0.005", ""]}}})

case("readings in other units, worked out", "are converted first", "gauged", *two("2", "38.1", uom="mm"),
     reading("r3", "W1 tube.ends top 0", "1.75", uom="ft"),
     items={AREA: worked("3", CLOSE, "0.0075", NEARER), PLAY: worked("0.5", CLOSE, "0", NEARER)})

case("rolled, not yet in contact", "a function of the trade that has no answer says why", "gauged",
     *two("2.28", "2.26"), items={"W1 tube.rolled": {"state": "flagged", "derived": {"": [None, UNJUDGED, None,
     "not yet in contact: the inside diameter is 2.28, and must first grow by 0.011 to 2.291"]}}})

case("rolled", "one that has an answer is judged by it", "gauged", *two("2.315", "2.26"),
     items={"W1 tube.rolled": {"state": "met", **worked("10", IN, "0")}})

for value, way in (("2.03", "more"), ("2.01", "less")):
    case(f"a spread, one place read twice, the second {way}", "readings of one place that disagree give no spread",
         "gauged", reading("r1", "W1 tube.ends", "2", station="top 0", gauge="three"),
         reading("r2", "W1 tube.ends", "2.02", station="top 90", gauge="three"),
         reading("r3", "W1 tube.ends", value, station="top 90", by="ike", gauge="three"),
         items={OVAL: {"state": "flagged", "derived": {"top": [None, UNJUDGED, None, "readings of ends disagree"]}}})
