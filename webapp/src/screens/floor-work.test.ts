import { describe, expect, test } from "vitest";
import { Job, type JobData, type Piece } from "../core/job";
import type { Role } from "../core/judging";
import { Progress } from "../core/progress";
import type { Bodies, Kind, Payload } from "../core/records";
import type { OpenJob } from "../store/jobs";
import { floorInSlices, floorNow, floorWork } from "./floor-work";

const BASIS = { plan: "p", figures: 1 };
const CLOCK = ["12", "1:30", "3", "4:30", "6", "7:30", "9", "10:30"];
const num = (text: string) => ({ tree: ["num", text] as const, text });

function jobData(pieces: Piece[]): JobData {
  const gap = {
    code: "gap",
    name: "Gap",
    kind: "measure",
    uom: "in",
    lower: num("0.0625"),
    upper: num("0.125"),
  } as const;
  const plan = {
    stages: [{ number: "1" }, { number: "2" }],
    agree: { shop: [], code: ["engineering", "AI"] },
    steps: [
      {
        code: "fit",
        number: "1.1",
        name: "Fit-up",
        stage: "1",
        kinds: ["seam"],
        points: [
          { party: "maker", point: "sign", trade: "fitter" },
          { party: "QC", point: "H" },
          { party: "AI", point: "W" },
        ],
        items: [{ ...gap, binds: "code", stations: { style: "clock", names: CLOCK } }],
      },
      {
        code: "weld",
        number: "2.1",
        name: "Welding",
        stage: "2",
        kinds: ["seam"],
        points: [
          { party: "maker", point: "sign", trade: "welder" },
          { party: "QC", point: "H" },
        ],
        items: [{ code: "look", name: "Look", kind: "visual" }],
      },
    ],
  } as const;
  return { id: "J", bases: [BASIS], plans: { p: plan }, figure_sets: { 1: { values: {} } }, pieces };
}

let count = 0;

interface Place {
  piece?: string;
  step?: string;
  item?: string;
  station?: string;
  by?: string;
  under?: string[];
  replaces?: string;
}

function made<K extends Kind>(type: K, body: Bodies[K], place: Place = {}): [Payload, Role] {
  count += 1;
  const id = `00000000-${String(count).padStart(8, "0")}`;
  const common = { id, schema: 1, core: 1, job: "J", device: "d", seq: count, prev: "", found_by: "list" };
  const about = { piece: "W-1", by: "ann", basis: BASIS, at: "2026-11-20T09:00:00-06:00", ...place };
  return [{ ...common, ...about, type, body } as unknown as Payload, "held"];
}

function gap(entered: string, station: string, place: Place = {}): [Payload, Role] {
  return made("reading", { entered, uom: "in" }, { step: "fit", item: "gap", station, ...place });
}

function open(records: [Payload, Role][], pieces: Piece[] = [{ id: "W-1", mark: "W-1", kind: "seam" }]): OpenJob {
  const progress = new Progress(new Job(jobData(pieces)), records);
  return {
    id: "J",
    title: "",
    progress,
    whole: true,
    pieces: progress.job.pieces,
    tags: new Map(),
    retired: new Set(),
    records: new Map(),
  };
}

const inspector = { person: "ann", roles: ["inspector"] };
const fitter = { person: "bob", roles: ["fitter"] };
const welder = { person: "cec", roles: ["welder"] };
const visitor = { person: "dan", roles: ["authorized inspector"] };
const engineer = { person: "eve", roles: ["engineer"] };

function signed(party: "maker" | "QC" | "AI", covers: string[], under: string[] = [], step = "fit"): [Payload, Role] {
  return made("sign-off", { party, covers }, { step, under, by: party });
}

const ids = (records: [Payload, Role][]) => records.map(([payload]) => payload.id);

