/**
 * What may leave this phone once the server has it.
 *
 * A record that the server took in stays until a verified backup of this very server holds it and 30 days have gone by
 * since this phone heard so: until then it could be asked for again after a restore. Then it may go, but only with its
 * whole job, and only a job that is closed or no longer carried: progress is worked out from all records of a job, so a
 * job half here would look unfinished. The job goes with its pieces, its tags and its cursor, so that it comes back
 * whole where it is carried again. Nothing goes while a record of the job is unsent or missing on the server. What was
 * not taken in stays to be seen.
 */
import { type Store, type StoredRecord, setting, type Writing, withStore, writing } from "./db";
import { carriedJobs, jobList } from "./jobs";

const KEPT = 30 * 86_400_000;
const STORES: Store[] = ["settings", "master", "records", "photos", "photos_sent"];

export interface Backup {
  /** Entries up to this number are in a verified backup. */
  covered: number;
  epoch: string;
}

/** Whether a record could leave, as far as it alone is concerned. */
export function mayGo(record: StoredRecord, { covered, epoch }: Backup, now: number): boolean {
  if (record.state !== "received" || record.number === null || record.received === undefined) return false;
  const ofThisServer = (record.epoch ?? epoch) === epoch;
  return ofThisServer && record.number <= covered && now - record.received >= KEPT;
}

/** Let go of what is no longer needed; the jobs that have left. */
export async function prune(now = Date.now()): Promise<string[]> {
  const names = await withStore((db) => db.getAllKeys("settings"));
  // While all is being pulled anew after a restore, nobody can tell yet what the server has.
  if (names.some((name) => name.startsWith("anew "))) return [];
  const backup = { covered: (await setting<number>("covered")) ?? 0, epoch: (await setting<string>("epoch")) ?? "" };
  const left: string[] = [];
  for (const job of await jobsNotNeeded()) {
    if (await writing(STORES, (tx) => pruneJob(tx, job, backup, now))) left.push(job);
  }
  return left;
}

async function jobsNotNeeded(): Promise<string[]> {
  const [carried, known] = [new Set(await carriedJobs()), new Set((await jobList()).map((job) => job.id))];
  const here = await withStore(async (db) => {
    const found: string[] = [];
    let cursor = await db.transaction("records").store.index("job").openKeyCursor(null, "nextunique");
    for (; cursor; cursor = await cursor.continue()) found.push(cursor.key);
    return found;
  });
  return here.filter((job) => known.has(job) && !carried.has(job));
}

async function pruneJob(tx: Writing, job: string, backup: Backup, now: number): Promise<boolean> {
  const records = tx.objectStore("records");
  const all = await records.index("job").getAll(job);
  const counted = all.filter((record) => record.state !== "not taken in");
  for (const record of counted) {
    // Kept by an app that did not write down when it was received: its 30 days begin now.
    if (record.state === "received" && record.received === undefined) await records.put({ ...record, received: now });
  }
  if (counted.length === 0 || !counted.every((record) => mayGo(record, backup, now))) return false;
  for (const record of counted) {
    await records.delete(record.id);
    await letGoOfPhotos(tx, record, backup.covered);
  }
  const scope = `job:${job}`;
  for (const { key, scope: its } of await tx.objectStore("master").getAll()) {
    if (its === scope) await tx.objectStore("master").delete(key);
  }
  await tx.objectStore("settings").delete(`cursor ${scope}`);
  return true;
}

async function letGoOfPhotos(tx: Writing, record: StoredRecord, covered: number): Promise<void> {
  const named = record.payload.type === "photo" ? [(record.payload.body as { sha256: string }).sha256] : [];
  for (const sha256 of named) {
    const sent = await tx.objectStore("photos_sent").get(sha256);
    if (!sent || sent.after >= covered) continue;
    await tx.objectStore("photos").delete(sha256);
    await tx.objectStore("photos_sent").delete(sha256);
  }
}
