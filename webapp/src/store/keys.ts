/** Keys made on this phone, wrapped by a PIN and by the phone itself. The PIN never leaves it. */
import { base64url, fromBase64url, sha256, utf8 } from "./bytes";
import { type StoredKey, setSetting, setting, withStore, writing } from "./db";

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
  if (!/^\d{6,12}$/.test(pin)) return "A PIN has six digits or more.";
  return WEAK.test(pin) ? "This PIN is one of the first that anybody tries. Choose another." : "";
}

/** This phone's id, made once. */
export async function deviceId(): Promise<string> {
  const known = await setting<string>("device");
  if (known) return known;
  const made = `phone-${base64url(crypto.getRandomValues(new Uint8Array(9)))}`;
  await setSetting("device", made);
  return made;
}

async function deviceKey(): Promise<CryptoKey> {
  const known = await setting<CryptoKey>("device key");
  if (known) return known;
  const made = await crypto.subtle.generateKey({ name: "AES-GCM", length: 256 }, false, ["encrypt", "decrypt"]);
  await setSetting("device key", made);
  return made;
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

/** Wrap a new key by the PIN and the phone, and keep it. */
export async function keepKey(
  made: NewKey,
  pin: string,
  who: { id: string; name: string; roles: string[]; stamp: string },
): Promise<void> {
  const plain = await crypto.subtle.exportKey("pkcs8", made.pair.privateKey);
  const random = (length: number) => crypto.getRandomValues(new Uint8Array(length)).buffer;
  const [salt, pinIv, deviceIv] = [random(16), random(12), random(12)];
  const byPin = await crypto.subtle.encrypt({ name: "AES-GCM", iv: pinIv }, await pinKey(pin, salt, ROUNDS), plain);
  const wrapped = await crypto.subtle.encrypt({ name: "AES-GCM", iv: deviceIv }, await deviceKey(), byPin);
  const kept: StoredKey = {
    kid: made.kid,
    person: who.id,
    name: who.name,
    roles: who.roles,
    stamp: who.stamp,
    wrapped,
    salt,
    rounds: ROUNDS,
    pinIv,
    deviceIv,
    seq: 0,
    prev: "",
  };
  await writing(["keys"], (tx) => tx.objectStore("keys").put(kept));
}

/** Who can unlock on this phone. */
export function keysHere(): Promise<StoredKey[]> {
  return withStore((db) => db.getAll("keys"));
}

/** The signer whose PIN it is; null where the PIN is wrong. */
export async function unlock(stored: StoredKey, pin: string): Promise<Signer | null> {
  const byPin = await crypto.subtle.decrypt(
    { name: "AES-GCM", iv: stored.deviceIv },
    await deviceKey(),
    stored.wrapped,
  );
  try {
    const iv = stored.pinIv;
    const plain = await crypto.subtle.decrypt(
      { name: "AES-GCM", iv },
      await pinKey(pin, stored.salt, stored.rounds),
      byPin,
    );
    const key = await crypto.subtle.importKey("pkcs8", plain, CURVE, false, ["sign"]);
    const { kid, person, name, roles, stamp } = stored;
    return { kid, person, name, roles, stamp, key };
  } catch {
    return null;
  }
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
