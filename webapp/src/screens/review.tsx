/** Day review: what is wrong, worst first, and what becomes of it. */
import { useEffect, useState } from "preact/hooks";
import type { Flag, OpenedFlag, Review } from "../api/client";
import { Decimal } from "../core/numbers";
import { areMarks } from "../core/records";
import { locale, t, word } from "../language";
import { Frame, Notice } from "../parts/frame";
import { LimitBar } from "../parts/limit-bar";
import { Mark, type Shape } from "../parts/marks";
import { shownValue } from "../parts/notation";
import { partyName } from "../parts/parties";
import { reasonText } from "../parts/reasons";
import { useLoaded } from "../parts/use";
import { changes } from "../store/jobs";
import { callSignedIn } from "../sync/loop";
import { Decide } from "./decide";
import { MarkedPhoto } from "./mark-up";

const STATES = ["open", "decided", "fixed on the spot", "closed"];
const EVERY = 2_000;

/** The limits of a flag as core carries them. */
export function limitsOf(flag: Flag) {
  const side = (text: string | null | undefined) => (text ? new Decimal(text) : null);
  return { lower: side(flag.limits?.lower), upper: side(flag.limits?.upper), reason: "" };
}

function shapeOf(kind: string): Shape {
  if (kind === "out of tolerance" || kind === "rejected") return "out";
  return kind === "went past an open hold" ? "blocked" : "close";
}

export function ReviewScreen() {
  const [state, setState] = useState("open");
  const [chosen, setChosen] = useState("");
  const [tick, setTick] = useState(0);
  const [says, setSays] = useState("");
  const review = useLoaded<Review | null>(
    () =>
      callSignedIn<Review>(`/review?state=${encodeURIComponent(state)}`).then(
        (found) => {
          setSays("");
          return found;
        },
        (error: Error) => {
          setSays(error.message);
          return null;
        },
      ),
    [state, tick, changes.value],
  );
  useEffect(() => {
    const timer = setInterval(() => document.visibilityState === "visible" && setTick((count) => count + 1), EVERY);
    return () => clearInterval(timer);
  }, []);
  const flags = review?.flags ?? [];
  const selected = flags.find((flag) => flag.id === chosen) ?? flags[0];
  useEffect(() => moveByKeys(flags, selected, setChosen), [flags, selected]);
  const onDecided = () => {
    const next = flags[flags.findIndex((flag) => flag.id === selected?.id) + 1];
    if (next) setChosen(next.id);
    setTick((count) => count + 1);
  };
  return (
    <Frame wide>
      {says && <Notice kind="bad">{t("review-offline", { says })}</Notice>}
      {review && (
        <>
          <div class="body">
            <h1>{t("review")}</h1>
            <p class="soft">
              {[
                new Date(`${review.day}T12:00`).toLocaleDateString(locale(), {
                  weekday: "long",
                  day: "numeric",
                  month: "long",
                }),
                t("review-counts", { ...review.counts }),
                review.silent.length > 0 && t("review-silent", { count: review.silent.length }),
              ]
                .filter(Boolean)
                .join(" · ")}
            </p>
          </div>
          <Counts review={review} />
          <nav class="bar" aria-label={t("review-by-state")}>
            <span class="stations">
              {STATES.map((one) => (
                <button
                  key={one}
                  type="button"
                  class="station"
                  aria-pressed={one === state}
                  onClick={() => setState(one)}
                >
                  {word("flag", one)}
                </button>
              ))}
            </span>
          </nav>
          <div class="review">
            {flags.length === 0 ? (
              <p class="body soft">{t("review-no-flags")}</p>
            ) : (
              <Flags flags={flags} selected={selected} onSelect={setChosen} />
            )}
            {selected && <Opened key={selected.id} id={selected.id} tick={tick} onDone={() => onDecided()} />}
          </div>
        </>
      )}
    </Frame>
  );
}

/** Arrow keys go up and down the list, unless something is being typed. */
function moveByKeys(flags: readonly Flag[], selected: Flag | undefined, choose: (id: string) => void): () => void {
  const move = (event: KeyboardEvent) => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (!step || event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement) return;
    const to = flags[flags.findIndex((flag) => flag.id === selected?.id) + step];
    if (to) {
      event.preventDefault();
      choose(to.id);
    }
  };
  addEventListener("keydown", move);
  return () => removeEventListener("keydown", move);
}

function Counts({ review }: { review: Review }) {
  const { lists } = review;
  const counts: [string, { mark: string; number: string; job: string; parties?: string[] }[]][] = [
    [t("review-ready-for-ai"), lists.ready_for_ai],
    [t("review-blocked"), lists.blocked],
    [t("review-reports"), lists.reports],
    [t("review-rework"), lists.rework],
  ];
  return (
    <div class="counts">
      {counts.map(([name, lines]) => (
        <div key={name}>
          <b>{lines.length}</b>
          {name}
          <p class="small soft">
            {lines
              .slice(0, 4)
              .map(
                (line) =>
                  `${line.mark} (${line.job})${line.parties?.length ? `, ${line.parties.map(partyName).join(", ")}` : ""}`,
              )
              .join("; ")}
          </p>
        </div>
      ))}
    </div>
  );
}

