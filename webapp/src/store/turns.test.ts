import { expect, test } from "vitest";
import { drawn, first, inSlices, quiet } from "./turns";

test("what is made ready stands back until nobody waits", async () => {
  const told: string[] = [];
  let answer = () => {};
  const waited = first(
    () =>
      new Promise<void>((done) => {
        answer = done;
      }),
  ).then(() => told.push("waited for"));
  const ready = quiet().then(() => told.push("made ready"));
  await new Promise((done) => setTimeout(done, 80));
  expect(told).toEqual([]);
  answer();
  await Promise.all([waited, ready]);
  expect(told).toEqual(["waited for", "made ready"]);
});

test("nobody waits any more for work that has failed", async () => {
  await expect(first(() => Promise.reject(new Error("no")))).rejects.toThrow("no");
  await quiet();
});

test("slices go through all, and stop once they are not wanted", async () => {
  const seen: number[] = [];
  expect(await inSlices([1, 2, 3], (one) => seen.push(one), drawn)).toBe(true);
  expect(seen).toEqual([1, 2, 3]);
  expect(
    await inSlices(
      [4, 5, 6],
      (one) => seen.push(one),
      drawn,
      () => !seen.includes(4),
    ),
  ).toBe(false);
  expect(seen).toEqual([1, 2, 3, 4]);
});
