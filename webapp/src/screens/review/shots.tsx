/** The photos of a flag's place, and each of them large with what it shows, by whom and when. */
import { useState } from "preact/hooks";
import { areMarks } from "../../core/records";
import { t } from "../../language";
import { clockTime } from "../../parts/customs";
import { Notice } from "../../parts/frame";
import { LargePhoto, MarkedPhoto } from "../mark-up";
import type { OpenedFlag } from "./asking";
import { placeText } from "./words";

type Photo = OpenedFlag["photos"][number];

const addressOf = ({ sha256 }: Photo) => `/api/v1/photos/${sha256}?size=view`;
const marksOf = ({ marks }: Photo) => (areMarks(marks) ? marks : []);

export function Photos({ flag }: { flag: OpenedFlag }) {
  const [large, setLarge] = useState("");
  const [lost, setLost] = useState<readonly string[]>([]);
  const photos = flag.photos.filter((one) => one.here && one.shown === "yes" && !lost.includes(one.sha256));
  const damaged = flag.photos.find((one) => one.here && one.shown !== "yes");
  const says = placeText(flag);
  const shown = photos.find((one) => one.sha256 === large);
  return (
    <>
      {photos.length > 0 && (
        <div class={photos.length > 1 ? "shots several" : "shots"}>
          {photos.map((photo) => (
            <button
              key={photo.sha256}
              type="button"
              aria-label={t("review-photo-large", { photo: says })}
              onClick={() => setLarge(photo.sha256)}
            >
              <MarkedPhoto
                src={addressOf(photo)}
                says={says}
                size={photo}
                marks={marksOf(photo)}
                onError={() => setLost([...lost, photo.sha256])}
              />
            </button>
          ))}
        </div>
      )}
      {damaged && <Notice kind="bad">{damaged.shown}</Notice>}
      {lost.length > 0 && <p class="small soft">{t("review-photo-lost")}</p>}
      {flag.photos.some((one) => !one.here) && <p class="small soft">{t("review-photo-coming")}</p>}
      {shown && (
        <LargePhoto
          src={addressOf(shown)}
          says={says}
          size={shown}
          reach={captionOf(flag, shown)}
          own={[]}
          others={marksOf(shown)}
          onClose={() => setLarge("")}
        />
      )}
    </>
  );
}

/** The record of a photo among those told of the place; none where they cannot be matched one to one. */
function recordOf({ photos, history }: OpenedFlag, photo: Photo): OpenedFlag["history"][number] | undefined {
  const told = history.filter(({ type }) => type === "photo");
  return told.length === photos.length ? told[photos.indexOf(photo)] : undefined;
}

/** What a photo shows: piece, item, station and step, who took it and when, what was written with it and drawn on it. */
function captionOf(flag: OpenedFlag, photo: Photo): string {
  const record = recordOf(flag, photo);
  const place = placeText(record ? { ...flag, station: record.station } : flag);
  const at = { place, number: flag.step.number, step: flag.step.name };
  const drawn = marksOf(photo).length;
  return [
    record ? t("review-photo-by", { ...at, person: record.by, time: clockTime(record.at) }) : t("review-photo-at", at),
    record?.note,
    drawn > 0 && t("review-photo-drawn", { count: drawn }),
  ]
    .filter(Boolean)
    .join("\n");
}
