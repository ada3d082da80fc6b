/** Scan: the camera, and below it one field for a typed code or a mark. */
import { useEffect, useLayoutEffect, useState } from "preact/hooks";
import { forgiven } from "../core/tagcode";
import { t } from "../language";
import { tell } from "../parts/feedback";
import { Frame, Notice } from "../parts/frame";
import { fetchNow, lazily } from "../parts/lazily";
import { useLoaded } from "../parts/use";
import { Finder } from "../scan/finder";
import { byBoard, byCode, byGauge, byText, byTyped, type Led, type Says } from "../scan/leading";
import { allMarks, fitting, type Known } from "../scan/marks";
import { foundBy, go, linkTo, route } from "../state";
import { changes, jobList, makeReady } from "../store/jobs";

type How = "scanned" | "typed";

/** Where nearly every scan leads: fetched before all other screens. */
export const PieceScreen = lazily(() => import("./piece").then((module) => module.PieceScreen));

/** The picture is there: now comes what the first scan needs. */
function nextScan(): void {
  fetchNow(PieceScreen);
  void makeReady().catch(() => {});
}

const shopHost = () => location.host.toLowerCase();

/** Open what a code led to; what to say where nothing was opened. */
function follow(led: Led, how: How): Led | null {
  if (led.to === "piece" || led.to === "board") {
    tell("found");
    if (led.to === "board") go("job", led.job, "board");
    else open(led, how);
    return null;
  }
  tell(led.to === "told" ? "found" : "bad");
  return led;
}

function open({ job, piece }: { job: string; piece: string }, how: How | "list"): void {
  foundBy.value = how;
  go("piece", job, piece);
}

const fittingMarks = (typed: string, marks: readonly Known[]) =>
  fitting(typed, marks, (one) => [one.mark, `${one.name} ${one.job}`]);

const said = (says: Says) => t(says.id, says.values);

/** What a code led to, where that is not simply opened. */
function LedTo({ led, how }: { led: Led | null; how: How }) {
  if (!led || led.to === "piece" || led.to === "board") return null;
  return (
    <Notice kind={led.to === "told" ? "" : "bad"}>
      {said(led.says)}
      {led.to === "replaced" && (
        <button type="button" class="button" onClick={() => open(led, how)}>
          {t("scan-open-all-the-same")}
        </button>
      )}
    </Notice>
  );
}

/** What was scanned or typed last, and how it is looked up. */
interface Asked {
  readonly how: How;
  readonly leads: (() => Promise<Led>) | null;
}

export function Scan() {
  const [led, setLed] = useState<Led | null>(null);
  const [asked, setAsked] = useState<Asked>({ how: "scanned", leads: null });
  const [typed, setTyped] = useState("");
  const isTyping = typed.trim() !== "";
  // Of a full phone they take a while: they are read for who types, not for who scans.
  const marks = useLoaded(async () => (isTyping ? allMarks() : null), [changes.value, isTyping]);
  const found = isTyping && marks ? fittingMarks(typed, marks) : [];
  const take = (next: Led, how: How) => {
    // Who has left meanwhile is not taken elsewhere.
    if (route.value[0] === "scan") setLed(follow(next, how));
  };
  const ask = async (how: How, leads: () => Promise<Led>) => {
    setAsked({ how, leads });
    take(await leads(), how);
  };
  // What led to nothing may lead to something once its job or gauge has come.
  useEffect(() => {
    if (led?.to !== "nothing") return;
    void asked.leads?.().then((next) => next.to !== "nothing" && take(next, asked.how));
  }, [changes.value]);
  const submit = async () => {
    const fit = marks ? found : fittingMarks(typed, await allMarks());
    const [only] = fit;
    if (forgiven(typed) !== null || !only) await ask("typed", () => byTyped(typed));
    else if (fit.length === 1) open(only, "list");
    else setLed({ to: "told", says: { id: "scan-pick" } });
  };
  return (
    <Frame>
      <h1 class="unseen">{t("scan-title")}</h1>
      {!typed && <Finder onText={(text) => void ask("scanned", () => byText(text, shopHost()))} onLive={nextScan} />}
      <div class="body">
        <LedTo led={led} how={asked.how} />
        <form
          class="code-or-mark"
          onSubmit={(event) => {
            event.preventDefault();
            void submit();
          }}
        >
          <label class="field">
            {t("scan-field")}
            <input
              autocapitalize="characters"
              autocomplete="off"
              spellcheck={false}
              enterkeyhint="go"
              value={typed}
              onInput={(event) => {
                setTyped(event.currentTarget.value);
                setLed(null);
              }}
            />
          </label>
          <button type="submit" class="button" disabled={!isTyping}>
            {t("scan-open")}
          </button>
        </form>
        {isTyping ? marks && <Found marks={found} /> : <Jobs />}
      </div>
    </Frame>
  );
}

