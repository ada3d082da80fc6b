"""The invented jobs of the progress vectors, each as small as its rules allow."""

from typing import Any

from tests.vectors.progress_builder import derived, item, job, measure, piece, plan, step

GAP = measure("gap", "1/16", "1/8")
WELD = step("weld", "2.1", "seam", "maker sign welder", item("root", "weld"))

gap = job({"A": plan(step("fit", "1.1", "seam", "QC H", GAP), WELD)}, "A1", piece("W1", "seam"))

pair = job({"A": plan(step("fit", "1.1", "seam", "QC H", GAP), WELD)}, "A1", piece("W1", "seam"), piece("W2", "seam"))

line = job(
    {
        "A": plan(
            step("fit", "1.1", "seam", "maker sign fitter, QC H not_maker, AI W", GAP),
            WELD,
            step("done", "3.1", "seam", "QC H, AI R", item("look", "visual"), item("rt", "report")),
        )
    },
    "A1",
    piece("W1", "seam"),
)

parties = job(
    {
        "A": plan(
            step("fit", "1.1", "seam", "QC H, AI W, customer H", GAP),
            step("wipe", "1.2", "seam", "QC S", item("clean", "visual")),
            step("tack", "1.3", "seam", "QC R not_maker", item("tacked", "weld")),
            WELD,
        )
    },
    "A1",
    piece("W1", "seam"),
)

INSPECTED = [
    step("fit", "1.1", "seam", "maker sign fitter, QC H", measure("gap", "1/16", "1/8", photo="out")),
    step("weld", "2.1", "seam", "QC H", item("root", "weld")),
]

two_persons = job(
    {"A": plan(*INSPECTED), "B": plan(*INSPECTED, not_recorder=True), "C": plan(*INSPECTED)}, "B1 C1",
    piece("W1", "seam"), gauges={"cal": {"due": "2026-03-05"}},
)  # fmt: skip

rule_brought_in = job(
    {"A": plan(*INSPECTED), "B": plan(*INSPECTED, not_recorder=True)}, "A1 B1", piece("W1", "seam"),
)  # fmt: skip

limits = job(
    {
        "A": plan(
            step(
                "fit", "1.1", "seam", "QC H",
                measure("shop", "1/16", "1/8", binds="shop"),
                measure("drawing", "1/16", "1/8", binds="drawing"),
                measure("code", "1/16", "1/8", binds="code", rule="guarded"),
            ),
            step("weld", "2.1", "seam", "maker sign welder, QC H", item("root", "weld")),
        )
    },
    "A1", piece("S1", "shell"), piece("C1", "course", "S1"), piece("W1", "seam", "C1"), piece("W2", "seam", "S1"),
    gauges={"hi-lo": {"uncertainty": "0.001", "due": "2026-03-06"}},
)  # fmt: skip

items = job(
    {
        "A": plan(
            step(
                "check", "1.1", "seam", "QC H",
                measure("clock", "0", "1", stations={"names": ["12", "3", "6", "9"]}),
                measure("holes", "0", "1", stations={"least": 3}),
                measure("shown", "0", "1", photo="always"),
                measure("bad", "0", "1", photo="out"),
                item("clean", "visual"),
                item("gasket", "visual", may_not_apply=True),
                item("telltale", "visual", only_if="size >= 4"),
                item("vent", "visual", only_if="no_such_figure >= 4"),
                item("heat", "text"),
                item("cap", "weld"),
                item("mtr", "report"),
                item("snap", "photo"),
                measure("width"),
                measure("land", "1/32", "3/32 * size / size_nominal", gauge="rule"),
                measure("fine", "0", "1", rule="guarded"),
                measure("yield", "36000", uom="psi", place="100"),
            )
        )
    },
    "A1", piece("W1", "seam", figures={"size": "2"}), piece("W2", "seam", figures={"size": "4"}),
    figures={"1": {"values": {"size": "3"}, "drawings": {}}},
    gauges={"cal": {"uncertainty": "0.01", "due": "2026-03-06"}, "coarse": {"uncertainty": "0.3", "due": "2027-01-01"},
            "bare": {}},
)  # fmt: skip

