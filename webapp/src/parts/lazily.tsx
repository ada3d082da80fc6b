/** A screen fetched when it is first shown; it is precached all the same. */
import type { ComponentType } from "preact";
import { useLoaded } from "./use";

// biome-ignore lint/suspicious/noExplicitAny: whatever the screen takes is handed on
export function lazily<P = any>(load: () => Promise<ComponentType<P>>): ComponentType<P> & { fetch: () => void } {
  let here: ComponentType<P> | null = null;
  const fetched = async () => {
    here = await load();
    return { Part: here };
  };
  const Lazy = (props: P) => {
    const found = useLoaded(async () => (here ? { Part: here } : fetched()), []);
    const Part = here ?? found?.Part;
    return Part ? <Part {...(props as P & object)} /> : null;
  };
  return Object.assign(Lazy as ComponentType<P>, { fetch: () => void fetched() });
}
