import { expect, test } from "vitest";
import { added, type OpenJob, piecesOf } from "./jobs";
import { emptyStore, note, signer } from "./testing";

const piece = (id: string, joins: string[] = []) => ({ id, mark: id, kind: "plate", joins });

test("a piece that an entry names again is renewed in its place", () => {
  const first = { pieces: [piece("P-1"), piece("P-2"), piece("S-1", ["P-1", "P-2"])] };
  const remade = { pieces: [piece("P-2-R1"), { ...piece("P-2"), remade: "P-2-R1" }, piece("S-1", ["P-1", "P-2-R1"])] };
  const found = piecesOf([first, remade]);
  expect(found.map(({ id }) => id)).toEqual(["P-1", "P-2", "S-1", "P-2-R1"]);
  expect(found[1]?.remade).toBe("P-2-R1");
  expect(found[2]?.joins).toEqual(["P-1", "P-2-R1"]);
});

test("a record that was saved is in the job as the screen has it, though another has taken its place since", async () => {
  await emptyStore();
  const record = await note(await signer());
  const given: string[] = [];
  const shown = {
    records: new Map(),
    progress: { add: (payload: { id: string }) => given.push(payload.id) },
  } as unknown as OpenJob;
  await added(record, shown);
  expect(shown.records.has(record.id)).toBe(true);
  expect(given).toEqual([record.id]);
});
