import { once } from "node:events";
import { createServer, type IncomingMessage, type Server } from "node:http";
import { type AddressInfo, connect } from "node:net";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { takeBody } from "@/lib/server/body";
import { bodyLimit } from "@/lib/server/bodyLimits";
import { Paces, type Pacing } from "@/lib/server/bodyPace";

const KB = 1024;
const MB = 1024 * KB;

let server: Server;
let port = 0;
/** Requests that were let through, and bytes that whatever stands behind has read of each. */
let passed: { url: string; bytes: number; failed: boolean }[] = [];

const read = async (request: IncomingMessage) => {
  const seen = { url: request.url ?? "", bytes: 0, failed: false };
  passed.push(seen);
  try {
    for await (const part of request) seen.bytes += (part as Buffer).length;
  } catch {
    seen.failed = true;
  }
  return seen;
};

beforeAll(async () => {
  server = createServer((request, response) =>
    takeBody(request, response, async (whole) => {
      const { bytes } = await read(whole);
      if (!response.headersSent) response.end(`${whole.method} ${bytes} ${whole.headers["x-mark"] ?? ""}`);
    }),
  );
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  port = (server.address() as AddressInfo).port;
});
afterAll(() => new Promise((resolve) => server.close(resolve)));
beforeEach(() => {
  passed = [];
});

/** Speaks HTTP by hand: sends each piece, waits for the end of the answer. */
function speak(pieces: Iterable<Buffer | string>): Promise<string> {
  return new Promise((resolve) => {
    const socket = connect(port, "127.0.0.1");
    let said = "";
    socket.on("data", (part) => {
      said += part.toString("latin1");
    });
    socket.on("error", () => undefined);
    const ended = new Promise((end) => socket.on("close", end)).then(() => resolve(said));
    void (async () => {
      for (const piece of pieces) {
        if (socket.destroyed) return;
        // A refused body ends in a reset while this end still writes; what was answered before it counts.
        if (!socket.write(piece)) await Promise.race([once(socket, "drain").catch(() => ended), ended]);
      }
    })();
  });
}

const head = (url: string, more: string, method = "POST") =>
  `${method} ${url} HTTP/1.1\r\nHost: localhost\r\nX-Mark: kept\r\nConnection: close\r\n${more}\r\n\r\n`;
const sized = (url: string, bytes: number, method = "POST") =>
  speak([head(url, `Content-Length: ${bytes}`, method), Buffer.alloc(bytes, 97)]);

/** So many bytes in pieces of 64 KB, none of which says how much there will be. */
function* chunks(url: string, bytes: number): Generator<Buffer | string> {
  yield head(url, "Transfer-Encoding: chunked");
  for (let left = bytes; left > 0; left -= 64 * KB) {
    const size = Math.min(left, 64 * KB);
    yield `${size.toString(16)}\r\n`;
    yield Buffer.alloc(size, 98);
    yield "\r\n";
  }
  yield "0\r\n\r\n";
}
const chunked = (url: string, bytes: number) => speak(chunks(url, bytes));

const status = (answer: string) => Number(/^HTTP\/1\.1 (\d+)/.exec(answer)?.[1] ?? 0);

const DOORS = [
  "/signin",
  "/signup",
  "/reset",
  "/new-password/x",
  "/join/x",
  "/account",
  "/api/auth/callback/credentials",
  "/api/auth/session",
  "/api/health",
  "/c/saltpan/token",
  "/api/c/saltpan/calendar/x.ics",
  "/",
  "/anything",
  "/%73/saltpan/import/parts",
  "//s/saltpan/import/parts",
];
const FILES: readonly [string, number][] = [
  ["/api/s/saltpan/photos?noun=part&id=1", 13 * MB],
  ["/s/saltpan/import/parts", 6 * MB],
  ["/s/saltpan/stock/suppliers/3/prices", 6 * MB],
  ["/s/saltpan/jobs/4/ride", 6 * MB],
  ["/s/saltpan/bench/lambda", 6 * MB],
  ["/s/saltpan/packages/2/edit/operations", 4 * MB],
];

