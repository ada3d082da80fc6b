/** Photos of an item: several in a row, how far each got, and each one large by a tap. */
import type { ComponentChildren } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import type { Item } from "../core/job";
import { isA } from "../core/judging";
import { type Layer, layersOf } from "../core/layers";
import type { Bodies, PhotoMark } from "../core/records";
import { t } from "../language";
import { Notice } from "../parts/frame";
import { useLoaded } from "../parts/use";
import { linkTo, me } from "../state";
import { type SentPhoto, type WaitingPhoto, withStore } from "../store/db";
import { changes } from "../store/jobs";
import { PhotoError, type Shrunk, shrink } from "../store/photos";
import { NotSavedError } from "../store/records";
import { isShort, makeRoom, room } from "../store/room";
import { waiting } from "../sync/loop";
import { record } from "./item";
import { LargePhoto, MarkedPhoto } from "./mark-up";
import type { At } from "./step";

type PhotoBody = Bodies["photo"];

/** What a record of a photo says, as the phone made it. */
export function bodyOf({ photo, width, height }: Shrunk): PhotoBody {
  return { sha256: photo.sha256, media_type: photo.media_type, bytes: photo.bytes.byteLength, width, height };
}

/** The photos at an item of a step, each once, in the order in which they were taken; item '': of the step itself. */
export function photosAt(at: At, item: string): PhotoBody[] {
  const own = at.job.progress.piece(at.piece);
  const here = own.records.filter((one) => one.place.step === at.step.code && one.place.item === item);
  const taken = here.filter((one) => isA(one, "photo")).filter((one) => !own.standing.voids.has(one.id));
  const found = new Map<string, PhotoBody>();
  for (const { body } of taken) if (!found.has(body.sha256)) found.set(body.sha256, body);
  return [...found.values()];
}

interface PhotosProps {
  at: At;
  item: Item;
  /** Whether a photo is asked for by what was found, beside what the plan asks. */
  wanted?: boolean;
}

/** The key for the next photo stays where it is; what was taken stands below it. */
export function Photos({ at, item, wanted = false }: PhotosProps) {
  const [says, setSays] = useState("");
  const [busy, setBusy] = useState(0);
  const missing = at.job.progress.step(at.piece, at.step.code).items.get(item.code)?.photoMissing ?? false;
  const here = photosAt(at, item.code);
  const asked = missing || (wanted && here.length === 0);
  useEffect(() => void makeRoom(), []);
  const add = async (files: readonly File[]) => {
    setSays("");
    setBusy((count) => count + files.length);
    for (const file of files) {
      try {
        const made = await shrink(file);
        await record(at, item, "photo", bodyOf(made), {}, [made]);
      } catch (error) {
        if (error instanceof PhotoError) setSays(error.message);
        else if (!(error instanceof NotSavedError)) throw error;
      } finally {
        setBusy((count) => count - 1);
      }
    }
  };
  return (
    <section class="photos" aria-label={t("photos")}>
      {says && <Notice kind="bad">{says}</Notice>}
      {asked && <Notice kind="care">{t("photo-asked")}</Notice>}
      {isShort() && <RoomShort />}
      <div class="pair">
        <FileButton main={asked} onFiles={(files) => void add(files)}>
          {here.length + busy === 0 ? t("photo-take") : t("photo-take-next")}
        </FileButton>
        <GalleryButton onFiles={(files) => void add(files)} />
      </div>
      <p class="small soft" role="status">
        {busy > 0 && t("photo-saving", { count: busy })}
      </p>
      <Thumbs at={at} item={item} photos={here} />
    </section>
  );
}

/** Said before the next photo, while there is still room for it. */
function RoomShort() {
  const left = room.value ?? 0;
  return (
    <Notice kind="care">
      {left === 0 ? t("photo-no-room") : t("photo-room-left", { count: left })}
      <a class="button" href={linkTo("unsent")}>
        {t("photo-make-room")}
      </a>
    </Notice>
  );
}

interface FileButtonProps {
  main: boolean;
  onFiles: (files: readonly File[]) => void;
  children: ComponentChildren;
}

/** The phone's own camera: it takes the best picture this phone can. */
export function FileButton({ main, onFiles, children }: FileButtonProps) {
  return (
    <label class={main ? "button filled" : "button"}>
      {children}
      <input
        class="hidden-input"
        type="file"
        accept="image/*"
        capture="environment"
        onChange={(event) => {
          onFiles([...(event.currentTarget.files ?? [])]);
          event.currentTarget.value = "";
        }}
      />
    </label>
  );
}

/** Photos that are on the phone already, several at once; a field of its own, made when it is asked for. */
function GalleryButton({ onFiles }: { onFiles: (files: readonly File[]) => void }) {
  const field = useRef<HTMLInputElement | null>(null);
  const choose = () => {
    const input = document.createElement("input");
    Object.assign(input, { type: "file", accept: "image/*", multiple: true });
    input.onchange = () => onFiles([...(input.files ?? [])]);
    field.current = input;
    input.click();
  };
  return (
    <button type="button" class="button" onClick={choose}>
      {t("photo-from-gallery")}
    </button>
  );
}

