import "fake-indexeddb/auto";
import { beforeEach, describe, expect, test } from "vitest";
import { addBadge, secretOf, takeOffBadge, unlockByBadge } from "./badges";
import type { StoredKey } from "./db";
import { changePin, keysHere, unlock } from "./keys";
import { emptyStore, note, PIN, signer } from "./testing";

/** RFC 4648, 10 has shorter examples only; these are the bytes 0 to 15, and one that differs in a single bit. */
const BADGE = "SEAMTAG-BADGE:AAAQEAYEAUDAOCAJBIFQYDIOB4";
const OTHER = "SEAMTAG-BADGE:AAAQEAYEAUDAOCAJBIFQYDIOBY";

function secret(text = BADGE): Uint8Array<ArrayBuffer> {
  const found = secretOf(text);
  if (!found) throw new Error("no secret");
  return found;
}

async function keyOf(person = "ann"): Promise<StoredKey> {
  const found = (await keysHere()).find((key) => key.person === person && !key.replacedBy);
  if (!found) throw new Error("no key was kept");
  return found;
}

describe("what a badge says", () => {
  test("its secret is 16 bytes in base 32", () => {
    expect([...secret()]).toEqual(Array.from({ length: 16 }, (_, place) => place));
    expect([...secret(BADGE.toLowerCase())]).toEqual([...secret()]);
  });

  test.each([
    "HTTPS://TAGS.EXAMPLE/T/2Z6K3VD",
    "SEAMTAG-BADGE:",
    BADGE.slice(0, -1),
    `${BADGE}A`,
    // Bits behind the last byte.
    `${BADGE.slice(0, -1)}5`,
    BADGE.replace("AAAQ", "AAA1"),
  ])("%s is no badge", (text) => expect(secretOf(text)).toBeNull());
});

describe("a badge", () => {
  beforeEach(() => emptyStore());

  test("opens the key it was added to, and no other badge does", async () => {
    const who = await signer();
    expect(await unlockByBadge(await keysHere(), secret())).toBeNull();
    expect(await addBadge(await keyOf(), PIN, secret())).toBe(true);
    expect((await unlockByBadge(await keysHere(), secret()))?.kid).toBe(who.kid);
    expect(await unlockByBadge(await keysHere(), secret(OTHER))).toBeNull();
    expect((await unlock(await keyOf(), PIN))?.kid).toBe(who.kid);
  });

  test("is not added by a wrong PIN", async () => {
    await signer();
    expect(await addBadge(await keyOf(), "999999", secret())).toBe(false);
    expect((await keyOf()).badge).toBeUndefined();
  });

  test("opens its own person's key among several", async () => {
    const [ann, bob] = [await signer("ann"), await signer("bob")];
    await addBadge(await keyOf("ann"), PIN, secret());
    await addBadge(await keyOf("bob"), PIN, secret(OTHER));
    expect((await unlockByBadge(await keysHere(), secret()))?.kid).toBe(ann.kid);
    expect((await unlockByBadge(await keysHere(), secret(OTHER)))?.kid).toBe(bob.kid);
  });

  test("does not open the key of another whose wrapping was put in its place", async () => {
    await signer("ann");
    await signer("bob");
    await addBadge(await keyOf("ann"), PIN, secret());
    const [ann, bob] = [await keyOf("ann"), await keyOf("bob")];
    expect(await unlockByBadge([{ ...bob, badge: ann.badge as NonNullable<typeof ann.badge> }], secret())).toBeNull();
  });

  test("gives a key that signs, and that cannot be taken out", async () => {
    await signer();
    await addBadge(await keyOf(), PIN, secret());
    const who = await unlockByBadge(await keysHere(), secret());
    if (!who) throw new Error("the badge did not open");
    expect(who.key.extractable).toBe(false);
    expect((await note(who)).payload.seq).toBe(1);
  });

  test("goes on opening the key after the PIN was changed and a record was signed", async () => {
    const who = await signer();
    const before = await keyOf();
    await addBadge(before, PIN, secret());
    await note(who);
    // The key as it was read before the badge was added: what is written since must stay.
    expect(await changePin(before, PIN, "715064")).toBe(true);
    expect(await keyOf()).toMatchObject({ seq: 1 });
    expect((await unlockByBadge(await keysHere(), secret()))?.kid).toBe(who.kid);
    expect(await unlock(await keyOf(), PIN)).toBeNull();
  });

  test("added anew takes the place of the first", async () => {
    const who = await signer();
    await addBadge(await keyOf(), PIN, secret());
    await addBadge(await keyOf(), PIN, secret(OTHER));
    expect(await unlockByBadge(await keysHere(), secret())).toBeNull();
    expect((await unlockByBadge(await keysHere(), secret(OTHER)))?.kid).toBe(who.kid);
  });

  test("taken off opens nothing, and the PIN still does", async () => {
    const who = await signer();
    await addBadge(await keyOf(), PIN, secret());
    const before = await keyOf();
    await note(who);
    await takeOffBadge(before);
    expect(await unlockByBadge(await keysHere(), secret())).toBeNull();
    expect(await keyOf()).toMatchObject({ seq: 1 });
    expect("badge" in (await keyOf())).toBe(false);
    expect((await unlock(await keyOf(), PIN))?.kid).toBe(who.kid);
  });

  test("does not open a key that was replaced after a forgotten PIN", async () => {
    await signer();
    await addBadge(await keyOf(), PIN, secret());
    await signer();
    expect(await unlockByBadge(await keysHere(), secret())).toBeNull();
  });

  test("leaves neither its secret nor the private key in the store", async () => {
    await signer();
    await addBadge(await keyOf(), PIN, secret());
    const stored = await keyOf();
    const bytes = [...Object.values(stored), ...Object.values(stored.badge ?? {})].flatMap((one) =>
      one instanceof ArrayBuffer ? [Buffer.from(one).toString("hex")] : [],
    );
    expect(bytes.length).toBeGreaterThan(6);
    for (const one of bytes) expect(one).not.toContain(Buffer.from(secret()).toString("hex"));
    // PKCS 8 of a P-256 key names its curve; nothing that is wrapped does.
    for (const one of bytes) expect(one).not.toContain("2a8648ce3d030107");
  });
});
