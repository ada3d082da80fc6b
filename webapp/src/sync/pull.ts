/** Pull by the server's sequence: one cursor for the shop, one for each job this phone carries. */
import { call, type Feed } from "../api/client";
import type { Role } from "../core/judging";
import type { Payload } from "../core/records";
import { type Master, type Store, type StoredRecord, setting, type Writing, withStore, writing } from "../store/db";
import { tidings } from "../store/holding-out";
import { carriedJobs } from "../store/jobs";
import { deviceId, payloadOf } from "../store/keys";
import { HEARING, hear, sweep } from "./hearing";

type Entry = Feed["entries"][number];

const SHOP = "shop";
const STORES: Store[] = [...HEARING, "master"];

export interface Pulled {
  /** Whether anything came. */
  came: boolean;
  restored: boolean;
  /** The jobs of which something came; null where something of the shop did, which all jobs share. */
  jobs: string[] | null;
}

/** Pull the shop and every carried job; after a restore, every job that was ever pulled. */
export async function pull(): Promise<Pulled> {
  const shop = await pullScope(SHOP);
  const found: Pulled = { ...shop, jobs: shop.came ? null : [] };
  const scopes = (await carriedJobs()).map((job) => `job:${job}`);
  for (const scope of new Set([...scopes, ...(await toPullAnew())])) {
    const { came, restored } = await pullScope(scope);
    if (came) found.jobs?.push(scope.slice("job:".length));
    found.came ||= came;
    found.restored ||= restored;
  }
  return found;
}

async function toPullAnew(): Promise<string[]> {
  const names = await withStore((db) => db.getAllKeys("settings"));
  return names.filter((name) => name.startsWith("anew job:")).map((name) => name.slice("anew ".length));
}

async function pullScope(scope: string): Promise<Omit<Pulled, "jobs">> {
  const found = { came: false, restored: false };
  for (;;) {
    const after = (await setting<number>(`cursor ${scope}`)) ?? 0;
    const { waiting, oldest, holds } = await tidings();
    const query = new URLSearchParams({
      scope,
      after: String(after),
      device: await deviceId(),
      waiting: String(waiting),
      oldest: String(oldest),
      holds: String(holds),
    });
    const feed = await call<Feed>(`/feed?${query}`);
    const restored = await writing(STORES, async (tx) => {
      const anew = await hear(tx, feed, true);
      if (!anew) await apply(tx, scope, feed);
      return anew;
    });
    found.restored ||= restored;
    found.came ||= feed.entries.length > 0;
    if (!restored && !feed.more) return found;
  }
}

async function apply(tx: Writing, scope: string, feed: Feed): Promise<void> {
  for (const entry of feed.entries) {
    if (entry.kind === "record") await keep(tx, entry, feed.epoch);
    else await tx.objectStore("master").put(master(scope, entry, feed.epoch));
  }
  const last = feed.entries.at(-1);
  if (last) await tx.objectStore("settings").put(last.number, `cursor ${scope}`);
  if (!feed.more) await sweep(tx, scope, feed.epoch);
}

/** Keep a record of the feed: as the server has it, but with the day on which this phone first heard of it. */
async function keep(tx: Writing, entry: Entry, epoch: string): Promise<void> {
  const records = tx.objectStore("records");
  const text = entry.body as string;
  const payload = payloadOf<Payload>(text);
  const here = await records.get(payload.id);
  if (here && here.text !== text && here.state !== "received") await setAside(tx, here);
  const record: StoredRecord = {
    id: payload.id,
    job: payload.job,
    piece: payload.piece,
    text,
    payload,
    role: ((entry.stamp as { role?: string }).role ?? "") as Role,
    state: "received",
    number: entry.number,
    verdict: entry.verdict ?? "",
    reason: "",
    received: here?.received ?? Date.now(),
    epoch,
  };
  await records.put(record);
}

/** The server has another record under the id of one made here: this phone's own stays, under a name of its own. */
async function setAside(tx: Writing, own: StoredRecord): Promise<void> {
  const id = `${own.id} of this phone`;
  await tx.objectStore("records").put({ ...own, id });
  const row = await tx.objectStore("outbox").get(own.id);
  if (!row) return;
  await tx.objectStore("outbox").delete(own.id);
  await tx.objectStore("outbox").put({ ...row, id });
}

/** Master data by what it is about: the newest of a person, a gauge, a job; every basis, list of pieces and of tags. */
function master(scope: string, entry: Entry, epoch: string): Master {
  const body = entry.body as { id?: string; hash?: string; kid?: string };
  const name = body.id ?? body.hash ?? body.kid ?? String(entry.number);
  const key = entry.kind === "shop" ? "shop" : `${entry.kind} ${scope} ${name}`;
  return { key, kind: entry.kind, scope, number: entry.number, body: entry.body, epoch };
}
