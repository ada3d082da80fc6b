import { describe, expect, test } from "vitest";
import { Job, type JobData, present } from "../core/job";
import type { Role } from "../core/judging";
import { textOf } from "../core/numbers";
import { Progress } from "../core/progress";
import type { Payload } from "../core/records";
import { vectors } from "../core/vectors";
import type { OpenJob } from "../store/jobs";
import { fedItems, withReading } from "./fed";
import { fedText } from "./fed-lines";

const { jobs } = vectors<{ jobs: Record<string, JobData> }>("progress");
const data = present(jobs.tubes, "the vectors have no job 'tubes'");
const PIECE = "S1";
const BASIS = present(data.bases.at(-1), "the job has no basis");

let count = 0;

function reading(step: string, item: string, station: string, entered: string): [Payload, Role] {
  count += 1;
  const place = { piece: PIECE, step, item, station, basis: BASIS, by: "ann", at: "2026-11-20T09:00:00Z" };
  return [{ id: `r${count}`, type: "reading", body: { entered, uom: "in" }, ...place } as unknown as Payload, ""];
}

function fed(records: [Payload, Role][], step: string, item: string, station: string, entered: string, replaces = "") {
  const job: OpenJob = {
    id: data.id,
    title: "",
    progress: new Progress(new Job(data), records),
    whole: true,
    pieces: new Map(),
    tags: new Map(),
    retired: new Set(),
    records: new Map(),
  };
  const about = present(job.progress.job.steps.get(step), step);
  const into = fedItems(job.progress.job, PIECE, about, present(job.progress.job.item(step, item), item));
  const said = { body: { entered, uom: "in" }, station, by: "ann", replaces, under: [] };
  return withReading(job, PIECE, { step, item }, said, into);
}

const shown = (found: ReturnType<typeof fed>) =>
  found.map(({ item, station, found: { value, verdict } }) => [
    item.code,
    station,
    value && textOf(value),
    verdict.word,
  ]);

describe("values worked out with a reading that is not saved", () => {
  test("wait for the others", () => {
    expect(shown(fed([], "round", "od", "front 0", "60"))[0]).toEqual(["oval", "front", null, "open"]);
  });

  test("are those of its station alone, and say how they would be judged", () => {
    const first = reading("round", "od", "front 0", "60");
    const found = fed([first, reading("round", "od", "rear 0", "69")], "round", "od", "front 90", "60.01");
    expect(found.every(({ station }) => station === "front")).toBe(true);
    expect(shown(found)[0]?.slice(0, 3)).toEqual(["oval", "front", "0.01"]);
  });

  test("a reading made again takes the place of the one before", () => {
    const [first, second] = [reading("round", "od", "front 0", "60"), reading("round", "od", "front 90", "61")];
    const found = fed([first, second], "round", "od", "front 90", "60.01", second[0].id);
    expect(shown(found)[0]?.[2]).toBe("0.01");
  });

  test("leave the job as it is", () => {
    const progress = new Progress(new Job(data), [reading("round", "od", "front 0", "60")]);
    const job = { id: data.id, progress } as unknown as OpenJob;
    const step = present(progress.job.steps.get("round"), "round");
    const into = fedItems(progress.job, PIECE, step, present(progress.job.item("round", "od"), "od"));
    const said = { body: { entered: "60.01", uom: "in" }, station: "front 90", by: "ann", replaces: "", under: [] };
    withReading(job, PIECE, { step: "round", item: "od" }, said, into);
    expect(progress.records.size).toBe(1);
  });

  test("are a sentence each", () => {
    const first = reading("round", "od", "front 0", "60");
    const [oval] = fed([first], "round", "od", "front 90", "60.01");
    expect(fedText(present(oval, "nothing is fed"))).toMatch(/^oval, front: 0.01 in, /);
    const [waits] = fed([], "round", "od", "front 90", "60.01");
    expect(fedText(present(waits, "nothing is fed"))).toBe("oval, front: waits for other readings");
  });
});
