/** Master data as it lies in the store, by kind or by kind and scope: each read once until some is written. */
import { type Master, withStore, written } from "./db";

export interface Row<T> {
  readonly scope: string;
  readonly number: number;
  readonly body: T;
}

/** What was read, by the beginning of its keys. It holds until this tab has written some, or another tells of a change. */
const kept = new Map<string, { rows: Promise<Master[]>; at: number | undefined }>();

export function forgetMasters(): void {
  kept.clear();
}

/**
 * The rows of a kind; scope: only those of a job. Keys begin with the kind and the scope (sync/pull.ts); of the shop
 * itself there is one row, under its kind alone.
 */
export async function masterOf<T>(kind: string, scope = ""): Promise<Row<T>[]> {
  const begins = scope ? `${kind} ${scope}` : kind;
  const at = written.get("master");
  const known = kept.get(begins);
  const mine = known && known.at === at ? known : { rows: read(begins), at };
  kept.set(begins, mine);
  const all = await mine.rows.catch((error) => {
    if (kept.get(begins) === mine) kept.delete(begins);
    throw error;
  });
  return all
    .filter((row) => row.kind === kind && (!scope || row.scope === scope))
    .map(({ scope: its, number, body }) => ({ scope: its, number, body: body as T }));
}

function read(begins: string): Promise<Master[]> {
  return withStore((db) => db.getAll("master", IDBKeyRange.bound(begins, `${begins} \uffff`)));
}