TUBE_STATIONS = {"names": ["14-7", "14-8"]}
ENDS = {"names": ["front", "rear"]}

TUBES = (
    step("hole", "1.1", "tube", "QC H", measure("dia", "2", "3", stations=TUBE_STATIONS)),
    step(
        "roll", "2.1", "tube", "QC H",
        measure("inside", "2", "3", stations=TUBE_STATIONS),
        derived("play", "inside - hole.dia", "1/8", stations=TUBE_STATIONS, binds="drawing"),
        derived("twice", "play * scale", "table('most', 1)", stations=TUBE_STATIONS),
    ),
    step(
        "round", "3.1", "shell", "QC H",
        measure("od", "50", "70", stations={"names": ["front 0", "front 90", "rear 0", "rear 90"]}),
        derived("oval", "spread(od)", "1/2", stations=ENDS, place="0.1"),
        derived("strict", "largest(od)", "70", stations=ENDS),
    ),
)  # fmt: skip
MOST = {"most": {"rows": [{"edge": ["num", "0"], "reached": "from", "value": ["num", "0.2"]}]}}
TWICE_AS_MUCH = {"1": {"values": {"scale": "2"}, "drawings": {}}}

tubes = job({"A": plan(*TUBES, tables=MOST)}, "A1", piece("T1", "tube"), piece("S1", "shell"), figures=TWICE_AS_MUCH)

tubes_of_two = job({"A": plan(*TUBES, tables=MOST, not_recorder=True)}, "A1", piece("T1", "tube"), piece("S1", "shell"),
                   figures=TWICE_AS_MUCH)  # fmt: skip

gauged = job(
    {
        "A": plan(
            step(
                "check", "1.1", "part", "QC H",
                measure("size", "0", "1"),
                measure("thick", "1/4", "1/2", gauge="caliper"),
                measure("width", gauge="tape"),
                measure("unknown", "t", gauge="tape"),
                measure("gap", upper="1/8"),
                measure("bore", "0.99", "1", rule="guarded"),
                measure("heat", "70", "122", uom="degF", rule="guarded"),
                measure("weight", "1", "2", uom="lb", place="0.01"),
                item("clean", "visual"),
            ),
            step(
                "tube", "2.1", "part", "QC H",
                measure("a"), measure("b"),
                measure("ends", stations={"names": ["top 0", "top 90"]}),
                derived("play", "a - b", "1/2", rule="guarded"),
                derived("twice", "play + play", "1", rule="guarded"),
                derived("area", "a*b", "3.0075", rule="guarded", place="0.0001"),
                derived("root", "sqrt(b - 1.2)", "1", rule="guarded"),
                derived("oval", "spread(ends)", "0.1", rule="guarded", stations={"names": ["top"]}),
                derived("rolled", "wall_reduction(hole, od, b, a)", "10"),
            ),
        )
    },
    "A1", piece("W1", "part"), piece("W2", "part"),
    figures={"1": {"values": {"hole": "2.531", "od": "2 1/2"}, "drawings": {}}},
    gauges={
        "mil 1": {"uncertainty": "0.0254", "uom": "mm"}, "mil 0.1": {"uncertainty": "2.54", "uom": "um"},
        "no uom": {"uncertainty": "0.001"}, "pyrometer": {"uncertainty": "1", "uom": "degC"},
        "scale": {"uncertainty": "1", "uom": "kg"}, "quarter": {"uncertainty": "31.25", "uom": "mil"},
        "eighth": {"uncertainty": "15.625", "uom": "mil"},
        "over": {"uncertainty": "0.8", "uom": "mm"}, "three": {"uncertainty": "0.003", "uom": "in"},
        "four": {"uncertainty": "0.1016", "uom": "mm"}, "bare": {"uom": "in"},
    },
)  # fmt: skip


