"""Weld passes: of welders who may or may not be qualified, by procedures whose ends the values typed lie on."""

from typing import Any

from seamtag.core.welding import POSITIONS
from tests.core.differential.values import Values
from tests.vectors.progress_builder import basis_of, item, piece, plan, step, void, weld

Case = dict[str, Any]

PROCESSES = ("SMAW", "GTAW")
DAYS = ("2025-02-28", "2025-08-27", "2025-08-28", "2025-08-31", "2025-12-31", "2026-02-27", "2026-02-28", "2026-03-06",
        "2026-06-30", "2026-08-28", "2026-02-30")  # fmt: skip
ENDS = {"preheat": "50", "interpass": "550", "volts": "24", "amps": "120", "travel": "4"}
NAMES = ("P1", "P2", "P1", " P1 ", "P3", "lost", "constructor", "")
WELDERS = ("ann", "bob", "cy", "valueOf")


def weld_case(values: Values) -> Case:
    """Some passes on two pieces, some of them void or replaced, judged and flagged at one."""
    rng = values.rng
    asked = [item("root", "weld"), item("leg", "weld", fillet=True), item("cap", "weld", thickness="t")]
    data = {
        "id": "J", "bases": [basis_of("A1")], "plans": {"A": plan(step("s", "1.1", "seam", "QC S", *asked))},
        "figure_sets": {"1": {"values": {"t": rng.choice(("3/4", "0.75", "1", "x"))}, "drawings": {}}},
        "pieces": [piece("W1", "seam"), piece("W2", "seam")], "gauges": {},
        "procedures": {name: procedure(values, name) for name in ("P1", "P2", "P3") if values.chance(0.9)},
        "qualifications": {who: tests_of(values, who) for who in WELDERS[:3] if values.chance(0.85)},
    }  # fmt: skip
    if values.chance(0.05):
        del data[rng.choice(("procedures", "qualifications"))]
    records = [pass_of(values, number) for number in range(rng.randint(1, 5))]
    if values.chance(0.2):
        records.append(void("v1", "r0", by=rng.choice((records[0][0]["by"], "sue")), where=records[0][0]["piece"]))
    return {"verb": "derived", "job": data, "records": records, "piece": "W1"}


def procedure(values: Values, name: str) -> Case:
    """Its ranges begin or end at ENDS, or are left out."""
    rng = values.rng

    def ends(at: str) -> list[str] | None:
        return rng.choice(([at, "600"], ["0", at], [at, at], None))

    return {
        "id": name, "process": rng.choice(PROCESSES), "positions": rng.choice((["F"], ["F", "V"], [], None)),
        "preheat_min": rng.choice((ENDS["preheat"], None)), "interpass_max": rng.choice((ENDS["interpass"], None)),
        **{key: ends(ENDS[key]) for key in ("volts", "amps", "travel")},
        "heat_input_max": rng.choice(("43.2", "43.1999999", "14.4", None)),
        "withdrawn": rng.choice((None, None, *DAYS[:10])) if name == "P3" else None,
    }  # fmt: skip


def tests_of(values: Values, who: str) -> list[Case]:
    rng = values.rng
    return [
        {
            "id": f"{who} {number}", "person": who, "process": rng.choice(PROCESSES), "test": rng.choice([*POSITIONS]),
            "coupon": rng.choice(("0.375", "0.25", "0.5")), "layers": rng.randint(1, 4), "coupon_od": None,
            "tested": rng.choice(DAYS[:8]), "continued": rng.choice((None, None, *DAYS[:10])),
        }
        for number in range(rng.choice((0, 1, 1, 1, 2, 3)))
    ]  # fmt: skip


def pass_of(values: Values, number: int) -> list[Any]:
    rng = values.rng
    typed: Case = {}
    comma = values.chance(0.1)
    for name, end in ENDS.items():
        if values.chance(0.3):
            near = values.typed(values.typeable(abs(values.value()))) if values.chance(0.2) else end
            typed[name] = rng.choice((near, near, near, f"{end}{',' if comma else '.'}1", " ", "0", f"-{end}"))
            typed[name] = values.garbage() if values.chance(0.02) else typed[name]
    if values.chance(0.3):
        typed["position"] = rng.choice("FHVO")
    if comma or values.chance(0.05):
        typed["comma"] = rng.choice((True, True, False))
    if number and values.chance(0.15):
        typed |= {"replaces": f"r{number - 1}", "why": "slip"}
    made: list[Any] = weld(
        f"r{number}", f"{rng.choice(('W1', 'W1', 'W2'))} s.{rng.choice(('root', 'leg', 'cap', 'lost'))}",
        by=rng.choice(WELDERS), welder=rng.choice(WELDERS), procedure=rng.choice(NAMES),
        at=f"{rng.choice(DAYS)}T14:00:00-06:00", **typed,
    )  # fmt: skip
    return made
