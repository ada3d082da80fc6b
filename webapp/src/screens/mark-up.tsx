/** A photo large, and the marks over it: set by taps or by the finger, kept beside the photo, never in it. */
import { useEffect, useRef, useState } from "preact/hooks";
import { MOST_MARKS, type PhotoMark } from "../core/records";
import { t } from "../language";
import { Notice } from "../parts/frame";
import {
  arrow,
  arrowPath,
  inPixels,
  isNear,
  type Place,
  placeIn,
  radius,
  resized,
  ring,
  ringAt,
  type Size,
  thickness,
} from "../parts/marking";
import { asleep } from "../state";

interface MarkedPhotoProps {
  src: string;
  says: string;
  size: Size;
  marks: readonly PhotoMark[];
  /** What an arrow that is being set points to. */
  tip?: Place | null;
  onError?: () => void;
}

/** A photo with its marks drawn over it, for whoever shows one. */
export function MarkedPhoto({ src, says, size, marks, tip, onError }: MarkedPhotoProps) {
  const name = marks.length > 0 ? t("photo-with-marks", { photo: says, count: marks.length }) : says;
  return (
    <span class="marked">
      <img src={src} alt={name} width={size.width} height={size.height} onError={onError} />
      <svg viewBox={`0 0 ${size.width} ${size.height}`} preserveAspectRatio="xMidYMid slice" aria-hidden="true">
        {marks.map((mark) => (
          <Drawn key={JSON.stringify(mark)} mark={mark} size={size} />
        ))}
        {tip && <Tip place={tip} size={size} />}
      </svg>
    </span>
  );
}

/** Dark under light, so that it is seen on bright steel and in a dark drum alike. */
function Drawn({ mark, size }: { mark: PhotoMark; size: Size }) {
  const wide = thickness(size);
  return (
    <>
      {[wide * 2, wide].map((stroke, over) => (
        <g key={stroke} class={over ? "mark-line" : "mark-edge"} stroke-width={stroke}>
          {mark.shape === "arrow" ? (
            <path d={arrowPath(mark, size)} />
          ) : (
            <circle cx={inPixels(mark, size)[0].x} cy={inPixels(mark, size)[0].y} r={radius(mark, size)} />
          )}
        </g>
      ))}
    </>
  );
}

function Tip({ place, size }: { place: Place; size: Size }) {
  const [at] = inPixels(arrow(place, place), size);
  return <circle class="mark-tip" cx={at.x} cy={at.y} r={thickness(size) * 2} />;
}

type Tool = "" | PhotoMark["shape"];

interface LargePhotoProps {
  src: string;
  says: string;
  size: Size;
  /** How far the photo got. */
  reach: string;
  own: readonly PhotoMark[];
  others: readonly PhotoMark[];
  /** What went wrong, '' where it was saved. Left out where nothing is to be marked. */
  onSave?: (marks: readonly PhotoMark[]) => Promise<string>;
  onClose: () => void;
}

/**
 * The photo as large as the screen allows; Esc, or the key on top, goes back.
 *
 * While the app has locked itself it steps aside, since nothing beneath an open dialog can be touched, and comes back.
 */
export function LargePhoto(props: LargePhotoProps) {
  const frame = useRef<HTMLDialogElement>(null);
  const away = asleep.value;
  useEffect(() => (away ? frame.current?.close() : frame.current?.showModal()), [away]);
  return (
    <dialog class="large-photo" ref={frame} aria-label={props.says} onClose={() => !asleep.value && props.onClose()}>
      <MarkUp {...props} onClose={() => frame.current?.close()} />
    </dialog>
  );
}

