/** One item being recorded: each kind its own way, every one with photos. */
import type { Item } from "../core/job";
import type { Bodies, Kind, Why } from "../core/records";
import { t } from "../language";
import { Frame, Notice } from "../parts/frame";
import { useJob } from "../parts/use";
import { useWakeLock } from "../parts/wake-lock";
import { foundBy, go, linkTo, me } from "../state";
import { added } from "../store/jobs";
import type { Shrunk } from "../store/photos";
import { save } from "../store/records";
import { wake } from "../sync/loop";
import { Gate } from "./gate";
import { MeasureEntry } from "./measure";
import { Photos } from "./photos";
import { Recorded } from "./recorded";
import { ReportEntry } from "./report";
import type { At } from "./step";
import { TextEntry } from "./text";
import { isRejected, VisualEntry } from "./visual";
import { WeldEntry } from "./weld";

export interface EntryProps {
  at: At;
  item: Item;
  onDone: () => void;
}

export interface More {
  station?: string;
  replaces?: string;
  why?: Why;
}

const saving = new Map<string, Promise<void>>();

/** Save a record on an item; it is on disk when this is done. A second tap on the same waits for the first. */
export function record<K extends Kind>(
  at: At,
  item: Item,
  type: K,
  body: Bodies[K],
  more: More = {},
  photos: Shrunk[] = [],
): Promise<void> {
  const same = JSON.stringify([at.piece, at.step.code, item.code, type, body, more]);
  const found = saving.get(same) ?? keep(at, item, type, body, more, photos);
  saving.set(same, found);
  return found.finally(() => saving.delete(same));
}

async function keep<K extends Kind>(
  at: At,
  item: Item,
  type: K,
  body: Bodies[K],
  more: More,
  photos: Shrunk[],
): Promise<void> {
  const signer = me.value;
  if (!signer) throw new Error(t("item-locked"));
  const given = Object.fromEntries(Object.entries(more).filter(([, value]) => value));
  const place = { piece: at.piece, step: at.step.code, item: item.code, found_by: foundBy.value, ...given };
  const stored = await save(
    signer,
    at.job,
    { type, body, ...place },
    photos.map(({ photo }) => photo),
  );
  await added(stored, at.job);
  wake();
}

interface ItemScreenProps {
  jobId: string;
  pieceId: string;
  code: string;
  itemCode: string;
}

/** The screen of one item; when it is done, the next open one follows, and after the last the step itself. */
export function ItemScreen({ jobId, pieceId, code, itemCode }: ItemScreenProps) {
  const job = useJob(jobId);
  useWakeLock();
  if (job === undefined) return null;
  const step = job?.progress.job.hasStep(pieceId, code) ? job.progress.job.steps.get(code) : undefined;
  const item = step?.items.find((one) => one.code === itemCode);
  const back = linkTo("step", jobId, pieceId, code);
  if (!job || !step || !item) {
    return (
      <Frame back={back}>
        <div class="body">
          <Notice kind="bad">{t("item-not-asked")}</Notice>
        </div>
      </Frame>
    );
  }
  const at = { job, piece: pieceId, step };
  const onDone = () => {
    const next = nextItem(at);
    if (next) go("item", jobId, pieceId, code, next);
    else go("step", jobId, pieceId, code);
  };
  const mark = job.progress.job.pieces.get(pieceId)?.mark ?? pieceId;
  return (
    <Frame title={t("item-place", { mark, number: step.number })} back={back}>
      <div class="body tight">
        <h1 class="item-name">{item.name}</h1>
        <Gate at={at}>
          <Entry at={at} item={item} onDone={onDone} />
          <Photos at={at} item={item} wanted={isRejected(at, item)} />
          <Recorded at={at} item={item} />
          <NextItem at={at} item={item} onDone={onDone} />
        </Gate>
      </div>
    </Frame>
  );
}

/** The way on, once all that is asked here is recorded. */
function NextItem({ at, item, onDone }: EntryProps) {
  const states = at.job.progress.step(at.piece, at.step.code).items;
  if (states.get(item.code)?.state !== "met") return null;
  const next = at.step.items.find((one) => one.code === nextItem(at));
  return (
    <button type="button" class="button main" onClick={onDone}>
      {next
        ? t("item-next", { item: next.name ?? next.code })
        : t("item-back-to-step", { step: at.step.name ?? at.step.code })}{" "}
      <span aria-hidden="true">›</span>
    </button>
  );
}

/** The first item of a step that is still open; '' where none is. */
export function nextItem({ job, piece, step }: At): string {
  const { items } = job.progress.step(piece, step.code);
  const open = step.items.find(
    (item) => item.kind !== "derived" && ["open", "started"].includes(items.get(item.code)?.state ?? ""),
  );
  return open?.code ?? "";
}

function Entry(props: EntryProps) {
  switch (props.item.kind) {
    case "measure":
      return <MeasureEntry {...props} />;
    case "visual":
      return <VisualEntry {...props} />;
    case "text":
      return <TextEntry {...props} />;
    case "weld":
      return <WeldEntry {...props} />;
    case "report":
      return <ReportEntry {...props} />;
    default:
      return null;
  }
}

/** The station to record at next, for items with several places. */
export function nextStation(at: At, item: Item): string {
  const missing = at.job.progress.step(at.piece, at.step.code).items.get(item.code)?.missing ?? [];
  return missing.find((name) => name && !name.endsWith(" more")) ?? "";
}

/** The newest record of mine in force at a place, which a new one replaces. */
export function mine(at: At, item: Item, station: string): string | undefined {
  const ids = at.job.progress.step(at.piece, at.step.code).items.get(item.code)?.inForce.get(station) ?? [];
  const own = at.job.progress.piece(at.piece);
  return [...ids].reverse().find((id) => {
    const found = at.job.progress.records.get(id);
    const asked = own.standing.dispositions.some(
      (d) => d.body.about.records.includes(id) && d.body.disposition !== "use as is",
    );
    return found && (found.payload.by === me.value?.person || asked);
  });
}

/** Why a record is being replaced, as far as dispositions tell. */
export function whyAgain(at: At, id: string): Why {
  const decided = at.job.progress.piece(at.piece).standing.strictest(id)?.body.disposition;
  if (decided === "repair") return "after repair";
  return decided === "rework" ? "after rework" : "measured again";
}
