/** Keys made on this phone, wrapped by a PIN and by the phone itself. The PIN never leaves it. */
import { t } from "../language";
import { base64url, fromBase64url, sha256, utf8 } from "./bytes";
import { type StoredKey, setSetting, setting, settingOnce, withStore, writing } from "./db";

const ROUNDS = 600_000;
const CURVE = { name: "ECDSA", namedCurve: "P-256" };
const SIGNATURE = { name: "ECDSA", hash: "SHA-256" };
const WEAK = /^(\d)\1+$|^(?:012345|123456|234567|345678|456789|567890|654321|543210|987654|121212|112233|123123)/;

/** Somebody who has unlocked: their signing key is held in memory only. */
export interface Signer {
  kid: string;
  person: string;
  name: string;
  roles: string[];
  stamp: string;
  key: CryptoKey;
}

export interface PublicJwk {
  kty: string;
  crv: string;
  x: string;
  y: string;
}

/** What is wrong with a new PIN, or '' where nothing is. */
export function faultOfPin(pin: string): string {
  if (!/^\d{6,12}$/.test(pin)) return t("pin-too-short");
  return WEAK.test(pin) ? t("pin-weak") : "";
}

/** This phone's id, made once. */
export function deviceId(): Promise<string> {
  return settingOnce("device", () => `phone-${base64url(crypto.getRandomValues(new Uint8Array(9)))}`);
}

/** A key of this phone that cannot be taken off it: what is stored opens here only. */
export function deviceKey(): Promise<CryptoKey> {
  return settingOnce("device key", () =>
    crypto.subtle.generateKey({ name: "AES-GCM", length: 256 }, false, ["encrypt", "decrypt"]),
  );
}

async function pinKey(pin: string, salt: BufferSource, iterations: number): Promise<CryptoKey> {
  const base = await crypto.subtle.importKey("raw", utf8(pin), "PBKDF2", false, ["deriveKey"]);
  const derivation = { name: "PBKDF2", hash: "SHA-256", salt, iterations };
  return crypto.subtle.deriveKey(derivation, base, { name: "AES-GCM", length: 256 }, false, ["encrypt", "decrypt"]);
}

/** The RFC 7638 thumbprint of a public key. */
export async function thumbprint({ kty, crv, x, y }: PublicJwk): Promise<string> {
  const digest = await crypto.subtle.digest("SHA-256", utf8(JSON.stringify({ crv, kty, x, y })));
  return base64url(digest);
}

export interface NewKey {
  jwk: PublicJwk;
  kid: string;
  pair: CryptoKeyPair;
}

/** A new key pair; extractable only until it is wrapped. */
export async function makeKey(): Promise<NewKey> {
  const pair = await crypto.subtle.generateKey(CURVE, true, ["sign", "verify"]);
  const { kty, crv, x, y } = await crypto.subtle.exportKey("jwk", pair.publicKey);
  const jwk = { kty: kty ?? "", crv: crv ?? "", x: x ?? "", y: y ?? "" };
  return { jwk, kid: await thumbprint(jwk), pair };
}

type Wrapping = Pick<StoredKey, "wrapped" | "salt" | "rounds" | "pinIv" | "deviceIv">;

/** Wrap a private key (PKCS 8) by a PIN and then by the phone. */
async function wrap(plain: ArrayBuffer, pin: string): Promise<Wrapping> {
  const random = (length: number) => crypto.getRandomValues(new Uint8Array(length)).buffer;
  const [salt, pinIv, deviceIv] = [random(16), random(12), random(12)];
  const byPin = await crypto.subtle.encrypt({ name: "AES-GCM", iv: pinIv }, await pinKey(pin, salt, ROUNDS), plain);
  const wrapped = await crypto.subtle.encrypt({ name: "AES-GCM", iv: deviceIv }, await deviceKey(), byPin);
  return { wrapped, salt, rounds: ROUNDS, pinIv, deviceIv };
}

/** The private key (PKCS 8); null where the PIN is wrong. */
export async function unwrap(stored: Wrapping, pin: string): Promise<ArrayBuffer | null> {
  const outer = { name: "AES-GCM", iv: stored.deviceIv };
  const byPin = await crypto.subtle.decrypt(outer, await deviceKey(), stored.wrapped);
  const inner = { name: "AES-GCM", iv: stored.pinIv };
  const key = await pinKey(pin, stored.salt, stored.rounds);
  return crypto.subtle.decrypt(inner, key, byPin).catch(() => null);
}

