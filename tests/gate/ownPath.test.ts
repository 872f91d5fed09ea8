import { describe, expect, it } from "vitest";
import { ownPath } from "@/lib/gate/origin";

const OURS = "http://localhost:3000";

/** Where a browser that stands on our page would go (WHATWG URL Standard). */
const goes = (path: string) => new URL(path, `${OURS}/signin`).origin;

const AWAY = [
  "/.//evil.example",
  "/..//evil.example",
  "/%2e//evil.example",
  "/%2e%2e//evil.example",
  "/%2E%2E//evil.example",
  "/.%2e//evil.example",
  "/s/..//evil.example",
  "/s/../..//evil.example",
  "/s/%2e%2e/%2e%2e//evil.example",
  "/s/x/../..//evil.example",
  "/././/evil.example",
  "/.//evil.example/path?query#part",
  "/.///evil.example",
  "/..///evil.example",
  "//evil.example",
  "///evil.example",
  "////evil.example",
  "//evil.example/s/saltpan",
  "//user@evil.example",
  "//localhost:3000@evil.example",
  "/\\evil.example",
  "/\\/evil.example",
  "\\/evil.example",
  "\\\\evil.example",
  "/.\\/evil.example",
  "/..\\\\evil.example",
  "/s/..\\\\evil.example",
  "/\t/evil.example",
  "/\n/evil.example",
  "/\r/evil.example",
  "\t//evil.example",
  " //evil.example",
  "/.\t//evil.example",
  "/.\n//evil.example",
  "/\u0000/evil.example",
  "/\u0085/evil.example",
  "http://evil.example",
  "https://evil.example/s/saltpan",
  "HTTP://evil.example",
  "http:evil.example",
  "http:/evil.example",
  "http:\\\\evil.example",
  "https:///evil.example",
  "ftp://evil.example",
  "javascript:alert(1)",
  "JaVaScRiPt:alert(1)",
  "java\nscript:alert(1)",
  "data:text/html,<script>alert(1)</script>",
  "blob:http://localhost:3000/1",
  "mailto:someone@evil.example",
  "evil.example",
  ".evil.example",
  "@evil.example",
  "?to=//evil.example",
  "#//evil.example",
  "",
  `/${"a".repeat(3000)}`,
];

const OWN: readonly [string, string][] = [
  ["/", "/"],
  ["/account", "/account"],
  ["/s/saltpan", "/s/saltpan"],
  ["/s/saltpan/jobs?state=open&q=a%20b", "/s/saltpan/jobs?state=open&q=a%20b"],
  ["/s/saltpan/bookings?day=2026-11-26#booking-7", "/s/saltpan/bookings?day=2026-11-26#booking-7"],
  ["/s/saltpan/../fjellrev", "/s/fjellrev"],
  ["/s/./saltpan", "/s/saltpan"],
  ["/s/blå", "/s/bl%C3%A5"],
  ["/s/a//b", "/s/a//b"],
  ["/s?to=//evil.example", "/s?to=//evil.example"],
  ["/@evil.example", "/@evil.example"],
  ["/:80", "/:80"],
];

describe("a path to go to after signing in", () => {
  it.each(AWAY)("is never another host or scheme: %j", (given) => {
    const path = ownPath(given, "/");
    expect(path).toBe("/");
    expect(goes(path)).toBe(OURS);
  });

  it.each(OWN)("keeps our own, made plain: %j", (given, plain) => {
    expect(ownPath(given, "/")).toBe(plain);
    expect(goes(ownPath(given, "/"))).toBe(OURS);
    expect(ownPath(plain, "/")).toBe(plain);
  });

  it("falls back where nothing is given", () => {
    expect(ownPath(null, "/account")).toBe("/account");
    expect(ownPath(undefined, "/account")).toBe("/account");
  });
});
