/** A step: its cautions, its items in order, and the sign-off. */
import type { Item, Step } from "../core/job";
import type { Judged } from "../core/judging";
import { t, word } from "../language";
import { Frame, Notice } from "../parts/frame";
import { Mark, type Shape } from "../parts/marks";
import { shownValue } from "../parts/notation";
import { useJob } from "../parts/use";
import { useWakeLock } from "../parts/wake-lock";
import { linkTo } from "../state";
import type { OpenJob } from "../store/jobs";
import { Calls } from "./calls";
import { Cautions, Gate } from "./gate";
import { saysOf } from "./recorded";
import { SignOff } from "./sign-off";

/** Where a record is being made. */
export interface At {
  job: OpenJob;
  piece: string;
  step: Step;
}

/** Of an item with many stations so many are shown in its row. */
const MOST = 3;
/** Of stations still asked so many are named. */
const MOST_LEFT = 6;

export function StepScreen({ jobId, pieceId, code }: { jobId: string; pieceId: string; code: string }) {
  const job = useJob(jobId);
  useWakeLock();
  if (job === undefined) return null;
  const step = job?.progress.job.hasStep(pieceId, code) ? job.progress.job.steps.get(code) : undefined;
  if (!job || !step) {
    return (
      <Frame>
        <div class="body">
          <Notice kind="bad">{t("step-not-asked")}</Notice>
        </div>
      </Frame>
    );
  }
  const at = { job, piece: pieceId, step };
  const mark = job.progress.job.pieces.get(pieceId)?.mark ?? pieceId;
  return (
    <Frame title={mark} back={linkTo("piece", job.id, pieceId)}>
      <div class="body">
        <div>
          <h1>{step.name}</h1>
          <p class="soft">{t("step-place", { mark, number: step.number })}</p>
        </div>
        <Gate at={at}>
          {step.note && <Notice>{step.note}</Notice>}
          <Items at={at} />
          <Calls at={at} />
          <SignOff at={at} />
          {step.cautions && step.cautions.length > 0 && (
            <details class="covered">
              <summary>{t("cautions-again", { count: step.cautions.length })}</summary>
              <Cautions step={step} />
            </details>
          )}
        </Gate>
      </div>
    </Frame>
  );
}

/** The items in order; of several that are open, the next one stands out on top. */
function Items({ at }: { at: At }) {
  const { items } = at.job.progress.step(at.piece, at.step.code);
  const asked = at.step.items.filter((item) => items.get(item.code)?.state !== "not asked");
  const open = asked.filter(
    (item) => item.kind !== "derived" && ["open", "started"].includes(items.get(item.code)?.state ?? ""),
  );
  const next = open[0];
  return (
    <>
      {next && open.length > 1 && (
        <a class="button main" href={linkTo("item", at.job.id, at.piece, at.step.code, next.code)}>
          {t("step-next", { item: next.name ?? next.code })} <span aria-hidden="true">›</span>
        </a>
      )}
      <ol class="list" aria-label={t("step-items")}>
        {asked.map((item) => (
          <ItemRow key={item.code} at={at} item={item} next={item === next} />
        ))}
      </ol>
    </>
  );
}

function ItemRow({ at, item, next }: { at: At; item: Item; next: boolean }) {
  const state = at.job.progress.step(at.piece, at.step.code).items.get(item.code);
  const found = foundAt(at, item);
  const missing = state?.missing.filter(Boolean) ?? [];
  const left = [
    missing.length > 0 ? leftToDo(missing) : "",
    state?.photoMissing ? t("step-photo-asked") : "",
    found.length === 0 && missing.length === 0 ? (item.where ?? word("state", state?.state ?? "open")) : "",
  ];
  const inner = (
    <>
      <Mark shape={shapeOf(state?.state ?? "open", found)} />
      <span class="grow">
        <b>{item.name}</b>
        {found.length > 0 && (
          <span class="found">
            {found.slice(0, MOST).map((one) => (
              <span key={one.station}>
                {one.station ? t("step-found-at", { station: one.station, says: one.says }) : one.says}
                {!one.good && <span class="not-good"> {one.word}</span>}
              </span>
            ))}
            {found.length > MOST && <span class="soft">{t("step-found-more", { count: found.length - MOST })}</span>}
          </span>
        )}
        {found.map((one) => one.note && !one.good && <q key={one.station}>{one.note}</q>)}
        <span class="small soft left">{left.filter(Boolean).join(" · ")}</span>
      </span>
    </>
  );
  const row = next ? "row now" : "row";
  return (
    <li>
      {item.kind === "derived" ? (
        <div class={row}>{inner}</div>
      ) : (
        <a class={row} href={linkTo("item", at.job.id, at.piece, at.step.code, item.code)}>
          {inner}
          <span aria-hidden="true">›</span>
        </a>
      )}
    </li>
  );
}

/** The stations still asked, or how many of them. */
function leftToDo(missing: readonly string[]): string {
  const more = /^(\d+) more$/.exec(missing[0] ?? "");
  if (more) return t("step-left-more", { count: Number(more[1]) });
  if (missing.length > MOST_LEFT) return t("step-left-count", { count: missing.length });
  return t("step-left", { stations: missing.join(", ") });
}

interface Found {
  station: string;
  says: string;
  good: boolean;
  word: string;
  out: boolean;
  note: string;
}

const OUT = ["out of tolerance", "rejected"];

/** What was found at an item, by station: readings, results and worked-out values, those that are not good first. */
function foundAt(at: At, item: Item): Found[] {
  const state = at.job.progress.step(at.piece, at.step.code).items.get(item.code);
  const recorded = [...(state?.inForce ?? [])].flatMap(([station, ids]) => {
    const one = at.job.progress.records.get(ids.at(-1) ?? "");
    return one ? [ofRecord(at, one, station)] : [];
  });
  const derived = [...(state?.derived ?? [])].flatMap(([station, { value, verdict }]) => {
    if (value === null) return [];
    const says = `${shownValue(value, item.uom ?? "")} ${item.uom ?? ""}`;
    const good = ["in tolerance", "recorded"].includes(verdict.word);
    return [{ station, says, good, word: word("verdict", verdict.word), out: OUT.includes(verdict.word), note: "" }];
  });
  return [...recorded, ...derived].sort((a, b) => Number(a.good) - Number(b.good));
}

function ofRecord(at: At, one: Judged, station: string): Found {
  const good = at.job.progress.piece(at.piece).standing.accepted(one);
  const { word: found } = one.verdict;
  const { note } = one.body as { note?: string | null };
  const says = one.type === "visual" && !good ? "" : saysOf(one);
  return { station, says, good, word: word("verdict", found), out: OUT.includes(found), note: note ?? "" };
}

function shapeOf(state: string, found: readonly Found[]): Shape {
  if (state === "met") return "in";
  if (state !== "flagged") return state === "started" ? "started" : "open";
  return found.some((one) => one.out && !one.good) ? "out" : "close";
}
