/** A screen fetched when it is first shown; it is precached all the same. */
import type { ComponentType } from "preact";
import { useLoaded } from "./use";

export function lazily(load: () => Promise<ComponentType>): ComponentType {
  return () => {
    const found = useLoaded(async () => ({ Part: await load() }), []);
    return found ? <found.Part /> : null;
  };
}
