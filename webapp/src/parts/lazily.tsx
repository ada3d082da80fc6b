/** A screen fetched when it is first shown, or before: it is precached, until a newer version takes over. */
import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";
import { t } from "../language";
import { quiet } from "../store/turns";
import { loadNewest } from "../update";
import { Frame } from "./frame";
import { useLoaded } from "./use";

// biome-ignore lint/suspicious/noExplicitAny: whatever the screen takes is handed on
type Screen<P = any> = ComponentType<P>;

const all = new Map<Screen, () => Promise<unknown>>();

// biome-ignore lint/suspicious/noExplicitAny: as above
export function lazily<P = any>(load: () => Promise<Screen<P>>): Screen<P> {
  const { Lazy, fetched } = later(load, Gone);
  all.set(Lazy as Screen<P>, fetched);
  return Lazy;
}

/** A screen of the desk, which needs the server anyway: no phone carries it ahead, so it is fetched when it is shown. */
// biome-ignore lint/suspicious/noExplicitAny: as above
export function atDesk<P = any>(load: () => Promise<Screen<P>>): Screen<P> {
  return later(load, NoServer).Lazy;
}

function later<P>(load: () => Promise<Screen<P>>, Missing: ComponentType<{ onAgain: () => void }>) {
  let here: Screen<P> | null = null;
  const fetched = async () => {
    here ??= await load();
    return { Part: here };
  };
  const Lazy = (props: P) => {
    const [tries, setTries] = useState(0);
    const found = useLoaded(() => fetched().catch(() => ({ Part: null })), [tries]);
    const Part = here ?? found?.Part;
    if (Part) return <Part {...(props as P & object)} />;
    return found ? <Missing onAgain={() => setTries(tries + 1)} /> : null;
  };
  return { Lazy: Lazy as Screen<P>, fetched };
}

/** Fetch a screen at once: somebody is about to come to it. What fails is tried when it is shown. */
export function fetchNow(screen: Screen): void {
  all
    .get(screen)?.()
    .catch(() => {});
}

/** Fetch every screen in quiet moments, in the order in which they were named; what fails is tried later. */
export async function fetchAll(): Promise<void> {
  for (const fetched of all.values()) {
    await quiet();
    await fetched().catch(() => {});
  }
}

/** Another tab has taken up a new version, and this screen is no longer there in the old one. */
function Gone() {
  return (
    <main class="screen">
      <div class="body">
        <p role="alert">{t("update-gone")}</p>
        <button type="button" class="button main" onClick={() => void loadNewest()}>
          {t("trouble-load-again")} <span>›</span>
        </button>
      </div>
    </main>
  );
}

/** The server is not reached; or it is, and no longer has the screen of this older version. */
function NoServer({ onAgain }: { onAgain: () => void }) {
  const answers = useLoaded(
    () =>
      fetch("/healthz").then(
        ({ ok }) => ({ ok }),
        () => ({ ok: false }),
      ),
    [],
  );
  useEffect(() => {
    addEventListener("online", onAgain);
    return () => removeEventListener("online", onAgain);
  });
  if (!answers) return null;
  if (answers.ok) return <Gone />;
  return (
    <Frame>
      <div class="body">
        <h1>{t("desk-no-server")}</h1>
        <p role="alert">{t("desk-no-server-how")}</p>
        <button type="button" class="button main" onClick={onAgain}>
          {t("desk-try-again")} <span>›</span>
        </button>
      </div>
    </Frame>
  );
}
