import { expect, test } from "vitest";
import { verdictOf } from "./verdict";

test("a study comes to the worst of what its figures mean", () => {
  const parts = "tells the parts apart";
  expect(verdictOf([parts, "takes too much of the tolerance", "more of it comes from the operators"])).toEqual({
    means: "takes too much of the tolerance",
    shape: "out",
  });
  expect(verdictOf([`${parts} in few classes`, "takes little of the tolerance"]).shape).toBe("close");
  expect(verdictOf([parts, "takes little of the tolerance"]).means).toBe("takes little of the tolerance");
  expect(verdictOf([parts, "the operators read differently"])).toEqual({ means: parts, shape: "in" });
});
