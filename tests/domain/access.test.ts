import { describe, expect, it } from "vitest";
import { inFours, readCode } from "@/lib/domain/access/codes";
import { deviceWords } from "@/lib/domain/access/device";

describe("a device in plain words", () => {
  // User-Agent texts in the shapes that browsers send today (from memory); versions are made up.
  it.each([
    [
      "Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/150.0.0.0 Safari/537.36",
      "Chrome on Windows",
    ],
    [
      "Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/150.0.0.0 Safari/537.36 Edg/150.0.0.0",
      "Edge on Windows",
    ],
    ["Mozilla/5.0 (X11; Linux x86_64; rv:150.0) Gecko/20100101 Firefox/150.0", "Firefox on Linux"],
    [
      "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/26.0 Safari/605.1.15",
      "Safari on Mac",
    ],
    [
      "Mozilla/5.0 (iPhone; CPU iPhone OS 26_0 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/26.0 Mobile/15E148 Safari/604.1",
      "Safari on iPhone",
    ],
    [
      "Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 (KHTML, like Gecko) SamsungBrowser/29.0 Chrome/150.0.0.0 Mobile Safari/537.36",
      "Samsung Internet on Android",
    ],
    [
      "Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/150.0.0.0 Mobile Safari/537.36",
      "Chrome on Android",
    ],
    ["curl/8.0", "An unknown browser"],
    ["", "An unknown browser"],
    ["Something (Windows NT 10.0)", "A browser on Windows"],
  ])("reads %s", (agent, words) => {
    expect(deviceWords(agent)).toBe(words);
  });

  it("says nothing of what else stands in there, however long", () => {
    expect(deviceWords(`<script>${"x".repeat(100_000)} Firefox/1`)).toBe("An unknown browser");
  });
});

describe("what is typed at the second step", () => {
  it("is six figures of the app or sixteen mails of a recovery code, blanks and hyphens aside", () => {
    expect(readCode(" 287 082 ")).toEqual({ kind: "app", code: "287082" });
    expect(readCode("ABCD-efgh-2345-mnop")).toEqual({ kind: "recovery", code: "abcdefgh2345mnop" });
    for (const none of ["", "12345", "1234567", "abcd-efgh", "abcd-efgh-1890-mnop", "1".repeat(1000)])
      expect(readCode(none)).toBeNull();
  });

  it("is shown in groups of four", () => {
    expect(inFours("abcdefgh2345mnop")).toBe("abcd-efgh-2345-mnop");
    expect(inFours("GEZDGNBVGY", " ")).toBe("GEZD GNBV GY");
  });
});
