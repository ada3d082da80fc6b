import "fake-indexeddb/auto";
import { describe, expect, test } from "vitest";
import { base64url, fromBase64url, sha256, utf8, uuid7, wallClock } from "./bytes";
import { setSetting, setting, writing } from "./db";
import { digestOf, faultOfPin, keepKey, keysHere, makeKey, payloadOf, sign, thumbprint, unlock } from "./keys";

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
});

describe("the store", () => {
  test("a transaction that fails leaves nothing behind", async () => {
    await setSetting("here", 1);
    const failing = writing(["settings"], async (tx) => {
      await tx.objectStore("settings").put(2, "here");
      throw new Error("stop");
    });
    await expect(failing).rejects.toThrow("stop");
    expect(await setting("here")).toBe(1);
  });
});
