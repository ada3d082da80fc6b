/** A screen fetched when it is first shown, or before: it is precached, until a newer version takes over. */
import type { ComponentType } from "preact";
import { t } from "../language";
import { useLoaded } from "./use";

// biome-ignore lint/suspicious/noExplicitAny: whatever the screen takes is handed on
type Screen<P = any> = ComponentType<P>;

const all: (() => Promise<unknown>)[] = [];

// biome-ignore lint/suspicious/noExplicitAny: as above
export function lazily<P = any>(load: () => Promise<Screen<P>>): Screen<P> {
  let here: Screen<P> | null = null;
  const fetched = async () => {
    here ??= await load();
    return { Part: here };
  };
  const Lazy = (props: P) => {
    const found = useLoaded(() => fetched().catch(() => ({ Part: null })), []);
    const Part = here ?? found?.Part;
    if (Part) return <Part {...(props as P & object)} />;
    return found ? <Gone /> : null;
  };
  all.push(fetched);
  return Lazy as Screen<P>;
}

/** Fetch every screen while nobody waits for it, in the order in which they were named; what fails is tried later. */
export async function fetchAll(): Promise<void> {
  for (const fetched of all) await fetched().catch(() => {});
}

/** Another tab has taken up a new version, and this screen is no longer there in the old one. */
function Gone() {
  return (
    <main class="screen">
      <div class="body">
        <p role="alert">{t("update-gone")}</p>
        <button type="button" class="button main" onClick={() => location.reload()}>
          {t("trouble-load-again")} <span>›</span>
        </button>
      </div>
    </main>
  );
}