def boiler_plan() -> dict[str, Any]:
    look = item("look", "visual")
    return plan(
        step("papers", "1.1", "boiler", "QC H, AI R", look, reach="job"),
        step("receipt", "1.2", "plate", "QC H", look),
        step("rods", "1.3", "filler", "QC S", look),
        step("long", "2.1", "long seam", "QC H, AI W", look, not_before=[{"steps": ["receipt"], "of": "joins"}]),
        step(
            "girth", "2.2", "girth seam", "QC H, AI R", look,
            not_before=[{"steps": ["long", "receipt"], "of": "joins"},
                        {"steps": ["rods"], "of": "kinds", "kinds": ["filler"]}],
        ),
        step("skim", "2.3", "girth seam", "maker sign", look, not_before=[{"steps": ["girth"], "of": "piece"}]),
        step("wipe", "2.4", "girth seam", "maker sign", look),
        step(
            "stay", "3.1", "diagonal stay, staybolt", "maker sign fitter", look,
            not_before=[{"steps": ["girth"], "of": "kinds", "kinds": ["girth seam"], "for": ["diagonal stay"]}],
        ),
        step("close", "3.2", "boiler", "QC H", look, not_before=[{"steps": ["stay"], "of": "parts"}]),
        step("test", "4.1", "boiler", "QC H, AI W", look, not_before=[{"steps": "earlier", "of": "job"}]),
    )  # fmt: skip


boiler = job(
    {"A": boiler_plan()}, "A1",
    piece("B", "boiler"), piece("S1", "shell", "B"), piece("C1", "course", "S1"), piece("P1", "plate", "C1"),
    piece("L1", "long seam", "C1", "P1"), piece("C2", "course", "S1"), piece("P2", "plate", "C2"),
    piece("G1", "girth seam", "S1", "C1 C2"), piece("D1", "diagonal stay", "B"), piece("K1", "staybolt", "B"),
    piece("F1", "filler"), piece("X1", "plate"),
)  # fmt: skip

remade = job(
    {"A": boiler_plan()}, "A1",
    *({**one, "remade": "P1R"} if one["id"] == "P1" else {**one, "joins": ["P1R"]} if one["id"] == "L1" else one
      for one in boiler["pieces"]),
    piece("P1R", "plate", "C1"),
)  # fmt: skip


def revised_plan(gap_upper: str, points: str = "QC H", **clean: Any) -> dict[str, Any]:
    return plan(
        step("fit", "1.1", "seam", points, measure("gap", "1/16", gap_upper)),
        step("clean", "1.2", "seam", "QC H", item("clean", "visual", **clean)),
        WELD,
    )


revised = job(
    {"A": revised_plan("1/8"), "B": revised_plan("7/64"), "C": revised_plan("1/8", note="wire brush")},
    "A1 B1 C1", piece("W1", "seam"),
)  # fmt: skip
tightened = {**revised, "bases": revised["bases"][:2]}

new_hold = job(
    {"A": revised_plan("1/8", "maker sign"), "B": revised_plan("1/8", "maker sign, QC H"),
     "C": revised_plan("1/8", "maker sign, QC H, AI H")},
    "A1 B1", piece("W1", "seam"),
)  # fmt: skip

figures = job(
    {
        "A": plan(
            step("fit", "1.1", "seam", "QC H", measure("gap", "1/16", "t/4")),
            step("look", "1.2", "seam", "QC H", item("clean", "visual")),
            step("vent", "1.3", "seam", "QC H", item("drilled", "visual"), item("hole", "visual", only_if="size > 4")),
            step("ratio", "1.4", "seam", "QC H", measure("x"), derived("y", "x / base", "1")),
        )
    },
    "A1 A2",
    piece("W1", "seam", sheet="1"), piece("W2", "seam", sheet="2"),
    figures={
        "1": {"values": {"t": "1/2", "size": "3", "base": "2"}, "drawings": {"1": "A", "2": "A"}},
        "2": {"values": {"t": "1/2", "size": "3", "base": "2"}, "drawings": {"1": "A", "2": "B"}},
        "3": {"values": {"t": "3/8", "size": "5", "base": "1"}, "drawings": {"1": "A", "2": "B"}},
        "4": {"values": {"t": "1/2", "size": "3", "base": "2"}, "drawings": {"1": "A", "2": "B"}},
    },
)  # fmt: skip
thinner = {**figures, "bases": [*figures["bases"], {"plan": "A", "figures": 3}]}
taken_back = {**figures, "bases": [*thinner["bases"], {"plan": "A", "figures": 4}]}

