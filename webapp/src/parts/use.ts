/** Small hooks. */
import { useLayoutEffect, useState } from "preact/hooks";
import { changes, type OpenJob, openJob, openPiece, readyJob, workedOn } from "../store/jobs";

/**
 * The value of a promise, asked for anew when one of the inputs changes; undefined until it is there.
 *
 * It is asked for before the screen is drawn, so that what is here already is not a frame late. What takes long asks on
 * its way whether it is still wanted: the screen may have been left.
 */
export function useLoaded<T>(load: (isWanted: () => boolean) => Promise<T>, inputs: unknown[]): T | undefined {
  const [value, setValue] = useState<T>();
  useLayoutEffect(() => {
    let live = true;
    void load(() => live).then((found) => live && setValue(() => found));
    return () => {
      live = false;
    };
  }, inputs);
  return value;
}

/** A job that this phone carries; null where it carries none of this id. */
export function useJob(id: string): OpenJob | null | undefined {
  const found = useLoaded(async () => ({ job: await openJob(id) }), [id, changes.value]);
  return found === undefined ? undefined : found.job;
}

/**
 * A job for the screen of one of its pieces: as soon as this piece's state is worked out, and then the whole job, which
 * says the same of it.
 */
export function usePiece(id: string, piece: string): OpenJob | null | undefined {
  const [found, setFound] = useState<{ id: string; piece: string; job: OpenJob | null }>();
  useLayoutEffect(() => {
    let live = true;
    const show = (job: OpenJob | null) => live && setFound({ id, piece, job });
    void openPiece(id, piece).then(async (job) => {
      show(job);
      if (job) workedOn(id);
      if (job && !job.whole) show(await readyJob(id));
    });
    return () => {
      live = false;
    };
  }, [id, piece, changes.value]);
  return found?.id === id && found.piece === piece ? found.job : undefined;
}
