/** A file of everything that the server may not have yet: it takes it in where a phone cannot send. */
import { base64url, wallClock } from "./bytes";
import { withStore } from "./db";
import { deviceId } from "./keys";
import { inState, unsent, unsentPhotos } from "./outbox";

export interface Export {
  file: File;
  records: number;
  photos: number;
}

/**
 * All unsent records and photos as lines of JSON: {"record": JWS}, or {"photo": SHA-256, "bytes": base64}; before them
 * the public keys of this phone, which a server restored from an older backup may not know.
 *
 * It changes nothing here: what is in the file still goes out by itself. Records of others that a restored server has
 * lost go with it, since their own phone may be lost as well.
 */
export async function exportUnsent(): Promise<Export> {
  const keys = (await withStore((db) => db.getAll("keys"))).flatMap(({ jwk, person }) =>
    jwk ? [{ jwk, person }] : [],
  );
  const device = await deviceId();
  const heads = keys.map(({ jwk, person }) => `${JSON.stringify({ key: { jwk, person, device } })}\n`);
  const records = [...(await unsent()).map(({ record }) => record), ...(await inState("missing"))];
  const lines = records.map(({ text }) => `${JSON.stringify({ record: text })}\n`);
  const parts: Blob[] = [new Blob([...heads, ...lines])];
  let photos = 0;
  for (const { sha256 } of (await unsentPhotos()).rows) {
    const photo = await withStore((db) => db.get("photos", sha256));
    if (!photo) continue;
    // A Blob a photo: the browser may put it on disk, so that hundreds of photos need no memory at once.
    parts.push(new Blob([`${JSON.stringify({ photo: sha256, bytes: base64(photo.bytes) })}\n`]));
    photos += 1;
  }
  const name = `seamtag-unsent-${device}-${wallClock().slice(0, 10)}.jsonl`;
  return { file: new File(parts, name, { type: "application/jsonl" }), records: records.length, photos };
}

/** Base64 with its padding, as RFC 4648 has it. */
function base64(bytes: ArrayBuffer): string {
  const text = base64url(bytes).replaceAll("-", "+").replaceAll("_", "/");
  return text.padEnd(Math.ceil(text.length / 4) * 4, "=");
}

/** The file as this browser lets it be shared with other apps; null where it does not. */
export function shareable(file: File): File | null {
  const plain = new File([file], `${file.name}.txt`, { type: "text/plain" });
  return [file, plain].find((one) => navigator.canShare?.({ files: [one] })) ?? null;
}

/** Hand a file to the browser, which asks where to put it or puts it among the downloads. */
export function download(file: File): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = file.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