describe("rework and repair", () => {
  const [bad, photo] = [gap("1/4", "12"), made("photo", picture("a"), { step: "fit", item: "gap" })];
  const asked = made("disposition", {
    about: { records: ids([bad]), flag: "out of tolerance", verdict: "out of tolerance" },
    disposition: "repair",
    reason: "Build up and grind",
    ncr: "N-7",
  });

  test("stand with their reason, NCR number and the photo of what was found", () => {
    const [line, ...more] = floorNow([open([bad, photo, asked])], fitter).rework;
    expect(more).toEqual([]);
    expect(line).toMatchObject({ mark: "W-1", step: "fit", item: "gap", itemName: "Gap", station: "12" });
    expect(line).toMatchObject({ disposition: "repair", reason: "Build up and grind", ncr: "N-7", photo: "a" });
  });

  test("are the shop's to look at, the trade's to do, and nobody else's", () => {
    const job = open([bad, photo, asked]);
    expect(floorNow([job], inspector).rework).toHaveLength(1);
    expect(floorNow([job], welder).rework).toEqual([]);
    expect(floorNow([job], visitor).rework).toEqual([]);
  });

  test("are gone once what was found is measured anew, and a later photo is not of what was found", () => {
    const later = made("photo", picture("b"), { step: "fit", item: "gap" });
    const anew = gap("3/32", "12", { replaces: bad[0].id, under: [asked[0].id] });
    expect(floorNow([open([bad, photo, asked, later])], fitter).rework[0]?.photo).toBe("a");
    expect(floorNow([open([bad, photo, asked, anew])], fitter).rework).toEqual([]);
  });

  test("a whole step asked again is one line until it is complete", () => {
    const again = made("disposition", {
      about: { records: ids([bad]), flag: "out of tolerance" },
      disposition: "rework",
      reason: "Cut and fit again",
      again: ["weld"],
    });
    const lines = floorNow([open([bad, again])], inspector).rework;
    expect(lines.map((line) => [line.step, line.item])).toEqual([
      ["fit", "gap"],
      ["weld", ""],
    ]);
  });

  function picture(sha256: string): Bodies["photo"] {
    return { sha256, media_type: "image/jpeg", bytes: 1, width: 1, height: 1 };
  }
});

describe("steps in turn", () => {
  const all = CLOCK.map((station) => gap("3/32", station));
  const steps = (job: OpenJob, who: { person: string; roles: string[] }) => {
    const { ready, begun } = floorNow([job], who);
    return [ready.map((turn) => [turn.step, turn.state]), begun.map((turn) => [turn.step, turn.met, turn.asked])];
  };

  test("nothing is begun: the fitter's turn, by his trade", () => {
    expect(steps(open([]), fitter)).toEqual([[["fit", "open"]], []]);
    expect(steps(open([]), welder)).toEqual([[], []]);
    expect(steps(open([]), inspector)).toEqual([[], []]);
  });

  test("what I began and did not finish is mine", () => {
    expect(steps(open([gap("3/32", "12", { by: "bob" })]), fitter)).toEqual([[], [["fit", 0, 1]]]);
    expect(steps(open([gap("3/32", "12")]), fitter)).toEqual([[["fit", "started"]], []]);
  });

  test("complete: ready for whoever signs next; what stands behind a hold is not offered", () => {
    const sign = signed("maker", ids(all));
    expect(steps(open([...all, sign]), inspector)).toEqual([[["fit", "complete"]], []]);
    const held = signed("QC", ids(all), ids([sign]));
    expect(steps(open([...all, sign, held]), visitor)).toEqual([[["fit", "complete"]], []]);
    expect(steps(open([...all, sign, held]), welder)).toEqual([[], []]);
    const witness = signed("AI", ids(all), ids([sign, held]));
    expect(steps(open([...all, sign, held, witness]), welder)).toEqual([[["weld", "open"]], []]);
  });
});

test("a piece that was scrapped meanwhile is offered no more", () => {
  const job = open([gap("3/32", "12")]);
  expect(floorNow([job], fitter).ready).toHaveLength(1);
  const about = { records: [], flag: "rejected" };
  job.progress.add(...made("disposition", { about, disposition: "scrap", reason: "Cut too short" }));
  expect(floorNow([job], fitter).ready).toEqual([]);
});

