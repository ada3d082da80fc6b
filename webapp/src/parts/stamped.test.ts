import { expect, test } from "vitest";
import { asStamped } from "./stamped";

test("words that hold a figure are saved in capitals, as they are stamped", () => {
  expect(asStamped(" ht4471a  lot 7b ")).toBe("HT4471A lot 7B");
});

test("words without a figure stay as they were written", () => {
  expect(asStamped("see tally of Mr. Ober")).toBe("see tally of Mr. Ober");
  expect(asStamped("   ")).toBe("");
});
