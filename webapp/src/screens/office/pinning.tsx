/** Pieces pinned on a drawing: chosen in a list, put by a click, moved by the arrow keys. */
import { useState } from "preact/hooks";
import { t } from "../../language";
import { Notice } from "../../parts/frame";
import { ACROSS, moved, onPaper } from "../../parts/pins";
import { type Drawing, type Pin, pictureAt } from "../../store/drawings";
import { callSignedIn } from "../../sync/loop";
import type { Schemas } from "./asking";
import { pathOf } from "./tags";

type Piece = Schemas["Piece"];

/** How far an arrow key moves a pin: one percent, a tenth of it with Shift. */
const FAR = ACROSS / 100;
const ARROWS: Record<string, readonly [number, number]> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

interface PinningProps {
  job: string;
  drawing: Drawing;
  pieces: readonly Piece[];
  may: boolean;
  onDone: (drawing: Drawing) => void;
}

export function Pinning({ job, drawing, pieces, may, onDone }: PinningProps) {
  const [pins, setPins] = useState<readonly Pin[]>(drawing.pins);
  const [chosen, setChosen] = useState("");
  const [says, setSays] = useState("");
  const marks = new Map(pieces.map((piece) => [piece.id, piece.mark]));
  const changed = JSON.stringify(pins) !== JSON.stringify(drawing.pins);
  const put = (pin: Pin) => setPins((now) => [...now.filter(({ piece }) => piece !== pin.piece), pin]);
  const save = () =>
    callSignedIn<Drawing>(`${pathOf(job)}/drawings/${encodeURIComponent(drawing.id)}/pins`, { pins }).then(
      (made) => {
        setSays("");
        setPins(made.pins);
        onDone(made);
      },
      (error: Error) => setSays(error.message),
    );
  const pin = pins.find(({ piece }) => piece === chosen);
  return (
    <section class={may ? "pinning" : ""} aria-label={t("drawing-pins")}>
      {may && (
        <div class="choices">
          <Pieces pieces={pieces} pins={pins} saved={drawing.pins} chosen={chosen} onChoose={setChosen} />
          <p class="small soft">
            {chosen ? t("drawing-how", { mark: marks.get(chosen) ?? chosen }) : t("drawing-choose")}
          </p>
          <button
            type="button"
            class="button"
            disabled={!pin}
            onClick={() => setPins(pins.filter(({ piece }) => piece !== chosen))}
          >
            {t("drawing-take-away")}
          </button>
          <button type="button" class="button main" disabled={!changed} onClick={() => void save()}>
            {t("drawing-save")}
          </button>
          <p class="small" role="status">
            {changed ? t("drawing-not-saved") : t("drawing-saved", { count: pins.length })}
          </p>
          {says && <Notice kind="bad">{says}</Notice>}
        </div>
      )}
      <Paper drawing={drawing} pins={pins} marks={marks} chosen={chosen} may={may} onChoose={setChosen} onPut={put} />
    </section>
  );
}

interface PiecesProps {
  pieces: readonly Piece[];
  pins: readonly Pin[];
  saved: readonly Pin[];
  chosen: string;
  onChoose: (piece: string) => void;
}

/** Those that are not pinned yet stand first, and stay where they stand until the pins are saved. */
function Pieces({ pieces, pins, saved, chosen, onChoose }: PiecesProps) {
  const before = new Set(saved.map(({ piece }) => piece));
  const pinned = new Set(pins.map(({ piece }) => piece));
  const groups = [
    { label: t("drawing-not-pinned"), of: pieces.filter(({ id }) => !before.has(id)) },
    { label: t("drawing-pinned"), of: pieces.filter(({ id }) => before.has(id)) },
  ];
  const words = ({ id, mark, name, kind }: Piece) => {
    const piece = `${mark} ${name || kind}`;
    if (pinned.has(id) === before.has(id)) return piece;
    return pinned.has(id) ? t("drawing-pinned-now", { piece }) : t("drawing-taken-now", { piece });
  };
  return (
    <label class="field">
      {t("drawing-piece")}
      <select class="pinning-pieces" size={14} value={chosen} onChange={(event) => onChoose(event.currentTarget.value)}>
        {groups.map(({ label, of }) => (
          <optgroup key={label} label={label}>
            {of.map((piece) => (
              <option key={piece.id} value={piece.id} selected={piece.id === chosen}>
                {words(piece)}
              </option>
            ))}
          </optgroup>
        ))}
      </select>
    </label>
  );
}

interface PaperProps {
  drawing: Drawing;
  pins: readonly Pin[];
  marks: ReadonlyMap<string, string>;
  chosen: string;
  may: boolean;
  onChoose: (piece: string) => void;
  onPut: (pin: Pin) => void;
}

function Paper({ drawing, pins, marks, chosen, may, onChoose, onPut }: PaperProps) {
  const says = t("map-drawing", { sheet: drawing.sheet, title: drawing.title });
  const pin = pins.find(({ piece }) => piece === chosen);
  const click = (event: MouseEvent & { currentTarget: HTMLElement }) => {
    if (!may || !chosen) return;
    const box = event.currentTarget.getBoundingClientRect();
    const part = (at: number, from: number, of: number) => Math.round(((at - from) / of) * ACROSS);
    const to = {
      piece: chosen,
      x: part(event.clientX, box.left, box.width),
      y: part(event.clientY, box.top, box.height),
    };
    onPut(moved(to, 0, 0));
  };
  const press = (event: KeyboardEvent) => {
    const [x, y] = ARROWS[event.key] ?? [0, 0];
    if (!may || !chosen || (x === 0 && y === 0)) return;
    event.preventDefault();
    const far = event.shiftKey ? FAR / 10 : FAR;
    onPut(pin ? moved(pin, x * far, y * far) : { piece: chosen, x: ACROSS / 2, y: ACROSS / 2 });
  };
  return (
    <div class="pinning-sheet">
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it takes the arrow keys that move a pin */}
      {/* biome-ignore lint/a11y/useSemanticElements: a picture with pins over it, none of a form's groups */}
      <div class="map-paper" role="group" tabIndex={0} aria-label={says} onClick={click} onKeyDown={press}>
        <img src={pictureAt(drawing)} alt={says} width={drawing.width} height={drawing.height} />
        {pins.map((one) => (
          <button
            type="button"
            key={one.piece}
            class="map-pin"
            style={onPaper(one)}
            aria-pressed={one.piece === chosen}
            onClick={(event) => {
              // A piece that waits for its pin may lie where another is: then the click is for the sheet. Not so by keyboard.
              if (chosen && !pin && event.detail > 0) return;
              event.stopPropagation();
              onChoose(one.piece);
            }}
          >
            <span class="map-label">
              <b>{marks.get(one.piece) ?? one.piece}</b>
            </span>
          </button>
        ))}
      </div>
      {may && <p class="small soft">{pin ? t("drawing-at", { x: pin.x / 100, y: pin.y / 100 }) : t("drawing-keys")}</p>}
    </div>
  );
}