describe("calls", () => {
  const call = (body: Partial<Bodies["call"]>, party: "AI" | "customer" = "AI") =>
    made("call", { party, ...body }, { step: "fit" });

  test("stand with when and what was answered; a call anew asks anew", () => {
    const first = call({ when: "2026-11-26 09:00" });
    const line = { party: "AI", when: "2026-11-26 09:00", answer: "" };
    expect(floorNow([open([first])], inspector).calls).toMatchObject([line]);
    expect(floorNow([open([first])], visitor).calls).toMatchObject([line]);
    const coming = call({ answer: "coming" });
    expect(floorNow([open([first, coming])], inspector).calls).toMatchObject([{ ...line, answer: "coming" }]);
    const anew = call({ when: "2026-11-27 10:00" });
    expect(floorNow([open([first, coming, anew])], inspector).calls).toMatchObject([
      { when: "2026-11-27 10:00", answer: "" },
    ]);
  });

  test("are not a maker's, nor another party's", () => {
    const job = open([call({ when: "2026-11-26 09:00" })]);
    expect(floorNow([job], fitter).calls).toEqual([]);
    expect(floorNow([job], { person: "cus", roles: ["customer"] }).calls).toEqual([]);
  });
});

test("a note passed on is everybody's until it is cleared", () => {
  const note = made("note", { text: "Strongback at 4:30", pass_on: true });
  expect(floorNow([open([note])], welder).notes).toMatchObject([{ text: "Strongback at 4:30", mark: "W-1" }]);
  expect(floorNow([open([note, made("note", { text: "Seen", clears: note[0].id })])], welder).notes).toEqual([]);
});

test("a use as is waits for the parties its limit binds by", () => {
  const bad = gap("1/4", "12");
  const about = { records: ids([bad]), flag: "out of tolerance", verdict: "out of tolerance" };
  const asked = made("disposition", { about, disposition: "use as is", reason: "Far from the weld" });
  const job = open([bad, asked]);
  expect(floorNow([job], engineer).asked).toHaveLength(1);
  expect(floorNow([job], fitter).asked).toEqual([]);
  const agreed = made("agreement", { disposition: asked[0].id, party: "engineering" });
  expect(floorNow([open([bad, asked, agreed])], engineer).asked).toEqual([]);
});

describe("2,000 pieces and 50,000 records", () => {
  const pieces = Array.from({ length: 2000 }, (_, at) => ({ id: `W-${at}`, mark: `W-${at}`, kind: "seam" }));
  const records = pieces.flatMap(({ id }, at) => {
    const twice = [...CLOCK, ...CLOCK.map((hour) => `${hour} again`)].map((hour) => gap("3/32", hour, { piece: id }));
    const sign = at % 2 === 0 ? [{ ...signed("maker", ids(twice))[0], piece: id }] : [];
    const photos = Array.from({ length: 9 - sign.length }, () => made("note", { text: "note" }, { piece: id }));
    return [...twice, ...sign.map((one): [Payload, Role] => [one as Payload, "held"]), ...photos];
  });

  test("are worked out once, and after one record only its piece is", async () => {
    expect(records).toHaveLength(50_000);
    const job = open(records, pieces);
    const [first, floor] = timed(() => floorNow([job], inspector));
    expect(floor.ready).toHaveLength(1000);
    job.progress.add(...gap("1/4", "12", { piece: "W-7", by: "ann" }));
    const [afterOne] = timed(() => floorNow([job], inspector));
    expect(afterOne).toBeLessThan(first / 4);
    expect(await floorInSlices([job], inspector)).toEqual(floorNow([job], inspector));
  });

  test("only the piece that has a new record is worked out anew", () => {
    const job = open(records.slice(0, 100), pieces.slice(0, 4));
    expect([...floorWork([job], inspector)]).toHaveLength(4);
    expect([...floorWork([job], inspector)]).toHaveLength(0);
    job.progress.add(...gap("1/4", "12", { piece: "W-2" }));
    expect([...floorWork([job], inspector)]).toHaveLength(1);
    expect([...floorWork([job], fitter)]).toHaveLength(4);
  });

  function timed<T>(work: () => T): [number, T] {
    const began = performance.now();
    const found = work();
    return [Math.round(performance.now() - began), found];
  }
});