LOGGED = step(
    "weld", "1.1", "seam", "QC S",
    item("root", "weld"), item("cap", "weld", thickness="t"), item("leg", "weld", fillet=True), item("look", "visual"),
)  # fmt: skip
SEAMS = (piece("W1", "seam", figures={"t": "3/4"}), piece("W2", "seam", figures={"t": "0.7500001"}),
         piece("W3", "seam"))  # fmt: skip
NOTHING = {"preheat_min": None, "interpass_max": None, "volts": None, "amps": None, "travel": None,
           "heat_input_max": None, "withdrawn": None}  # fmt: skip
PROCEDURES = {
    "W-12": {
        **NOTHING, "id": "W-12", "process": "SMAW", "positions": ["F", "H", "V"], "preheat_min": "50",
        "interpass_max": "550", "volts": ["22", "28"], "amps": ["90", "140"], "travel": ["4", "8"],
        "heat_input_max": "45",
    },
    "W-20": {**NOTHING, "id": "W-20", "process": "GTAW", "positions": ["F", "H", "V", "O"]},
    "W-3": {**NOTHING, "id": "W-3", "process": "SMAW", "positions": ["F"], "withdrawn": "2026-03-06"},
    "W-4": {"id": "W-4", "process": "SMAW", "positions": [], "heat_input_max": "30"},
}  # fmt: skip


def test_of(person: str, process: str, test: str, tested: str, **more: Any) -> dict[str, Any]:
    return {
        "id": f"{person} {process}", "person": person, "process": process, "test": test, "coupon": "0.375", "layers": 2,
        "coupon_od": None, "tested": tested, "continued": None, **more,
    }  # fmt: skip


QUALIFICATIONS = {
    "wes": [test_of("wes", "SMAW", "plate 3G", "2025-06-01", continued="2025-10-01")],
    "gil": [test_of("gil", "GTAW", "pipe 6G", "2026-01-15")],
    "old": [test_of("old", "SMAW", "pipe 6G", "2025-09-05", coupon="0.5", layers=3)],
    "new": [test_of("new", "SMAW", "pipe 6G", "2026-04-01"), test_of("new", "GTAW", "pipe 6G", "2025-01-15")],
    "two": [test_of("two", "SMAW", "plate 2G", "2026-01-15"),
            test_of("two", "SMAW", "plate 4G", "2026-01-15", coupon="0.5", layers=3)],
}  # fmt: skip

welded = job({"A": plan(LOGGED)}, "A1", *SEAMS, procedures=PROCEDURES)
qualified = job({"A": plan(LOGGED)}, "A1", *SEAMS, procedures=PROCEDURES, qualifications=QUALIFICATIONS)
no_procedures = job({"A": plan(LOGGED)}, "A1", *SEAMS, qualifications=QUALIFICATIONS)

JOBS: dict[str, dict[str, Any]] = {
    "gap": gap, "pair": pair, "line": line, "parties": parties, "limits": limits, "items": items, "tubes": tubes,
    "tubes_of_two": tubes_of_two,
    "gauged": gauged, "welded": welded, "qualified": qualified, "no_procedures": no_procedures,
    "boiler": boiler, "remade": remade, "revised": revised, "tightened": tightened, "new_hold": new_hold,
    "figures": figures, "thinner": thinner, "taken_back": taken_back, "two_persons": two_persons,
    "rule_brought_in": rule_brought_in,
}  # fmt: skip