interface ThumbsProps {
  at: At;
  /** The item whose photos these are; none where they belong to the step itself. */
  item?: Item;
  photos: readonly PhotoBody[];
}

export function Thumbs({ at, item, photos }: ThumbsProps) {
  const [open, setOpen] = useState("");
  const shas = photos.map((photo) => photo.sha256);
  const shown = useLoaded(
    () => Promise.all(shas.map((sha256) => shownOf(sha256, isReceived(at, sha256)))),
    [shas.join(), changes.value, waiting.value],
  );
  if (!shown?.length || shown.length !== photos.length) return null;
  const views = photos.flatMap((photo, place) => {
    const of = item?.name ?? photo.caption ?? at.step.name ?? at.step.code;
    const says = t("photo-of", { item: of, place: place + 1, count: photos.length });
    const found = shown[place];
    return found ? [{ photo, says, ...found, ...marksOver(at, photo.sha256) }] : [];
  });
  const large = views.find(({ photo }) => photo.sha256 === open);
  return (
    <>
      <ul class="thumbs">
        {views.map((view) => (
          <li key={view.photo.sha256}>
            <Thumb {...view} onOpen={() => setOpen(view.photo.sha256)} />
          </li>
        ))}
      </ul>
      {large && (
        <LargePhoto
          src={large.large}
          says={large.says}
          size={large.photo}
          reach={large.reach}
          own={large.mine}
          others={large.others}
          {...(item ? { onSave: (marks) => keepMarks(at, item, large.photo, marks) } : {})}
          onClose={() => setOpen("")}
        />
      )}
    </>
  );
}

/** The marks over a photo: my own layer, which I may change, and those of others. */
function marksOver(at: At, sha256: string): { mine: readonly PhotoMark[]; others: readonly PhotoMark[] } {
  const own = at.job.progress.piece(at.piece);
  const layers = layersOf(own.records, own.standing.voids, sha256);
  const isMine = (layer: Layer) => layer.by === me.value?.person;
  return {
    mine: layers.find(isMine)?.marks ?? [],
    others: layers.filter((layer) => !isMine(layer)).flatMap((layer) => layer.marks),
  };
}

/** The photo's record comes again, with the marks as its layer: what was taken stays as it is. What went wrong, or ''. */
async function keepMarks(at: At, item: Item, photo: PhotoBody, marks: readonly PhotoMark[]): Promise<string> {
  try {
    await record(at, item, "photo", { ...photo, marks });
    return "";
  } catch (error) {
    if (error instanceof NotSavedError) return error.message;
    throw error;
  }
}

interface ThumbProps {
  address: string;
  says: string;
  reach: string;
  photo: PhotoBody;
  mine: readonly PhotoMark[];
  others: readonly PhotoMark[];
  onOpen: () => void;
}

function Thumb({ address, says, reach, photo, mine, others, onOpen }: ThumbProps) {
  const [gone, setGone] = useState(false);
  return (
    <>
      <button type="button" class="thumb" onClick={onOpen}>
        {gone ? (
          <span class="small">{t("photo-not-here", { photo: says })}</span>
        ) : (
          <MarkedPhoto
            src={address}
            says={says}
            size={photo}
            marks={[...others, ...mine]}
            onError={() => setGone(true)}
          />
        )}
      </button>
      <p class="small soft">{reach}</p>
    </>
  );
}

const addresses = new Map<string, string>();

interface Shown {
  address: string;
  large: string;
  reach: string;
}

/** Whether the server has the record that names a photo. */
function isReceived(at: At, sha256: string): boolean {
  const naming = at.job.progress.piece(at.piece).records.filter((one) => isA(one, "photo"));
  return naming.some((one) => one.body.sha256 === sha256 && at.job.records.get(one.id)?.state === "received");
}

/** The photo on this phone, else the server's copies of it; and how far it got. */
async function shownOf(sha256: string, received: boolean): Promise<Shown> {
  const [photo, row, sent] = await withStore((db) =>
    Promise.all([db.get("photos", sha256), db.get("photo_outbox", sha256), db.get("photos_sent", sha256)]),
  );
  const reach = reachOf(row, sent, received);
  const served = (size: string) => `/api/v1/photos/${sha256}?size=${size}`;
  if (!photo) return { address: served("thumb"), large: served("view"), reach };
  const known = addresses.get(sha256) ?? URL.createObjectURL(new Blob([photo.bytes], { type: photo.media_type }));
  addresses.set(sha256, known);
  return { address: known, large: known, reach };
}

/** How far a photo got, in words. */
function reachOf(row: WaitingPhoto | undefined, sent: SentPhoto | undefined, received: boolean): string {
  if (row?.refused) return t("photo-refused", { reason: row.refused });
  if (row) return received ? t("photo-sent") : t("photo-on-phone");
  return sent?.reason ? t("photo-damaged", { reason: sent.reason }) : t("photo-on-server");
}
