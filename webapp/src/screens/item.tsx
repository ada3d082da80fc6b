/** One item being recorded: each kind its own way, every one with photos. */
import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { Item } from "../core/job";
import type { Judged } from "../core/judging";
import type { Bodies, Kind, Result, Why } from "../core/records";
import { Frame, Notice } from "../parts/frame";
import { Mark } from "../parts/marks";
import { useJob, useLoaded } from "../parts/use";
import { WhyAgain } from "../parts/why-again";
import { foundBy, go, linkTo, me } from "../state";
import { withStore } from "../store/db";
import { added, changes } from "../store/jobs";
import { PhotoError, type Shrunk, shrink } from "../store/photos";
import { NotSavedError, save } from "../store/records";
import { isShort, makeRoom, room } from "../store/room";
import { wake } from "../sync/loop";
import { MeasureEntry } from "./measure";
import type { At } from "./step";
import { ReportEntry, WeldEntry } from "./weld";

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
  if (!signer) throw new Error("The app is locked.");
  const given = Object.fromEntries(Object.entries(more).filter(([, value]) => value));
  const place = { piece: at.piece, step: at.step.code, item: item.code, found_by: foundBy.value, ...given };
  await added(
    await save(
      signer,
      at.job,
      { type, body, ...place },
      photos.map(({ photo }) => photo),
    ),
  );
  wake();
}

