/** A small picture of a photo: the one on this phone, else the server's; nothing where neither is to be had. */
import { useState } from "preact/hooks";
import { withStore } from "../store/db";
import { useLoaded } from "./use";

const addresses = new Map<string, string>();

async function addressOf(sha256: string): Promise<string> {
  const known = addresses.get(sha256);
  if (known) return known;
  const photo = await withStore((db) => db.get("photos", sha256));
  if (!photo) return `/api/v1/photos/${sha256}?size=thumb`;
  const address = URL.createObjectURL(new Blob([photo.bytes], { type: photo.media_type }));
  addresses.set(sha256, address);
  return address;
}

export function StoredPhoto({ sha256, says }: { sha256: string; says: string }) {
  const address = useLoaded(() => addressOf(sha256), [sha256]);
  const [gone, setGone] = useState(false);
  if (!address || gone) return null;
  return <img class="found-photo" src={address} alt={says} onError={() => setGone(true)} />;
}
