/** What was drawn over a photo: a layer of marks beside it. The photo itself stays as it was taken. */
import { isA, type Judged } from "./judging";
import { areMarks, type PhotoMark } from "./records";
import { inOrder } from "./text";

/** A layer: the person whose it is, and its marks. */
export interface Layer {
  readonly by: string;
  readonly marks: readonly PhotoMark[];
}

/**
 * The layers over a photo: of each person the newest, in the order of the records' ids.
 *
 * records: of one piece; voids: the ids of those made void. A layer of a form this schema does not know is left out.
 */
export function layersOf(
  records: readonly Judged[],
  voids: { has(id: string): boolean },
  sha256: string,
): readonly Layer[] {
  const newest = new Map<string, Layer>();
  for (const record of [...records].sort((a, b) => inOrder(a.id, b.id))) {
    if (!isA(record, "photo") || record.body.sha256 !== sha256 || voids.has(record.id)) continue;
    const { by } = record.payload;
    if (!areMarks(record.body.marks)) continue;
    newest.delete(by);
    newest.set(by, { by, marks: record.body.marks.map(asMark) });
  }
  return [...newest.values()];
}

/** A mark with its own fields alone. */
function asMark({ shape, x1, y1, x2, y2 }: PhotoMark): PhotoMark {
  return { shape, x1, y1, x2, y2 };
}