describe("what may be sent to an address", () => {
  it.each(DOORS)("is 16 KB at the door: %s", (url) => {
    expect(bodyLimit("POST", url).most).toBe(16 * KB);
  });
  it.each([
    "/s/saltpan",
    "/s/saltpan/stock/orders/1",
    "/s/saltpan/import",
    "/s/saltpan/shop/settings",
    "/api/s/saltpan/sheets/1/pdf",
  ])("is 1 MB for a form: %s", (url) => expect(bodyLimit("POST", url).most).toBe(MB));
  it.each(FILES)("is more only where a file is expected: %s", (url, most) => {
    expect(bodyLimit("POST", url).most).toBe(most);
    expect(bodyLimit("GET", url).most).toBe(16 * KB);
    expect(bodyLimit("PUT", url).most).toBe(16 * KB);
  });
});

describe("a body", () => {
  it("within its limit arrives whole, with its headers, sized or in chunks", async () => {
    expect(await sized("/signin", 16 * KB)).toMatch(/POST 16384 kept$/);
    expect(await chunked("/signin", 16 * KB)).toContain("POST 16384 kept");
    expect(await sized("/s/saltpan/stock", MB)).toMatch(/POST 1048576 kept$/);
    expect(await chunked("/s/saltpan/import/parts", 5 * MB)).toContain("POST 5242880 kept");
    expect(await speak([head("/signin", "Content-Length: 0")])).toMatch(/POST 0 kept$/);
    expect(await speak([head("/signin", "X: y", "GET")])).toMatch(/GET 0 kept$/);
  });

  it.each(DOORS)("beyond it is refused before anything behind sees it: %s", async (url) => {
    const answer = await sized(url, 50 * KB);
    expect(status(answer)).toBe(413);
    expect(answer).toContain("Content-Type: text/plain\r\n");
    expect(answer).toContain("larger than the 16 KB");
    expect(status(await chunked(url, 50 * KB))).toBe(413);
    expect(passed).toEqual([]);
  });

  it("of 50 MB is refused by its declared length, and by its count where none is declared", async () => {
    for (const url of ["/api/auth/callback/credentials", "/s/saltpan/stock"]) {
      expect(status(await sized(url, 50 * MB))).toBe(413);
      expect(status(await chunked(url, 50 * MB))).toBe(413);
    }
    expect(passed).toEqual([]);
    expect(status(await chunked("/s/saltpan/import/parts", 50 * MB))).toBe(413);
    expect(passed.map((one) => [one.failed, one.bytes <= 6 * MB])).toEqual([[true, true]]);
  });

  it("that claims less than it is counts by its claim: the rest is no part of it", async () => {
    await speak([head("/signin", "Content-Length: 5"), "hello", "x".repeat(100)]);
    expect(passed.map((one) => one.bytes)).toEqual([5]);
  });

  it("whose length is no number, or who gives two ways of it, is no request", async () => {
    expect(status(await speak([head("/signin", "Content-Length: many"), "x"]))).toBe(400);
    expect(
      status(
        await speak([
          head("/signin", "Content-Length: 5\r\nTransfer-Encoding: chunked"),
          "5\r\nhello\r\n0\r\n\r\n",
        ]),
      ),
    ).toBe(400);
  });

  it("that breaks off leaves nothing behind", async () => {
    const socket = connect(port, "127.0.0.1");
    socket.on("error", () => undefined);
    socket.write(head("/s/saltpan/import/parts", "Content-Length: 5000"));
    socket.write("abc");
    await expect.poll(() => passed.length).toBe(1);
    socket.destroy();
    await expect.poll(() => passed[0]?.failed).toBe(true);
  });
});

