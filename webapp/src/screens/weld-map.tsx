/** The weld map: a drawing of the job with its pieces pinned on it, each as it stands; a tap opens the piece. */
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Piece } from "../core/job";
import { t } from "../language";
import { Frame, Notice } from "../parts/frame";
import { Mark, type Shape } from "../parts/marks";
import { apart, inReadingOrder, onPaper } from "../parts/pins";
import { useJob, useLoaded } from "../parts/use";
import { foundBy, linkTo } from "../state";
import { type Drawing, drawingsOf, type Pin, pictureOf } from "../store/drawings";
import { changes, type OpenJob } from "../store/jobs";
import { trouble } from "../sync/loop";
import { nextOf, Row } from "./job";
import "../weld-map.css";

/** How large the drawing may be shown, in widths of the screen. */
const SIZES = [1, 1.5, 2, 3, 4, 6];
/** What has to be seen first where pins lie too close together. */
const WANTED: Shape[] = ["out", "blocked", "waiting", "started", "close", "open", "in"];
/** Kept while the app runs, so that whoever comes back from a piece sees the drawing as it was. */
let lastSize = 0;

interface Placed extends Pin {
  readonly of: Piece;
  readonly shape: Shape;
  readonly words: string;
}

/** sheet: the drawing's id; the first of the job where it is ''. */
export function WeldMap({ id, sheet = "" }: { id: string; sheet?: string }) {
  const job = useJob(id);
  const drawings = useLoaded(() => drawingsOf(id), [id, changes.value]);
  if (job === undefined || drawings === undefined) return null;
  const drawing = drawings.find((one) => one.id === sheet) ?? drawings[0];
  return (
    <Frame title={t("frame-job", { job: id })} back={linkTo("job", id)}>
      <div class="body">
        {job === null ? (
          <Notice kind="bad">{t("job-not-here", { job: id })}</Notice>
        ) : (
          <>
            <h1>{t("map-title", { job: id })}</h1>
            {drawings.length > 1 && <Sheets job={id} drawings={drawings} now={drawing} />}
            {drawing ? <Sheet key={drawing.id} job={job} drawing={drawing} /> : <p>{t("map-none", { job: id })}</p>}
          </>
        )}
      </div>
    </Frame>
  );
}

function Sheets({ job, drawings, now }: { job: string; drawings: readonly Drawing[]; now: Drawing | undefined }) {
  return (
    <nav class="map-sheets" aria-label={t("map-sheets")}>
      {drawings.map((one) => (
        <a
          key={one.id}
          class="button"
          href={linkTo("map", job, one.id)}
          aria-current={one.id === now?.id ? "page" : undefined}
        >
          {t("map-sheet", { sheet: one.sheet })}
        </a>
      ))}
    </nav>
  );
}

/** The pins whose pieces this phone knows. A piece that was scrapped and made again is shown as what was made. */
function placed(job: OpenJob, drawing: Drawing): Placed[] {
  const { pieces } = job.progress.job;
  return drawing.pins.flatMap((pin) => {
    let of = pieces.get(pin.piece);
    for (let next = of; next; next = pieces.get(next.remade ?? "")) of = next;
    return of ? [{ ...pin, of, ...nextOf(job, of.id) }] : [];
  });
}

function Sheet({ job, drawing }: { job: OpenJob; drawing: Drawing }) {
  const pins = inReadingOrder(placed(job, drawing));
  const [tries, setTries] = useState(0);
  const found = useLoaded(
    () => pictureOf(drawing).then((address) => ({ address })),
    [drawing.sha256, trouble.value, tries],
  );
  const about = [drawing.title, drawing.revision && t("map-revision", { revision: drawing.revision })];
  return (
    <>
      <p class="soft">{about.filter(Boolean).join(" · ")}</p>
      {found?.address && <Picture job={job.id} drawing={drawing} address={found.address} pins={pins} />}
      {found?.address === "" && (
        <Notice kind="care">
          <p>{t("map-not-here")}</p>
          <button type="button" class="button" onClick={() => setTries(tries + 1)}>
            {t("map-try-again")}
          </button>
        </Notice>
      )}
      <section>
        <h2>{t("map-pinned", { count: pins.length })}</h2>
        <ul class="list">
          {pins.map((pin) => (
            <Row key={pin.piece} job={job} piece={pin.of} how="list" />
          ))}
        </ul>
      </section>
    </>
  );
}