/** The screen of one item; when it is done, the next open one follows, and after the last the step itself. */
export function ItemScreen({
  jobId,
  pieceId,
  code,
  itemCode,
}: {
  jobId: string;
  pieceId: string;
  code: string;
  itemCode: string;
}) {
  const job = useJob(jobId);
  if (job === undefined) return null;
  const step = job?.progress.job.hasStep(pieceId, code) ? job.progress.job.steps.get(code) : undefined;
  const item = step?.items.find((one) => one.code === itemCode);
  const back = linkTo("step", jobId, pieceId, code);
  if (!job || !step || !item) {
    return (
      <Frame back={back}>
        <div class="body">
          <Notice kind="bad">This item is not asked of this piece. Go back and choose another.</Notice>
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
    <Frame title={`${mark} · ${step.number}`} back={back}>
      <div class="body tight">
        <h1 class="item-name">{item.name}</h1>
        <Entry at={at} item={item} onDone={onDone} />
        <Recorded at={at} item={item} onDone={onDone} />
        <Photos at={at} item={item} onDone={onDone} />
      </div>
    </Frame>
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

function VisualEntry({ at, item, onDone }: EntryProps) {
  const [note, setNote] = useState("");
  const [why, setWhy] = useState<Why | "">("");
  const [station, setStation] = useState(nextStation(at, item));
  const before = mine(at, item, station);
  const say = async (result: Result) => {
    const more = before && why ? { replaces: before, why } : {};
    await record(at, item, "visual", note.trim() ? { result, note: note.trim() } : { result }, { ...more, station });
    setNote("");
    setWhy("");
    const next = nextStation(at, item);
    setStation(next);
    const asked = at.job.progress.step(at.piece, at.step.code).items.get(item.code)?.photoMissing;
    if (result !== "reject" && !next && !asked) onDone();
  };
  const ready = !before || why !== "";
  return (
    <>
      {item.where && <p>{item.where}</p>}
      {station && <p>At {station}</p>}
      {before && <WhyAgain at={at} before={before} why={why} onWhy={setWhy} />}
      <button type="button" class="button" disabled={!ready} onClick={() => void say("accept")}>
        <Mark shape="in" /> Accept
      </button>
      <label class="field">
        What is wrong, or a note
        <textarea value={note} onInput={(event) => setNote(event.currentTarget.value)} />
      </label>
      <button
        type="button"
        class="button"
        disabled={!ready || note.trim().length < 3}
        onClick={() => void say("reject")}
      >
        <Mark shape="out" /> {note.trim().length < 3 ? "Reject: say first what is wrong" : "Reject"}
      </button>
      {item.may_not_apply && (
        <button type="button" class="button" disabled={!ready} onClick={() => void say("does not apply")}>
          Does not apply
        </button>
      )}
    </>
  );
}

function TextEntry({ at, item, onDone }: EntryProps) {
  const [value, setValue] = useState("");
  const keep = async () => {
    const before = mine(at, item, "");
    await record(at, item, "text", { value: value.trim() }, before ? { replaces: before, why: "slip" } : {});
    onDone();
  };
  return (
    <>
      <label class="field">
        {item.name}
        <input
          autocapitalize="characters"
          autocomplete="off"
          value={value}
          onInput={(event) => setValue(event.currentTarget.value)}
        />
      </label>
      <button type="button" class="button" disabled={!value.trim()} onClick={() => void keep()}>
        Save
      </button>
    </>
  );
}

/** What was recorded on this item, as found and as left; what was replaced or made void is lined out. */
function Recorded({ at, item }: EntryProps) {
  const own = at.job.progress.piece(at.piece);
  const here = own.records.filter(
    (one) => one.place.step === at.step.code && one.place.item === item.code && one.type !== "photo",
  );
  if (here.length === 0) return null;
  return (
    <ul class="list" aria-label="Recorded">
      {here.map((one) => (
        <RecordedLine key={one.id} at={at} one={one} />
      ))}
    </ul>
  );
}

type Says = Partial<
  Record<"entered" | "uom" | "result" | "value" | "number" | "state" | "layer" | "stamp" | "note", string>
>;

function RecordedLine({ at, one }: { at: At; one: Judged }) {
  const [voiding, setVoiding] = useState(false);
  const body = one.body as Says;
  const says = body.entered ?? body.result ?? body.value ?? body.number ?? body.state ?? `${body.layer} ${body.stamp}`;
  const standing = at.job.progress.piece(at.piece).standing.of(one);
  const stored = at.job.records.get(one.id);
  const words = [one.verdict.word, one.payload.why, standing === "in force" ? "" : standing, body.note];
  const mayVoid = standing === "in force" && one.payload.by === me.value?.person;
  return (
    <li>
      <div class="row">
        <span class="grow">
          <span class={standing === "in force" ? "" : "lined-out"}>
            {one.place.station && `${one.place.station}: `}
            <b>{says}</b> {body.uom}
          </span>
          <br />
          <span class="small soft">
            {[...words, stateWord(stored?.state, stored?.verdict)].filter(Boolean).join(" · ")}
          </span>
        </span>
        {mayVoid && !voiding && (
          <button type="button" class="station" onClick={() => setVoiding(true)}>
            Line out
          </button>
        )}
      </div>
      {voiding && mayVoid && <VoidForm at={at} id={one.id} says={says} />}
    </li>
  );
}

/** A void is final: what it lines out stays legible, and is recorded anew where it was wrong. */
function VoidForm({ at, id, says }: { at: At; id: string; says: string }) {
  const [reason, setReason] = useState("");
  const lineOut = async () => {
    const signer = me.value;
    if (!signer) return;
    const body = { record: id, reason: reason.trim() };
    await added(
      await save(signer, at.job, { type: "void", piece: at.piece, found_by: foundBy.value, body, under: [] }),
    );
    wake();
  };
  return (
    <>
      <label class="field">
        Why is {says} not to count? This is final; it stays legible.
        <textarea value={reason} onInput={(event) => setReason(event.currentTarget.value)} />
      </label>
      <button type="button" class="button" disabled={reason.trim().length < 3} onClick={() => void lineOut()}>
        Line it out
      </button>
    </>
  );
}

/** How far a record got: saved here, received, judged. */
function stateWord(state: string | undefined, verdict: string | undefined): string {
  if (state === "received") return verdict ? "received and judged" : "received";
  return state === "not taken in" ? "not taken in" : "saved on this phone";
}

function Photos({ at, item }: EntryProps) {
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(false);
  const asked = at.job.progress.step(at.piece, at.step.code).items.get(item.code)?.photoMissing ?? false;
  useEffect(() => void makeRoom(), []);
  const add = async (file: File | undefined) => {
    if (!file) return;
    setBusy(true);
    setSays("");
    try {
      const made = await shrink(file);
      const { sha256, media_type, bytes } = made.photo;
      const body = { sha256, media_type, bytes: bytes.byteLength, width: made.width, height: made.height };
      await record(at, item, "photo", body, {}, [made]);
    } catch (error) {
      if (error instanceof PhotoError) setSays(error.message);
      else if (!(error instanceof NotSavedError)) throw error;
    } finally {
      setBusy(false);
    }
  };
  return (
    <>
      <Thumbs at={at} item={item} />
      {says && <Notice kind="bad">{says}</Notice>}
      {asked && <Notice kind="care">A photo is asked for here.</Notice>}
      {isShort() && <RoomShort />}
      <FileButton main={asked} onFile={(file) => void add(file)}>
        {busy ? "Saving the photo" : "Photo"}
      </FileButton>
    </>
  );
}

/** Said before the next photo, while there is still room for it. */
function RoomShort() {
  return (
    <Notice kind="care">
      {room.value === 0
        ? "This phone has no room for another photo."
        : `This phone has room for about ${room.value} more photos.`}{" "}
      Photos are let go of once they are on the server and in its backup.
      <a class="button" href={linkTo("unsent")}>
        Send, or save to a file
      </a>
    </Notice>
  );
}

interface FileButtonProps {
  main: boolean;
  onFile: (file: File | undefined) => void;
  children: ComponentChildren;
}

function FileButton({ main, onFile, children }: FileButtonProps) {
  return (
    <label class={main ? "button main" : "button"}>
      {children}
      <input
        class="hidden-input"
        type="file"
        accept="image/*"
        capture="environment"
        onChange={(event) => {
          onFile(event.currentTarget.files?.[0]);
          event.currentTarget.value = "";
        }}
      />
    </label>
  );
}

function Thumbs({ at, item }: { at: At; item: Item }) {
  const own = at.job.progress.piece(at.piece);
  const shas = own.records.flatMap((one) =>
    one.type === "photo" && one.place.step === at.step.code && one.place.item === item.code
      ? [(one.body as Bodies["photo"]).sha256]
      : [],
  );
  const shown = useLoaded(() => Promise.all(shas.map(addressOf)), [shas.join(), changes.value]);
  if (!shown?.length) return null;
  return (
    <div class="thumbs">
      {shown.map((address, place) => (
        <Thumb key={shas[place]} address={address} says={`${item.name}, ${place + 1} of ${shown.length}`} />
      ))}
    </div>
  );
}

function Thumb({ address, says }: { address: string; says: string }) {
  const [gone, setGone] = useState(false);
  if (gone) return <p class="small soft">{says}: not on this phone, but on the server.</p>;
  return <img src={address} alt={says} onError={() => setGone(true)} />;
}

const addresses = new Map<string, string>();

/** The photo on this phone, else the server's thumbnail of it. */
async function addressOf(sha256: string): Promise<string> {
  const known = addresses.get(sha256);
  if (known) return known;
  const photo = await withStore((db) => db.get("photos", sha256));
  if (!photo) return `/api/v1/photos/${sha256}?size=thumb`;
  const address = URL.createObjectURL(new Blob([photo.bytes], { type: photo.media_type }));
  addresses.set(sha256, address);
  return address;
}