/** Wrap a new key by the PIN and the phone, and keep it; the person's keys from before sign no more. */
export async function keepKey(
  made: NewKey,
  pin: string,
  who: { id: string; name: string; roles: string[]; stamp: string },
): Promise<void> {
  const plain = await crypto.subtle.exportKey("pkcs8", made.pair.privateKey);
  const { id: person, name, roles, stamp } = who;
  const { kid, jwk } = made;
  const kept: StoredKey = { kid, jwk, person, name, roles, stamp, ...(await wrap(plain, pin)), seq: 0, prev: "" };
  await writing(["keys"], async (tx) => {
    const keys = tx.objectStore("keys");
    for (const older of await keys.getAll()) {
      if (older.person === person && older.kid !== kept.kid) await keys.put({ ...older, replacedBy: kept.kid });
    }
    await keys.put(kept);
  });
}

/** Every key of this phone, those that sign no more among them. */
export function keysHere(): Promise<StoredKey[]> {
  return withStore((db) => db.getAll("keys"));
}

/** The signer whose PIN it is; null where the PIN is wrong. */
export async function unlock(stored: StoredKey, pin: string): Promise<Signer | null> {
  const plain = await unwrap(stored, pin);
  return plain && signerOf(stored, plain);
}

/** The signer of a stored key, by the private key (PKCS 8) that was unwrapped; it can no longer be taken out. */
export async function signerOf(stored: StoredKey, plain: ArrayBuffer): Promise<Signer> {
  const key = await crypto.subtle.importKey("pkcs8", plain, CURVE, false, ["sign"]);
  const { kid, person, name, roles, stamp } = stored;
  return { kid, person, name, roles, stamp, key };
}

/** Wrap a key anew by another PIN, at one stroke; false where the old PIN is wrong. */
export async function changePin(stored: StoredKey, old: string, fresh: string): Promise<boolean> {
  const plain = await unwrap(stored, old);
  if (!plain) return false;
  const wrapping = await wrap(plain, fresh);
  await writing(["keys"], async (tx) => {
    // What a record made meanwhile has moved on stays as it is.
    const now = await tx.objectStore("keys").get(stored.kid);
    await tx.objectStore("keys").put({ ...(now ?? stored), ...wrapping });
  });
  return true;
}

/** Seconds to wait after so many wrong PINs. */
const WAITS = [0, 0, 0, 5, 15, 30, 60, 300];

/**
 * Something that asks a PIN, slower after each wrong one: its result, or what to say instead.
 *
 * work: null or false where the PIN was wrong.
 */
export async function patiently<T>(stored: StoredKey, work: () => Promise<T | null | false>): Promise<T | string> {
  const { count, wait } = await triedWrong(stored);
  if (wait > 0) return t("pin-wait", { seconds: wait });
  const found = await work();
  await setSetting(`wrong ${stored.kid}`, { count: found ? 0 : count + 1, at: Date.now() });
  return found || t("pin-wrong");
}

/** How many wrong PINs there were since the last right one, and how many seconds there are still to wait. */
export async function triedWrong(stored: StoredKey): Promise<{ count: number; wait: number }> {
  const { count, at } = (await setting<{ count: number; at: number }>(`wrong ${stored.kid}`)) ?? { count: 0, at: 0 };
  const asked = WAITS[Math.min(count, WAITS.length - 1)] ?? 0;
  // A clock that was put back must not make anybody wait for longer than was asked.
  const gone = Math.max(0, (Date.now() - at) / 1000);
  return { count, wait: Math.max(0, Math.ceil(asked - gone)) };
}

/** The person's name, roles and stamp as the server has them now. */
export async function updateKeys(who: { id: string; name: string; roles: string[]; stamp: string }): Promise<void> {
  const { id: person, name, roles, stamp } = who;
  await writing(["keys"], async (tx) => {
    for (const key of await tx.objectStore("keys").getAll()) {
      if (key.person === person) await tx.objectStore("keys").put({ ...key, name, roles, stamp });
    }
  });
}

/** A compact JWS (RFC 7515) with ES256, the key named by its thumbprint. */
export async function sign(payload: unknown, kid: string, key: CryptoKey): Promise<string> {
  const header = base64url(utf8(JSON.stringify({ alg: "ES256", kid })));
  const signed = `${header}.${base64url(utf8(JSON.stringify(payload)))}`;
  return `${signed}.${base64url(await crypto.subtle.sign(SIGNATURE, key, utf8(signed)))}`;
}

/** SHA-256 of header.payload, which the key's next record names as `prev`. */
export function digestOf(jws: string): Promise<string> {
  return sha256(utf8(jws.slice(0, jws.lastIndexOf("."))));
}

/** The payload of a compact JWS, its signature not checked: the server has done so. */
export function payloadOf<T>(jws: string): T {
  return JSON.parse(new TextDecoder().decode(fromBase64url(jws.split(".")[1] ?? ""))) as T;
}