describe("a body that comes slowly", () => {
  const limit = { most: 100 * KB, withinMs: 400, streamed: false };

  it("is given up with 408 once its time is over, however steadily it drips", async () => {
    const slow = createServer((request, response) =>
      takeBody(
        request,
        response,
        (whole) => void read(whole),
        () => limit,
      ),
    );
    await new Promise<void>((resolve) => slow.listen(0, "127.0.0.1", resolve));
    const before = port;
    port = (slow.address() as AddressInfo).port;
    const said = await new Promise<string>((resolve) => {
      const socket = connect(port, "127.0.0.1");
      let text = "";
      socket.on("data", (part) => {
        text += part.toString();
      });
      socket.on("error", () => undefined);
      socket.write(head("/signin", "Content-Length: 1000"));
      const drip = setInterval(() => socket.write("x"), 50);
      socket.on("close", () => {
        clearInterval(drip);
        resolve(text);
      });
    });
    port = before;
    await new Promise((resolve) => slow.close(resolve));
    expect(status(said)).toBe(408);
    expect(said).toContain("came too slowly");
    expect(passed).toEqual([]);
  });
});

describe("the pace at which files are read", () => {
  const paces = (most = 100) => new Paces({ atOnce: 10 * MB, perSecond: 2 * MB }, most);

  it("lets an address send its first files without waiting, and the next ones as fast as it may", () => {
    const pace = paces();
    expect(pace.spend("a", 10 * MB, 0)).toBe(0);
    expect(pace.spend("a", 1 * MB, 0)).toBe(500);
    expect(pace.spend("a", 1 * MB, 0)).toBe(1000);
    // A second later half of that is paid.
    expect(pace.spend("a", 0, 1000)).toBe(0);
    expect(pace.spend("a", 4 * MB, 1000)).toBe(2000);
  });

  it("makes nobody wait for another address", () => {
    const pace = paces();
    expect(pace.spend("a", 40 * MB, 0)).toBeGreaterThan(0);
    expect(pace.spend("b", 10 * MB, 0)).toBe(0);
  });

  it("gives an address that rested no more than others have at once", () => {
    const pace = paces();
    pace.spend("a", 10 * MB, 0);
    expect(pace.spend("a", 10 * MB, 3_600_000)).toBe(0);
    expect(pace.spend("a", 2 * MB, 3_600_000)).toBe(1000);
  });

  it("remembers a bounded number of addresses, those that owe nothing least", () => {
    const pace = paces(5);
    expect(pace.spend("owes", 40 * MB, 0)).toBe(15_000);
    for (let n = 0; n < 50; n++) pace.spend(`quiet ${n}`, 0, 1);
    expect(pace.remembered).toBeLessThanOrEqual(5);
    expect(pace.spend("owes", 0, 1)).toBeCloseTo(14_999);
  });

  it.each([
    ["counted here", (ms: number) => ms],
    ["counted by another process", (ms: number) => Promise.resolve(ms)],
    [
      "while that process goes",
      (ms: number) => (ms > 0 ? Promise.reject(new Error("gone")) : Promise.resolve(ms)),
    ],
  ])("reads a file to its end although it has to wait, and no form waits: %s", async (_, told) => {
    const slow = new Paces({ atOnce: 128 * KB, perSecond: 4 * MB }, 5);
    const waits: number[] = [];
    const pacing: Pacing = {
      spend: (address, bytes, now) => {
        const ms = slow.spend(address, bytes, now);
        waits.push(ms);
        return told(ms);
      },
    };
    const paced = createServer((request, response) =>
      takeBody(
        request,
        response,
        async (whole) => {
          const { bytes } = await read(whole);
          response.end(`${bytes}`);
        },
        bodyLimit,
        pacing,
      ),
    );
    await new Promise<void>((resolve) => paced.listen(0, "127.0.0.1", resolve));
    const at = `http://127.0.0.1:${(paced.address() as AddressInfo).port}`;
    const send = async (path: string, bytes: number) =>
      (await fetch(at + path, { method: "POST", body: Buffer.alloc(bytes, 97) })).text();
    expect(await send("/s/saltpan/import/parts", MB)).toBe(String(MB));
    expect(waits.some((ms) => ms > 0)).toBe(true);
    const counted = waits.length;
    expect(await send("/s/saltpan/customers", 100 * KB)).toBe(String(100 * KB));
    expect(waits.length).toBe(counted);
    await new Promise((resolve) => paced.close(resolve));
  });
});
