/** Small hooks. */
import { useEffect, useState } from "preact/hooks";
import { changes, type OpenJob, openJob } from "../store/jobs";

/**
 * The value of a promise, asked for anew when one of the inputs changes; undefined until it is there.
 *
 * What takes long asks on its way whether it is still wanted: the screen may have been left.
 */
export function useLoaded<T>(load: (isWanted: () => boolean) => Promise<T>, inputs: unknown[]): T | undefined {
  const [value, setValue] = useState<T>();
  useEffect(() => {
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
