import { describe, expect, test } from "vitest";
import { differences, inLine, type PlanSource } from "./plan-diff";

const PLAN: PlanSource = {
  plan: "p",
  title: "A plan",
  notice: "made up",
  stages: [{ number: "1", name: "Seams" }],
  figures: { t: { uom: "in", what: "thickness" } },
  steps: [
    {
      code: "fit",
      number: "1.1",
      name: "Fit-up",
      stage: "1",
      kinds: ["seam"],
      points: [{ party: "QC", point: "H" }],
      items: [
        { code: "gap", name: "Root opening", kind: "measure", upper: "1/8" },
        { code: "clean", name: "Clean", kind: "visual" },
      ],
    },
    { code: "done", number: "1.2", name: "Done", stage: "1", kinds: ["seam"], points: [], items: [] },
  ],
};

function changed(change: (plan: PlanSource) => void): PlanSource {
  const copy = structuredClone(PLAN);
  change(copy);
  return copy;
}

describe("what differs", () => {
  test("nothing, between a plan and itself", () => expect(differences(PLAN, structuredClone(PLAN))).toEqual([]));

  test("a limit, a point and a figure", () => {
    const after = changed((plan) => {
      const [fit] = plan.steps;
      if (fit?.items[0]) fit.items[0].upper = "3/32";
      if (fit) fit.points = [...fit.points, { party: "AI", point: "W" }];
      plan.figures = { t: { uom: "mm", what: "thickness" } };
    });
    expect(differences(PLAN, after)).toEqual([
      { place: "figure t", field: "uom", before: "in", after: "mm" },
      { place: "fit", field: "points", before: "party QC point H", after: "party QC point H, party AI point W" },
      { place: "fit.gap", field: "upper", before: "1/8", after: "3/32" },
    ]);
  });

  test("what came, what went, and what changed places", () => {
    const after = changed((plan) => {
      plan.steps.reverse();
      plan.steps[1]?.items.pop();
      plan.steps[1]?.items.push({ code: "off", name: "Offset", kind: "measure" });
    });
    expect(differences(PLAN, after)).toEqual([
      { place: "done", field: "order", before: "2", after: "1" },
      { place: "fit", field: "order", before: "1", after: "2" },
      { place: "fit.off", field: "", before: "", after: "Offset" },
      { place: "fit.clean", field: "", before: "Clean", after: "" },
    ]);
  });
});

test("values in a line", () => {
  expect(inLine({ clock: 4 })).toBe("clock 4");
  expect(inLine(["a", "b"])).toBe("a, b");
  expect(inLine(undefined)).toBe("");
});