const MOST_SHOWN = 30;

/** The marks that fit what was typed, of every job on this phone. */
function Found({ marks }: { marks: Known[] }) {
  if (marks.length === 0) return <p role="status">{t("scan-no-mark")}</p>;
  return (
    <section class="listed">
      <h2 aria-live="polite">{t("scan-marks-found", { count: marks.length })}</h2>
      <ul class="list">
        {marks.slice(0, MOST_SHOWN).map((one) => (
          <li key={`${one.job} ${one.piece}`}>
            <button type="button" class="row" onClick={() => open(one, "list")}>
              <span class="grow">
                <b>{one.mark}</b> {one.name}
                <br />
                <span class="small soft">{t("frame-job", { job: one.job })}</span>
              </span>
            </button>
          </li>
        ))}
      </ul>
      {marks.length > MOST_SHOWN && <p class="small">{t("scan-type-more", { count: marks.length - MOST_SHOWN })}</p>}
    </section>
  );
}

/** The lists of marks, for a tag that is gone. */
function Jobs() {
  const jobs = useLoaded(jobList, [changes.value]);
  if (!jobs?.length) return null;
  return (
    <nav class="listed" aria-labelledby="tag-gone">
      <h2 id="tag-gone">{t("scan-tag-gone")}</h2>
      <ul class="list">
        {jobs.map((job) => (
          <li key={job.id}>
            <a class="row" href={linkTo("job", job.id)}>
              <span class="grow">
                <b>{t("scan-marks-of", { job: job.id })}</b>
                <br />
                <span class="small soft">{job.title}</span>
              </span>
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}

/** What the link in a code opens, scanned by the phone's own camera; tried again while its job is on the way. */
export function TagScreen({ code, kind = "tag" }: { code: string; kind?: "tag" | "board" | "gauge" }) {
  const [led, setLed] = useState<Led | null>(null);
  const now = changes.value;
  useLayoutEffect(() => {
    let live = true;
    fetchNow(PieceScreen);
    void leading(kind, code).then((next) => {
      if (!live) return;
      const first = led === null;
      if (next.to === "piece" || next.to === "board" || first) setLed(follow(next, "scanned"));
      else setLed(next);
    });
    return () => {
      live = false;
    };
  }, [code, kind, now]);
  return (
    <Frame>
      <div class="body">
        <LedTo led={led} how="scanned" />
        {led?.to === "nothing" && <p>{t("scan-on-its-way")}</p>}
        <a class="button" href={linkTo("scan")}>
          {t("scan-again")}
        </a>
      </div>
    </Frame>
  );
}

function leading(kind: "tag" | "board" | "gauge", code: string): Promise<Led> {
  if (kind === "board") return byBoard(code.toUpperCase(), shopHost(), shopHost());
  if (kind === "gauge") return byGauge(code.toUpperCase());
  const meant = forgiven(code);
  return meant ? byCode(meant) : byTyped(code);
}