interface PictureProps {
  job: string;
  drawing: Drawing;
  address: string;
  pins: readonly Placed[];
}

function Picture({ job, drawing, address, pins }: PictureProps) {
  const [size, setSize] = useState(lastSize);
  const view = useRef<HTMLDivElement>(null);
  const wide = useWidth(view) * (SIZES[size] ?? 1);
  const high = (wide * drawing.height) / drawing.width;
  const by = (pin: Placed) => WANTED.indexOf(pin.shape);
  const free = apart(
    [...pins].sort((a, b) => by(a) - by(b)),
    wide,
    high,
  );
  useMiddle(view, wide);
  const turn = (step: number) => {
    lastSize = Math.min(SIZES.length - 1, Math.max(0, size + step));
    setSize(lastSize);
  };
  const says = t("map-drawing", { sheet: drawing.sheet, title: drawing.title });
  return (
    <>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by keyboard */}
      <section class="map-view" ref={view} tabIndex={0} aria-label={says}>
        <div class="map-paper" style={{ width: `${wide}px`, height: `${high}px` }}>
          <img src={address} alt={says} width={drawing.width} height={drawing.height} />
          {pins.map((pin) => (
            <OnPaper key={pin.piece} job={job} pin={pin} whole={free.has(pin)} />
          ))}
        </div>
      </section>
      <div class="pair">
        <button type="button" class="button" disabled={size === 0} onClick={() => turn(-1)}>
          <span class="map-sign">−</span> {t("map-smaller")}
        </button>
        <button type="button" class="button" disabled={size === SIZES.length - 1} onClick={() => turn(1)}>
          <span class="map-sign">+</span> {t("map-larger")}
        </button>
      </div>
      <p class="small soft" role="status">
        {free.size < pins.length && t("map-crowded", { count: pins.length - free.size })}
      </p>
    </>
  );
}

/** A pin that can be hit is a link; one too close to another shows its state alone, until the drawing is enlarged. */
function OnPaper({ job, pin, whole }: { job: string; pin: Placed; whole: boolean }) {
  const at = onPaper(pin);
  if (!whole) {
    return (
      <span class="map-dot" style={at} aria-hidden="true">
        <Mark shape={pin.shape} />
      </span>
    );
  }
  return (
    <a
      class="map-pin"
      style={at}
      href={linkTo("piece", job, pin.of.id)}
      onClick={() => {
        foundBy.value = "list";
      }}
    >
      <span class="map-label">
        <b>{pin.of.mark}</b>
        <Mark shape={pin.shape} />
      </span>
    </a>
  );
}

/** The width of an element as it is shown, also after the phone was turned. */
function useWidth(element: { current: HTMLElement | null }): number {
  const [width, setWidth] = useState(Math.min(innerWidth, 560) - 32);
  useEffect(() => {
    const watch = new ResizeObserver(() => element.current && setWidth(element.current.clientWidth));
    if (element.current) watch.observe(element.current);
    return () => watch.disconnect();
  }, []);
  return width;
}

/** What stands in the middle of the view stays there when the drawing is shown larger or smaller. */
function useMiddle(view: { current: HTMLElement | null }, wide: number): void {
  const former = useRef(wide);
  useLayoutEffect(() => {
    const frame = view.current;
    const by = wide / former.current;
    former.current = wide;
    if (!frame || by === 1) return;
    frame.scrollLeft = (frame.scrollLeft + frame.clientWidth / 2) * by - frame.clientWidth / 2;
    frame.scrollTop = (frame.scrollTop + frame.clientHeight / 2) * by - frame.clientHeight / 2;
  }, [wide]);
}