function MarkUp({ src, says, size, reach, own, others, onSave, onClose }: LargePhotoProps) {
  const [tool, setTool] = useState<Tool>("");
  const [marks, setMarks] = useState(own);
  const [fault, setFault] = useState("");
  const [gone, setGone] = useState(false);
  const add = (mark: PhotoMark) => setMarks((now) => (now.length < MOST_MARKS ? [...now, mark] : now));
  const finger = useFinger(tool, add);
  const last = marks.at(-1);
  const changed = JSON.stringify(marks) !== JSON.stringify(own);
  const choose = (wanted: Tool) => {
    finger.forget();
    setTool(tool === wanted ? "" : wanted);
  };
  const keep = async () => {
    const found = await onSave?.(marks);
    setFault(found ?? "");
    if (!found) onClose();
  };
  const resize = (larger: boolean) => last && setMarks([...marks.slice(0, -1), resized(last, larger, size)]);
  return (
    <div class="inner">
      <button type="button" class="link back" onClick={onClose}>
        ‹ {changed ? t("mark-up-leave") : t("mark-up-close")}
      </button>
      <div class={tool ? "canvas marking" : "canvas"} {...finger.handlers}>
        {gone ? (
          <p class="soft">{t("photo-not-here", { photo: says })}</p>
        ) : (
          <MarkedPhoto
            src={src}
            says={says}
            size={size}
            marks={[...others, ...marks, ...finger.drawing]}
            tip={finger.tip}
            onError={() => setGone(true)}
          />
        )}
      </div>
      <p class="small" role="status">
        {tool ? told(tool, finger.tip, last) : reach}
      </p>
      {fault && <Notice kind="bad">{fault}</Notice>}
      {!gone && onSave && (
        <>
          <Tools tool={tool} onTool={choose} sizes={last?.shape === "ring"} onSize={resize} />
          <div class="pair">
            <button
              type="button"
              class="button"
              disabled={marks.length === 0}
              onClick={() => setMarks(marks.slice(0, -1))}
            >
              {t("mark-up-rub-out")}
            </button>
            <button type="button" class="button filled" disabled={!changed} onClick={() => void keep()}>
              {t("mark-up-save")}
            </button>
          </div>
        </>
      )}
    </div>
  );
}

/** What to do next with a tool. */
function told(tool: Tool, tip: Place | null, last: PhotoMark | undefined): string {
  if (tool === "arrow") return tip ? t("mark-up-arrow-from") : t("mark-up-arrow-to");
  return last?.shape === "ring" ? t("mark-up-ring-size") : t("mark-up-ring");
}

interface ToolsProps {
  tool: Tool;
  onTool: (tool: Tool) => void;
  /** Whether the last mark is one whose size can be changed. */
  sizes: boolean;
  onSize: (larger: boolean) => void;
}

function Tools({ tool, onTool, sizes, onSize }: ToolsProps) {
  const key = (name: PhotoMark["shape"]) => (
    <button type="button" class="station" aria-pressed={tool === name} onClick={() => onTool(name)}>
      {t(`mark-up-tool-${name}`)}
    </button>
  );
  const size = (larger: boolean, sign: string) => (
    <button
      type="button"
      class="station size"
      disabled={!sizes}
      aria-label={larger ? t("mark-up-larger") : t("mark-up-smaller")}
      onClick={() => onSize(larger)}
    >
      {sign}
    </button>
  );
  return (
    <div class="tools">
      {key("arrow")}
      {key("ring")}
      {size(false, "−")}
      {size(true, "+")}
    </div>
  );
}

/** What a finger does on the photo: two taps, or one drag, make an arrow; a tap or a drag makes a ring. */
function useFinger(tool: Tool, add: (mark: PhotoMark) => void) {
  const [down, setDown] = useState<Place | null>(null);
  const [now, setNow] = useState<Place | null>(null);
  const [tip, setTip] = useState<Place | null>(null);
  const of = (from: Place, to: Place) => (tool === "arrow" ? arrow(to, from) : ring(from, to));
  const tapped = (place: Place) => {
    if (tool === "ring") return add(ringAt(place));
    if (!tip) return setTip(place);
    if (isNear(tip, place)) return;
    add(arrow(place, tip));
    setTip(null);
  };
  const end = (place: Place | null) => {
    setDown(null);
    setNow(null);
    if (!tool || !down || !place) return;
    if (isNear(down, place)) return tapped(place);
    add(of(down, place));
    setTip(null);
  };
  const handlers = {
    onPointerDown: (event: PointerEvent) => setDown(tool ? placeOf(event) : null),
    onPointerMove: (event: PointerEvent) => down && setNow(placeOf(event)),
    onPointerUp: (event: PointerEvent) => end(placeOf(event)),
    onPointerCancel: () => end(null),
  };
  const drawing = down && now && !isNear(down, now) ? [of(down, now)] : [];
  return { handlers, drawing, tip: tool === "arrow" ? tip : null, forget: () => setTip(null) };
}

function placeOf(event: PointerEvent): Place | null {
  const picture = (event.currentTarget as Element | null)?.querySelector("img");
  return picture ? placeIn(picture.getBoundingClientRect(), event.clientX, event.clientY) : null;
}
