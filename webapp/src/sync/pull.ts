/** Pull by the server's sequence: one cursor for the shop, one for each job this phone carries. */
import { call, type Feed } from "../api/client";
import type { Role } from "../core/judging";
import type { Payload } from "../core/records";
import { type StoredRecord, setting, type Writing, withStore, writing } from "../store/db";
import { jobList } from "../store/jobs";
import { deviceId, payloadOf } from "../store/keys";

type Entry = Feed["entries"][number];

const SHOP = "shop";

/** Pull the shop and every carried job; whether anything came. */
export async function pull(): Promise<boolean> {
  let came = await pullScope(SHOP);
  const carried = await setting<string[]>("carried");
  const open = (await jobList()).filter((job) => job.open).map((job) => job.id);
  for (const job of carried ?? open) came = (await pullScope(`job:${job}`)) || came;
  return came;
}

async function pullScope(scope: string): Promise<boolean> {
  let came = false;
  for (;;) {
    const after = (await setting<number>(`cursor ${scope}`)) ?? 0;
    const waiting = await withStore((db) => db.count("outbox"));
    const query = new URLSearchParams({
      scope,
      after: String(after),
      device: await deviceId(),
      waiting: String(waiting),
    });
    const feed = await call<Feed>(`/feed?${query}`);
    if (await startsOver(feed)) continue;
    await writing(["master", "records", "settings"], (tx) => apply(tx, scope, feed));
    came ||= feed.entries.length > 0;
    if (!feed.more) return came;
  }
}

/** A new epoch, or a head behind this phone's own: the server was restored. Send all again, pull from the start. */
async function startsOver(feed: Feed): Promise<boolean> {
  const epoch = await setting<string>("epoch");
  const head = await setting<{ number: number }>("head");
  const restored = epoch !== undefined && (epoch !== feed.epoch || (head?.number ?? 0) > feed.head.number);
  await writing(["settings", "records", "outbox"], async (tx) => {
    const settings = tx.objectStore("settings");
    await settings.put(feed.epoch, "epoch");
    await settings.put(feed.head, "head");
    if (!restored) return;
    for (const name of await settings.getAllKeys()) if (name.startsWith("cursor ")) await settings.delete(name);
    for (const record of await tx.objectStore("records").getAll()) {
      if (record.state === "received") await tx.objectStore("outbox").put({ id: record.id, order: Date.now() });
    }
  });
  return restored;
}

async function apply(tx: Writing, scope: string, feed: Feed): Promise<void> {
  for (const entry of feed.entries) {
    if (entry.kind === "record") await tx.objectStore("records").put(storedRecord(entry));
    else await tx.objectStore("master").put(master(scope, entry));
  }
  const last = feed.entries.at(-1);
  if (last) await tx.objectStore("settings").put(last.number, `cursor ${scope}`);
}

function storedRecord(entry: Entry): StoredRecord {
  const payload = payloadOf<Payload>(entry.body as string);
  const role = ((entry.stamp as { role?: string }).role ?? "") as Role;
  return {
    id: payload.id,
    job: payload.job,
    piece: payload.piece,
    text: entry.body as string,
    payload,
    role,
    state: "received",
    number: entry.number,
    verdict: entry.verdict ?? "",
    reason: "",
  };
}

/** Master data by what it is about: the newest of a person, a gauge, a job; every basis, list of pieces and of tags. */
function master(scope: string, entry: Entry) {
  const body = entry.body as { id?: string; hash?: string; kid?: string };
  const name = body.id ?? body.hash ?? body.kid ?? String(entry.number);
  const key = entry.kind === "shop" ? "shop" : `${entry.kind} ${scope} ${name}`;
  return { key, kind: entry.kind, scope, number: entry.number, body: entry.body };
}