function Flags({
  flags,
  selected,
  onSelect,
}: {
  flags: readonly Flag[];
  selected: Flag | undefined;
  onSelect: (id: string) => void;
}) {
  return (
    <table class="flags">
      <thead>
        <tr>
          <th>{t("review-piece")}</th>
          <th>{t("review-item")}</th>
          <th>{t("review-value")}</th>
          <th class="limits-column">{t("review-limit")}</th>
          <th class="who">{t("review-who")}</th>
          <th>
            <span class="hidden-input">{t("review-kind")}</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {flags.map((flag) => (
          <tr key={flag.id} aria-selected={flag.id === selected?.id} onClick={() => onSelect(flag.id)}>
            <td>
              <b>{flag.piece.mark}</b> {flag.station}
              <br />
              <span class="small soft">{t("frame-job", { job: flag.job })}</span>
            </td>
            <td>{flag.item.name || flag.step.name}</td>
            <td>{flag.value ? `${shownValue(new Decimal(flag.value), flag.uom)} ${flag.uom}` : ""}</td>
            <td class="limits-column">
              {flag.value && flag.limits ? (
                <LimitBar limits={limitsOf(flag)} value={new Decimal(flag.value)} uom={flag.uom} />
              ) : (
                word("kind", flag.kind)
              )}
              {flag.reason && <span class="small soft"> {reasonText(flag.reason)}</span>}
            </td>
            <td class="who">{flag.by}</td>
            <td>
              <Mark shape={shapeOf(flag.kind)} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Opened({ id, tick, onDone }: { id: string; tick: number; onDone: () => void }) {
  const flag = useLoaded<OpenedFlag | null>(
    () => callSignedIn<OpenedFlag>(`/flags/${id}`).catch(() => null),
    [id, tick, changes.value],
  );
  if (!flag) return <aside class="opened" />;
  const photos = flag.photos.filter((one) => one.here && one.shown === "yes");
  const damaged = flag.photos.find((one) => one.here && one.shown !== "yes");
  return (
    <aside class="opened" aria-label={t("review-opened")}>
      <div>
        <h2>
          {flag.piece.mark}
          {flag.item.name && `, ${flag.item.name.toLowerCase()}`}
          {flag.station && `, ${flag.station}`}
        </h2>
        <p class="soft">
          {[
            word("kind", flag.kind),
            flag.reason && reasonText(flag.reason),
            flag.item.binds && flag.item.code && t("review-binds", { what: word("binds", flag.item.binds) }),
            flag.gauge?.name,
          ]
            .filter(Boolean)
            .join(" · ")}
        </p>
      </div>
      {flag.value && (
        <>
          <p class="reading">
            {shownValue(new Decimal(flag.value), flag.uom)} <span class="uom">{flag.uom}</span>
          </p>
          <LimitBar limits={limitsOf(flag)} value={new Decimal(flag.value)} uom={flag.uom} />
        </>
      )}
      {photos.map((photo) => (
        <MarkedPhoto
          key={photo.sha256}
          src={`/api/v1/photos/${photo.sha256}?size=view`}
          says={`${flag.piece.mark} ${flag.item.name}`}
          size={photo}
          marks={areMarks(photo.marks) ? photo.marks : []}
        />
      ))}
      {damaged && <Notice kind="bad">{damaged.shown}</Notice>}
      {flag.photos.some((one) => !one.here) && <p class="soft">{t("review-photo-coming")}</p>}
      <Trend flag={flag} />
      <History flag={flag} />
      <Decide flag={flag} onDone={onDone} />
    </aside>
  );
}

/** The last readings of this item, oldest first, between its limits. */
function Trend({ flag }: { flag: OpenedFlag }) {
  const values = flag.trend.map((one) => one.value);
  const { lower, upper } = limitsOf(flag);
  const bounds = [lower?.toNumber(), upper?.toNumber()].filter((one) => one !== undefined);
  if (values.length < 3) return null;
  const [least, most] = [Math.min(...values, ...bounds), Math.max(...values, ...bounds)];
  const x = (place: number) => 8 + (place / (values.length - 1)) * 304;
  const y = (value: number) => 84 - ((value - least) / (most - least || 1)) * 68;
  const last = flag.trend.findIndex((one) => one.id === flag.record);
  return (
    <svg viewBox="0 0 320 100" role="img" aria-label={t("review-last", { count: values.length, item: flag.item.name })}>
      {bounds.map((bound) => (
        <path key={bound} d={`M0 ${y(bound)}H320`} stroke="var(--in)" stroke-width="1.5" />
      ))}
      <polyline
        points={values.map((value, place) => `${x(place)},${y(value)}`).join(" ")}
        fill="none"
        stroke="var(--ink)"
        stroke-width="2"
      />
      {last >= 0 && <rect x={x(last) - 5} y={y(values[last] ?? 0) - 5} width="10" height="10" fill="var(--out)" />}
    </svg>
  );
}

function History({ flag }: { flag: OpenedFlag }) {
  return (
    <ul class="list" aria-label={t("review-history")}>
      {flag.history.map((one) => (
        <li key={one.id} class="row">
          <span class="grow">
            <span class={one.standing === "void" || one.standing === "replaced" ? "lined-out" : ""}>
              {one.station} <b>{one.says || word("type", one.type)}</b>
            </span>
            <br />
            <span class="small soft">
              {[
                word("type", one.type),
                word("verdict", one.verdict),
                word("why", one.why),
                one.standing === "in force" ? "" : word("standing", one.standing),
                one.by,
                one.at.slice(0, 16).replace("T", " "),
                one.note,
              ]
                .filter(Boolean)
                .join(" · ")}
            </span>
          </span>
        </li>
      ))}
    </ul>
  );
}
