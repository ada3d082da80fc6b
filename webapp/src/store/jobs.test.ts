import { beforeEach, describe, expect, test } from "vitest";
import type { JobData, Piece } from "../core/job";
import { type StoredRecord, withStore } from "./db";
import { added, changed, changes, findTag, jobList, makeReady, openJob, openPiece, readyJob, workedOn } from "./jobs";
import { type OpenJob, piecesOf } from "./opening";
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

const PLAN = {
  stages: [{ number: "1" }],
  steps: [
    {
      code: "fit",
      number: "1.1",
      stage: "1",
      kinds: ["plate", "seam"],
      points: [{ party: "QC", point: "H" }],
      items: [{ code: "look", kind: "visual" }],
    },
  ],
} as const satisfies JobData["plans"][string];
const PIECES: readonly Piece[] = ["P-1", "P-2", "P-3", "P-4"].map((id) => ({
  id: `T1.${id}`,
  mark: id,
  kind: "plate",
}));

let count = 0;

function seen(
  at: string,
  result: "accept" | "reject" = "accept",
  state: StoredRecord["state"] = "received",
): StoredRecord {
  count += 1;
  const id = `00000000-${String(count).padStart(8, "0")}`;
  const place = { job: "T1", piece: `T1.${at}`, step: "fit", item: "look", by: "ann", at: "2026-11-20T09:00:00-06:00" };
  const payload = { id, basis: { plan: "p", figures: 1 }, ...place, type: "visual", body: { result } };
  const kept = { id, job: "T1", piece: place.piece, text: "", payload, role: "", state, number: null, verdict: "" };
  return { ...kept, reason: "" } as unknown as StoredRecord;
}

const put = (record: StoredRecord) => withStore((db) => db.put("records", record));

async function jobHere(): Promise<void> {
  await emptyStore();
  const of = (kind: string, scope: string, body: unknown, name = "1") => ({
    key: `${kind} ${scope} ${name}`,
    kind,
    scope,
    number: 1,
    body,
  });
  const rows = [
    of("job", "shop", { id: "T1", title: "A drum", open: true }, "T1"),
    of("plan", "shop", { hash: "p", document: PLAN }, "p"),
    of("basis", "job:T1", { plan: "p", figures: 1, values: {}, drawings: {} }),
    of("pieces", "job:T1", { pieces: PIECES }),
    of("pieces", "job:T1 again", { pieces: [{ id: "X", mark: "X", kind: "plate" }] }),
    of("tags", "job:T1", { tags: { CODE: "T1.P-1" } }),
  ];
  await withStore(async (db) => {
    for (const row of rows) await db.put("master", row);
  });
  changed();
}

const stateOf = (job: OpenJob | null, at = "P-1") => job?.progress.step(`T1.${at}`, "fit").items.get("look")?.state;

describe("a job for one piece", () => {
  beforeEach(jobHere);

  test("is there with what the piece needs, and then as a whole with the same state", async () => {
    await put(seen("P-1"));
    await put(seen("P-2", "reject"));
    const part = await openPiece("T1", "T1.P-1");
    expect([part?.whole, part?.progress.records.size, part?.title]).toEqual([false, 1, "A drum"]);
    expect([part?.pieces.size, part?.records.size]).toEqual([4, 2]);
    const whole = await readyJob("T1");
    expect([whole?.whole, whole?.progress.records.size]).toEqual([true, 2]);
    expect(whole?.progress.piece("T1.P-1").steps).toEqual(part?.progress.piece("T1.P-1").steps);
    expect(await openPiece("T1", "T1.P-2")).toBe(whole);
    expect(await openJob("T1")).toBe(whole);
  });

  test("leaves out what was not taken in, as the whole does", async () => {
    await put(seen("P-1", "reject", "not taken in"));
    expect(stateOf(await openPiece("T1", "T1.P-1"))).toBe("open");
    expect(stateOf(await openJob("T1"))).toBe("open");
  });

  test("has a record that is saved while it is shown, and so has the whole that follows", async () => {
    expect(stateOf(await openPiece("T1", "T1.P-1"))).toBe("open");
    const record = seen("P-1", "accept", "saved");
    await put(record);
    await added(record);
    expect(stateOf(await openPiece("T1", "T1.P-1"))).toBe("met");
    expect(stateOf(await readyJob("T1"))).toBe("met");
  });

  test("saved while the whole is being put together of what was read before, a record is in it all the same", async () => {
    await openPiece("T1", "T1.P-1");
    const following = readyJob("T1");
    const record = seen("P-1", "accept", "saved");
    await put(record);
    await added(record);
    expect(stateOf(await following)).toBe("met");
  });

  test("is read anew once something of the job has come", async () => {
    expect(stateOf(await openPiece("T1", "T1.P-1"))).toBe("open");
    await put(seen("P-1"));
    const before = changes.value;
    changed(["T1"]);
    expect(changes.value).toBeGreaterThan(before);
    expect(stateOf(await openPiece("T1", "T1.P-1"))).toBe("met");
  });

  test("is never that of another piece", async () => {
    await put(seen("P-2", "reject"));
    expect(stateOf(await openPiece("T1", "T1.P-1"))).toBe("open");
    expect(stateOf(await openPiece("T1", "T1.P-2"), "P-2")).toBe("flagged");
    expect((await openPiece("T1", "T1.P-9"))?.pieces.has("T1.P-9")).toBe(false);
    expect(await openPiece("T2", "T1.P-1")).toBeNull();
  });
});

test("master data of a job is read anew when another tab tells of it", async () => {
  await jobHere();
  expect(await findTag("CODE")).toEqual({ job: "T1", piece: "T1.P-1" });
  expect(await findTag("NEW")).toBeNull();
  const row = { key: "tags job:T1 2", kind: "tags", scope: "job:T1", number: 2, body: { tags: { NEW: "T1.P-2" } } };
  await withStore((db) => db.put("master", row));
  changed(["T1"]);
  expect(await findTag("NEW")).toEqual({ job: "T1", piece: "T1.P-2" });
  expect((await jobList()).map(({ id }) => id)).toEqual(["T1"]);
});

test("the job that was worked on last is ready before anybody asks", async () => {
  await jobHere();
  await put(seen("P-1"));
  workedOn("T1");
  await makeReady();
  expect((await openPiece("T1", "T1.P-1"))?.whole).toBe(true);
});
