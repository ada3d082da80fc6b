import { expect, test } from "vitest";
import { piecesOf } from "./jobs";

const piece = (id: string, joins: string[] = []) => ({ id, mark: id, kind: "plate", joins });

test("a piece that an entry names again is renewed in its place", () => {
  const first = { pieces: [piece("P-1"), piece("P-2"), piece("S-1", ["P-1", "P-2"])] };
  const remade = { pieces: [piece("P-2-R1"), { ...piece("P-2"), remade: "P-2-R1" }, piece("S-1", ["P-1", "P-2-R1"])] };
  const found = piecesOf([first, remade]);
  expect(found.map(({ id }) => id)).toEqual(["P-1", "P-2", "S-1", "P-2-R1"]);
  expect(found[1]?.remade).toBe("P-2-R1");
  expect(found[2]?.joins).toEqual(["P-1", "P-2-R1"]);
});
