/** A server for the tests of the sync: it takes everything in, and can be restored to what it was. */
import { vi } from "vitest";
import { payloadOf } from "../store/keys";

interface Line {
  scope: string;
  kind: string;
  body: unknown;
}

interface Asked {
  waiting: number;
  /** How many pushes were under way when it came. */
  others: number;
  ids: string[];
}

type Verdict = { outcome: string; reason: string };

export class FakeServer {
  epoch = "first";
  covered = 0;
  chain: Line[] = [];
  photos = new Set<string>();
  /** Every push as it came. */
  pushes: Asked[] = [];
  /** What it says of a record instead of taking it in, by id; of a photo, the status, by SHA-256. */
  refuses = new Map<string, Verdict>();
  refusesPhotos = new Map<string, number>();
  /** More records than this in one push are too many. */
  most = 1000;
  dead = false;
  private underWay = 0;

  constructor() {
    vi.stubGlobal("fetch", (path: string, options: RequestInit = {}) => this.answer(path, options));
  }

  announce(kind: string, body: unknown, scope = "shop"): void {
    this.chain.push({ scope, kind, body });
  }

  get head() {
    return { number: this.chain.length, hash: `${this.epoch} ${this.chain.length}` };
  }

  restore(length: number, epoch = "second"): void {
    this.chain.length = length;
    this.epoch = epoch;
    this.covered = 0;
    this.photos.clear();
  }

  private async answer(path: string, options: RequestInit): Promise<Response> {
    if (this.dead) throw new TypeError("no network");
    const url = new URL(path, "http://x");
    if (url.pathname.endsWith("/records")) return this.slowly(await bodyOf(options));
    if (url.pathname.endsWith("/feed")) return this.feed(url.searchParams);
    const sha256 = url.pathname.split("/").at(-1) ?? "";
    const status = this.refusesPhotos.get(sha256);
    if (status) return json({ message: "No such photo is wanted." }, status);
    this.photos.add(sha256);
    return json({ sha256, outcome: "taken in", shown: "yes" });
  }

  private async slowly(body: { records: string[]; waiting: number }): Promise<Response> {
    const others = this.underWay;
    this.underWay += 1;
    await new Promise((done) => setTimeout(done, 5));
    this.underWay -= 1;
    return this.push(body, others);
  }

  private push({ records, waiting }: { records: string[]; waiting: number }, others: number): Response {
    if (records.length > this.most) return json({ message: "Send fewer." }, 413);
    const payloads = records.map((text) => payloadOf<{ id: string; job: string }>(text));
    this.pushes.push({ waiting, others, ids: payloads.map(({ id }) => id) });
    const outcomes = payloads.map(({ id, job }, place) => {
      const refused = this.refuses.get(id);
      if (refused) return { id, ...refused, number: null, verdict: "" };
      let at = this.chain.findIndex((line) => line.body === records[place]);
      if (at < 0) at = this.chain.push({ scope: `job:${job}`, kind: "record", body: records[place] }) - 1;
      return { id, outcome: "taken in", reason: "", number: at + 1, verdict: "recorded" };
    });
    return json({ epoch: this.epoch, head: this.head, covered: this.covered, outcomes });
  }

  private feed(query: URLSearchParams): Response {
    const after = Number(query.get("after"));
    const numbered = this.chain.map((line, place) => ({ ...line, number: place + 1 }));
    const found = numbered.filter((line) => line.scope === query.get("scope") && line.number > after);
    const entries = found.slice(0, 2).map(({ number, kind, body }) => ({ number, kind, body, stamp: {}, verdict: "" }));
    return json({ epoch: this.epoch, head: this.head, covered: this.covered, entries, more: found.length > 2 });
  }
}

async function bodyOf({ body, headers }: RequestInit) {
  const zipped = new Headers(headers).get("Content-Encoding") === "gzip";
  const stream = new Blob([body as ArrayBuffer | string]).stream();
  const plain = zipped ? stream.pipeThrough(new DecompressionStream("gzip")) : stream;
  return (await new Response(plain).json()) as { records: string[]; waiting: number };
}

function json(body: unknown, status = 200): Response {
  return new Response(JSON.stringify(body), { status, headers: { "Content-Type": "application/vnd.seamtag+json" } });
}
