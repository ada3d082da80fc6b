/**
 * A badge opens a key as its PIN does: the private key is wrapped a second time, by a secret of 128 bits that the badge
 * carries as a QR symbol. Neither the secret nor anything made from it leaves the phone.
 */
import { utf8 } from "./bytes";
import { type BadgeWrapping, type StoredKey, writing } from "./db";
import { deviceKey, type Signer, signerOf, unwrap } from "./keys";

const FORM = /^SEAMTAG-BADGE:([A-Z2-7]{26})$/;
/** RFC 4648, 6: the alphabet of base 32. */
const ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";
const SECRET = 16;

/** The secret that a badge's symbol carries; null where the text is of no badge. */
export function secretOf(text: string): Uint8Array<ArrayBuffer> | null {
  const symbols = FORM.exec(text.trim().toUpperCase())?.[1];
  if (!symbols) return null;
  const bits = [...symbols].map((symbol) => ALPHABET.indexOf(symbol).toString(2).padStart(5, "0")).join("");
  // 26 symbols hold two bits more than the secret has: they are nought.
  if (!/^0*$/.test(bits.slice(SECRET * 8))) return null;
  return Uint8Array.from({ length: SECRET }, (_, place) => Number.parseInt(bits.slice(place * 8, place * 8 + 8), 2));
}

/** The key of a badge for one key of this phone, by HKDF with SHA-256 (RFC 5869). */
async function badgeKey(secret: BufferSource, salt: BufferSource, kid: string): Promise<CryptoKey> {
  const base = await crypto.subtle.importKey("raw", secret, "HKDF", false, ["deriveKey"]);
  const derivation = { name: "HKDF", hash: "SHA-256", salt, info: utf8(`seamtag badge ${kid}`) };
  return crypto.subtle.deriveKey(derivation, base, { name: "AES-GCM", length: 256 }, false, ["encrypt", "decrypt"]);
}

async function wrapByBadge(plain: ArrayBuffer, secret: BufferSource, kid: string): Promise<BadgeWrapping> {
  const random = (length: number) => crypto.getRandomValues(new Uint8Array(length)).buffer;
  const [salt, iv, deviceIv] = [random(16), random(12), random(12)];
  const byBadge = await crypto.subtle.encrypt({ name: "AES-GCM", iv }, await badgeKey(secret, salt, kid), plain);
  const wrapped = await crypto.subtle.encrypt({ name: "AES-GCM", iv: deviceIv }, await deviceKey(), byBadge);
  return { wrapped, salt, iv, deviceIv, since: Date.now() };
}

/** The private key (PKCS 8); null where no badge was added, or another. */
async function unwrapByBadge({ kid, badge }: StoredKey, secret: BufferSource): Promise<ArrayBuffer | null> {
  if (!badge) return null;
  const outer = { name: "AES-GCM", iv: badge.deviceIv };
  const byBadge = await crypto.subtle.decrypt(outer, await deviceKey(), badge.wrapped);
  const inner = { name: "AES-GCM", iv: badge.iv };
  return crypto.subtle.decrypt(inner, await badgeKey(secret, badge.salt, kid), byBadge).catch(() => null);
}

/** The signer whose badge it is, among keys that still sign; null where it opens none of them. */
export async function unlockByBadge(keys: readonly StoredKey[], secret: BufferSource): Promise<Signer | null> {
  for (const stored of keys.filter((key) => key.badge && !key.replacedBy)) {
    const plain = await unwrapByBadge(stored, secret);
    if (plain) return signerOf(stored, plain);
  }
  return null;
}

/** Have a badge open a key from now on, in place of one added before; false where the PIN is wrong. */
export async function addBadge(stored: StoredKey, pin: string, secret: BufferSource): Promise<boolean> {
  const plain = await unwrap(stored, pin);
  if (!plain) return false;
  await keepBadge(stored, await wrapByBadge(plain, secret, stored.kid));
  return true;
}

/** From now on no badge opens the key. */
export function takeOffBadge(stored: StoredKey): Promise<void> {
  return keepBadge(stored, undefined);
}

/** What a record or a new PIN made meanwhile has changed stays as it is. */
function keepBadge(stored: StoredKey, badge: BadgeWrapping | undefined): Promise<void> {
  return writing(["keys"], async (tx) => {
    const { badge: _, ...now } = (await tx.objectStore("keys").get(stored.kid)) ?? stored;
    await tx.objectStore("keys").put(badge ? { ...now, badge } : now);
  });
}
