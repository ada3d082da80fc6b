import "fake-indexeddb/auto";
import { describe, expect, test, vi } from "vitest";
import { base64url, fromBase64url, sha256, utf8, uuid7, wallClock } from "./bytes";
import { setSetting } from "./db";
import {
  changePin,
  digestOf,
  faultOfPin,
  keepKey,
  keysHere,
  makeKey,
  patiently,
  payloadOf,
  sign,
  thumbprint,
  triedWrong,
  unlock,
} from "./keys";
import { emptyStore, note, PIN, signer } from "./testing";

describe("bytes", () => {
  test("base64url comes back, without padding", () => {
    const bytes = Uint8Array.from({ length: 257 }, (_, place) => place % 256);
    expect([...fromBase64url(base64url(bytes))]).toEqual([...bytes]);
    expect(base64url(utf8("a"))).toBe("YQ");
  });

  // FIPS 180-4's example, as published by NIST.
  test("SHA-256 of abc", async () => {
    expect(await sha256(utf8("abc"))).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  });

  test("a UUIDv7 carries its moment and sorts by it", () => {
    expect(uuid7(0x017f22e279b0)).toMatch(/^017f22e2-79b0-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(uuid7(1) < uuid7(2)).toBe(true);
  });

  test("the wall clock names its offset", () => {
    expect(wallClock(new Date("2026-11-25T12:00:00Z"))).toMatch(/^2026-11-2\dT\d\d:00:00[+-]\d\d:\d\d$|:\d\d:00[+-]/);
  });
});

describe("keys", () => {
  // RFC 7638, 3: only the required members count, in one order.
  test("the thumbprint does not depend on the order of members", async () => {
    const { jwk, kid } = await makeKey();
    expect(await thumbprint({ y: jwk.y, x: jwk.x, kty: jwk.kty, crv: jwk.crv })).toBe(kid);
  });

  test("a PIN is refused that anybody tries first", () => {
    for (const pin of ["12345", "123456", "000000", "abcdef"]) expect(faultOfPin(pin)).not.toBe("");
    expect(faultOfPin("602417")).toBe("");
  });

  test("only the PIN unlocks, and what is signed verifies", async () => {
    const made = await makeKey();
    await keepKey(made, "602417", { id: "p", name: "P", roles: ["inspector"], stamp: "" });
    const [stored] = await keysHere();
    if (!stored) throw new Error("no key was kept");
    expect(await unlock(stored, "602418")).toBeNull();
    const signer = await unlock(stored, "602417");
    if (!signer) throw new Error("the PIN did not unlock");
    const jws = await sign({ n: 1 }, signer.kid, signer.key);
    const [signed, signature] = [jws.slice(0, jws.lastIndexOf(".")), jws.slice(jws.lastIndexOf(".") + 1)];
    const algorithm = { name: "ECDSA", hash: "SHA-256" };
    const good = await crypto.subtle.verify(algorithm, made.pair.publicKey, fromBase64url(signature), utf8(signed));
    expect(good).toBe(true);
    expect(payloadOf(jws)).toEqual({ n: 1 });
    expect(await digestOf(jws)).toBe(await sha256(utf8(signed)));
  });

  test("a PIN changed opens the same key, and the old one no more", async () => {
    await emptyStore();
    const who = await signer();
    await note(who);
    const [before] = await keysHere();
    if (!before) throw new Error("no key was kept");
    expect(await changePin(before, "999999", "715064")).toBe(false);
    expect(await changePin(before, PIN, "715064")).toBe(true);
    const [after] = await keysHere();
    if (!after) throw new Error("the key is gone");
    expect(after).toMatchObject({ kid: who.kid, seq: 1, prev: before.prev });
    expect(await unlock(after, PIN)).toBeNull();
    expect((await unlock(after, "715064"))?.kid).toBe(who.kid);
    expect(new Uint8Array(after.salt)).not.toEqual(new Uint8Array(before.salt));
  });

  test("a PIN changed while a record is signed loses neither", async () => {
    await emptyStore();
    const who = await signer();
    const [stored] = await keysHere();
    if (!stored) throw new Error("no key was kept");
    const signing = crypto.subtle.sign.bind(crypto.subtle);
    vi.spyOn(crypto.subtle, "sign").mockImplementationOnce(async (...given) => {
      await changePin(stored, PIN, "715064");
      return signing(...given);
    });
    await note(who);
    const [after] = await keysHere();
    expect(after).toMatchObject({ seq: 1 });
    expect(after && (await unlock(after, "715064"))?.kid).toBe(who.kid);
  });

  test("after a forgotten PIN both keys stay, and the first signs no more", async () => {
    await emptyStore();
    const [old, other] = [await signer("ann"), await signer("bob")];
    const fresh = await signer("ann");
    const keys = new Map((await keysHere()).map((key) => [key.kid, key.replacedBy]));
    expect(keys).toEqual(
      new Map([
        [old.kid, fresh.kid],
        [other.kid, undefined],
        [fresh.kid, undefined],
      ]),
    );
  });

  test("each wrong PIN after the third makes wait", async () => {
    await emptyStore();
    await signer();
    const [stored] = await keysHere();
    if (!stored) throw new Error("no key was kept");
    for (const _ of [1, 2, 3]) expect(await patiently(stored, async () => null)).toBe("This is not the PIN.");
    expect(await patiently(stored, async () => "in")).toMatch(/^Wait [45] seconds/);
    expect((await triedWrong(stored)).count).toBe(3);
  });

  test("a clock that was put back makes nobody wait for longer than was asked", async () => {
    await emptyStore();
    await signer();
    const [stored] = await keysHere();
    if (!stored) throw new Error("no key was kept");
    await setSetting(`wrong ${stored.kid}`, { count: 4, at: Date.now() + 3_600_000 });
    expect(await triedWrong(stored)).toEqual({ count: 4, wait: 15 });
    expect(await patiently(stored, async () => "in")).toBe("Wait 15 seconds, then try again.");
  });
});
