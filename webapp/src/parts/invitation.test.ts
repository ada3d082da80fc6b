import { describe, expect, test } from "vitest";
import { readInvitation } from "./invitation";

describe("an invitation that was scanned", () => {
  test.each([
    ["https://seamtag.example/#/enrol/2Z6-K3V-D9T-0QW", "seamtag.example"],
    ["HTTPS://SEAMTAG.EXAMPLE:8443/#/ENROL/2Z6-K3V-D9T-0QW", "seamtag.example:8443"],
    [" 2z6k3vd9toqw ", ""],
  ])("%s", (text, host) => expect(readInvitation(text)).toEqual({ host, code: "2Z6-K3V-D9T-0QW" }));

  test.each(["", "2Z6-K3V-D9T", "2Z6-K3V-D9T-0QU", "https://seamtag.example/t/2Z6K3VD", "SEAMTAG-BADGE:AAAQEAYEAUDA"])(
    "%s is none",
    (text) => expect(readInvitation(text)).toBeNull(),
  );
});
