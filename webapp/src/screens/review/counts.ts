/** The figures of the day: those of the server, less what was signed here and has not arrived. */
import type { Review } from "./asking";
import { signed } from "./signing";

/** How many flags have a word signed here that the server's answer does not know of. state: of the flags it lists. */
export function awayOf({ flags }: Pick<Review, "flags">, state: string): number {
  const listed = new Set(flags.map(({ id }) => id));
  const unknown = ([id, { arrived }]: [string, { arrived: boolean }]) =>
    state === "open" ? listed.has(id) || !arrived : !arrived && !listed.has(id);
  return [...signed.value].filter(unknown).length;
}

export interface Figures {
  /** Flags of the day's records, whatever became of them: the sum of the five that follow. */
  readonly flags: number;
  readonly open: number;
  /** Open at the server and signed here. */
  readonly away: number;
  readonly decided: number;
  readonly on_the_spot: number;
  readonly closed: number;
}

/** The flags of the day's records. Which day a flag signed here is of is known where all that are open are of this one. */
export function ofDay({ of_day: day, open }: Review["counts"], away: number): Figures {
  const own = day.open === open ? Math.min(away, day.open) : 0;
  const { decided, on_the_spot, closed } = day;
  return {
    flags: day.open + decided + on_the_spot + closed,
    open: day.open - own,
    away: own,
    decided,
    on_the_spot,
    closed,
  };
}

/** How many flags each tab lists: open and decided of any day, the others of the day shown. */
export function listedIn({ open, decided, of_day: day }: Review["counts"], away: number): Record<string, number> {
  const left = Math.max(0, open - away);
  return { open: left, decided, "fixed on the spot": day.on_the_spot, closed: day.closed };
}
