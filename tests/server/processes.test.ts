import { type ChildProcess, fork } from "node:child_process";
import { Agent, request as ask } from "node:http";
import { type AddressInfo, connect, createServer } from "node:net";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

const root = join(import.meta.dirname, "../..");
const script = (name: string) => join(root, "tests/support/processes", name);

async function freePort(): Promise<number> {
  const probe = createServer();
  await new Promise<void>((resolve) => probe.listen(0, "127.0.0.1", resolve));
  const { port } = probe.address() as AddressInfo;
  await new Promise((resolve) => probe.close(resolve));
  return port;
}

interface Server {
  readonly process: ChildProcess;
  readonly port: number;
  /** All it wrote to standard output. */
  said(): string;
  readonly ended: Promise<number | NodeJS.Signals | null>;
}

async function start(worker: string): Promise<Server & { first: unknown }> {
  const port = await freePort();
  const child = fork(script("primary.ts"), [script(worker)], {
    cwd: root,
    execArgv: ["--import", "tsx"],
    env: { ...process.env, PORT: String(port), SHOPS_OPEN: "8", LOG_LEVEL: "error" },
    stdio: ["ignore", "pipe", "inherit", "ipc"],
  });
  let said = "";
  child.stdout?.on("data", (part) => {
    said += part;
  });
  const ended = new Promise<number | NodeJS.Signals | null>((resolve) =>
    child.once("exit", (code, signal) => resolve(signal ?? code)),
  );
  const first = await Promise.race([new Promise((resolve) => child.once("message", resolve)), ended]);
  return { process: child, port, said: () => said, ended, first };
}

interface Told {
  readonly status: number;
  readonly worker: number;
  readonly pid: number;
  readonly handedOn: boolean;
  // biome-ignore lint/suspicious/noExplicitAny: each act answers something else
  readonly told: any;
  readonly text: string;
}

let server: Server;

/** One request on a connection of its own, so that it can come to either worker. */
function at(
  path: string,
  method = "GET",
  body?: string,
  headers: Record<string, string> = {},
): Promise<Told> {
  return new Promise((resolve, reject) => {
    const agent = new Agent();
    const asked = ask({ port: server.port, host: "127.0.0.1", path, method, headers, agent }, (answer) => {
      let text = "";
      answer.setEncoding("utf8");
      answer.on("data", (part) => {
        text += part;
      });
      answer.on("error", reject);
      answer.on("end", () => {
        const told = text.startsWith("{") ? (JSON.parse(text) as Told) : ({} as Told);
        resolve({ ...told, status: answer.statusCode ?? 0, text });
      });
    });
    asked.on("error", reject);
    asked.end(body);
  });
}

const six = (path: string) => Promise.all(Array.from({ length: 6 }, () => at(path)));
/**
 * Asks for both shops in turn until one request was answered where it came to and one was handed on: which worker takes a connection
 * is the system's choice, but each of the two shops is at home with another.
 */
async function eitherWay(ask: (shop: string) => Promise<Told>, check: (told: Told, shop: string) => void) {
  const seen = new Set<boolean>();
  for (let turn = 0; seen.size < 2; turn++) {
    const shop = turn % 2 ? "shop-b" : "shop-a";
    const told = await ask(shop);
    check(told, shop);
    seen.add(told.handedOn);
  }
}

const workersOf = (told: readonly Told[]) => [...new Set(told.map(({ worker }) => worker))].sort();

/** Asks until the answer fits: a worker needs a moment to start, and nobody says when it has. */
async function until(path: string, fits: (told: Told) => boolean): Promise<Told> {
  for (;;) {
    const told = await at(path);
    if (fits(told)) return told;
    await new Promise((resume) => setTimeout(resume, 50));
  }
}

describe("a server of two workers", () => {
  beforeAll(async () => {
    const begun = await start("worker.ts");
    expect(begun.first).toBe("serving");
    server = begun;
  });
  afterAll(() => void server.process.kill("SIGTERM"));

  it("serves each shop by one worker, whichever the connection came to, and two shops by two", async () => {
    expect(workersOf(await six("/s/shop-a/who"))).toHaveLength(1);
    const [a, b] = [await at("/s/shop-a/who"), await at("/s/shop-b/who")];
    expect([a.worker, b.worker].sort()).toEqual([1, 2]);
    for (const path of [
      "/c/shop-a/token/who",
      "/api/s/shop-a/who",
      "/api/c/shop-a/calendar/who",
      "/s/%73hop-a/who",
    ])
      expect(workersOf(await six(path))).toEqual([a.worker]);
  });

  it("serves what is of no shop by the worker it came to", async () => {
    for (const path of ["/who", "/s/nobody/who"])
      for (const { told, handedOn } of await six(path))
        expect([told, handedOn]).toEqual([{ shopsOpen: 4 }, false]);
  });

  it("hands a request on as it came: method, address, headers, body and where it came from", async () => {
    const body = "y".repeat(300_000);
    const claim = { "X-Throttlewright-Came-From": "203.0.113.9" };
    const urlOf = (shop: string) => `/s/${shop}/x?y=%20/echo`;
    for (const method of ["POST", "PUT"])
      await eitherWay(
        (shop) => at(urlOf(shop), method, body, { ...claim, "X-Mark": method }),
        ({ told }, shop) => {
          // What a stranger claims of where it came from is believed nowhere.
          expect(told).toEqual({ method, url: urlOf(shop), mark: method, remote: "127.0.0.1", body });
        },
      );
  });

  it("hands on what has no body, and an answer without one", async () => {
    for (const shop of ["shop-a", "shop-b"]) {
      expect((await at(`/s/${shop}/echo`, "POST")).told.body).toBe("");
      expect((await at(`/s/${shop}/echo`, "DELETE")).told.body).toBe("");
      expect(await at(`/s/${shop}/who`, "HEAD")).toMatchObject({ status: 200, text: "" });
    }
  });

  it("hands on, or answers, whatever strangers write, and no worker ends of it", async () => {
    const speak = (text: string) =>
      new Promise<string>((resolve, reject) => {
        const socket = connect(server.port, "127.0.0.1", () => socket.write(Buffer.from(text, "latin1")));
        let said = "";
        socket.on("data", (part) => {
          said += part.toString("latin1");
        });
        socket.on("error", reject);
        socket.on("close", () => resolve(said));
      });
    const before = [await at("/s/shop-a/who"), await at("/s/shop-b/who")].map(({ pid }) => pid);
    for (const shop of ["shop-a", "shop-b"])
      for (const rest of [
        "/x/who HTTP/1.1\r\nHost: x\r\nX-Mark: \xff\x80\r\nX-Empty:\r\n",
        "/who HTTP/1.1\r\nHost: x\r\nConnection: keep-alive, X-Mark, upgrade\r\nUpgrade: websocket\r\n",
        "/who HTTP/1.1\r\nHost: x\r\nExpect: 100-continue\r\nTE: trailers\r\n",
        "/who HTTP/1.0\r\n",
      ])
        expect(await speak(`GET /s/${shop}${rest}Connection: close\r\n\r\n`)).toContain(" 200 OK");
    expect([await at("/s/shop-a/who"), await at("/s/shop-b/who")].map(({ pid }) => pid)).toEqual(before);
  });

  it("counts what an address sends once for both workers", async () => {
    const MB = 1024 * 1024;
    const mark = { "X-Mark": String(8 * MB) };
    const waits: number[] = [];
    for (let turn = 0; turn < 8; turn++)
      waits.push((await at(turn % 2 ? "/s/shop-a/spend" : "/s/shop-b/spend", "GET", undefined, mark)).told);
    // 48 MB at once, whoever reads them, and then 4 MB a second.
    expect(waits.slice(0, 5).every((ms) => ms === 0)).toBe(true);
    expect(waits.at(-1)).toBeGreaterThan(1_000);
  });

  it("shuts a shop that one worker finds damaged in all of them", async () => {
    const finder = await at("/s/shop-a/shut");
    // The others are told of it a moment later.
    while (!(await six("/faults")).every(({ told }) => told.length > 0));
    for (const { told } of await six("/faults")) expect(told).toEqual([["ill", true]]);
    expect(finder.worker).toBe((await at("/s/shop-a/who")).worker);
  });

  it("tells how all of its processes are", async () => {
    const { told } = await at("/reports");
    expect(told.map(({ process: name }: { process: string }) => name)).toEqual([
      "primary",
      "worker 1",
      "worker 2",
    ]);
    for (const { rssMb, shopsOpen } of told) expect([rssMb > 0, shopsOpen]).toEqual([true, 0]);
  });

  it("writes one log of whole lines, each with its worker", async () => {
    await Promise.all([...Array(4)].flatMap(() => [at("/s/shop-a/log"), at("/s/shop-b/log")]));
    const long = () =>
      server
        .said()
        .split("\n")
        .filter((line) => line.includes('"long"') && line.endsWith("}"))
        .map((line) => JSON.parse(line) as { worker: number; long: string });
    while (long().length < 8) await new Promise((resume) => setTimeout(resume, 20));
    expect(
      long()
        .map(({ worker, long }) => [worker, long.length])
        .sort(),
    ).toEqual([...Array(4).fill([1, 100_000]), ...Array(4).fill([2, 100_000])]);
  });

  it("serves on while a worker that was killed is replaced, and its shop comes home", async () => {
    const [a, b] = [await at("/s/shop-a/who"), await at("/s/shop-b/who")];
    const told = new Promise((resolve) => server.process.once("message", resolve));
    process.kill(a.pid, "SIGKILL");
    // The other worker serves both shops meanwhile, or the new one does already.
    const during = await until("/s/shop-a/who", ({ pid }) => pid !== a.pid);
    expect(during.status).toBe(200);
    expect((await at("/s/shop-b/who")).pid).toBe(b.pid);
    const after = await until("/s/shop-a/who", ({ worker, pid }) => worker === a.worker && pid !== a.pid);
    expect(workersOf(await six("/s/shop-a/who"))).toEqual([after.worker]);
    // The new one knows what was found before it was there.
    for (const { told } of await six("/faults")) expect(told).toEqual([["ill", true]]);
    expect(await told).toEqual({ cutOff: ["shop-a"] });
    expect(server.said()).toContain("A worker has ended and is started anew.");
  });

  it("fails a write in flight once where its worker ends, in words or by the connection, and answers a read by the other", async () => {
    const one = await until("/s/shop-a/who", ({ worker }) => worker === 1).catch(() => undefined);
    const shop = one ? "shop-a" : "shop-b";
    const read = await at(`/s/${shop}/dieOnce`).catch((cause: NodeJS.ErrnoException) => cause);
    // It came to the other worker and was handed on, or it came to the one that ended.
    if (read instanceof Error) expect((read as NodeJS.ErrnoException).code).toBe("ECONNRESET");
    else expect(read.told).toBe("answered");
    await until(`/s/${shop}/who`, ({ worker }) => worker === 1);
    const written = await at(`/s/${shop}/die`, "POST", "a=1").catch((cause: NodeJS.ErrnoException) => cause);
    if (written instanceof Error) expect((written as NodeJS.ErrnoException).code).toBe("ECONNRESET");
    else
      expect([written.status, written.text]).toEqual([502, expect.stringContaining("may be stored, or not")]);
    expect((await until(`/s/${shop}/who`, ({ worker }) => worker === 1)).status).toBe(200);
  });

  it("ends gently: what is under way is answered, and no process is left", async () => {
    const pids = [await at("/s/shop-a/who"), await at("/s/shop-b/who")].map(({ pid }) => pid);
    const waiting = [at("/s/shop-a/wait"), at("/s/shop-b/wait"), at("/s/shop-a/wait"), at("/s/shop-b/wait")];
    await at("/s/shop-a/who");
    server.process.kill("SIGTERM");
    for (const told of await Promise.all(waiting)) expect(told.told).toBe("waited");
    expect(await server.ended).toBe(0);
    for (const pid of pids) expect(() => process.kill(pid, 0)).toThrow("ESRCH");
  });
});

it("gives up in words where its workers die at their start again and again", async () => {
  const { first, ended, process: child } = await start("diesAtStart.mjs");
  expect(first).toEqual({ refused: expect.stringContaining("end as they start") });
  child.disconnect();
  expect(await ended).toBe(1);
});

it("leaves no worker behind where the primary is killed", async () => {
  server = await start("worker.ts");
  const pids = [...new Set((await six("/who")).map(({ pid }) => pid))];
  server.process.kill("SIGKILL");
  await server.ended;
  const left = () =>
    pids.filter((pid) => {
      try {
        return process.kill(pid, 0);
      } catch {
        return false;
      }
    });
  while (left().length > 0) await new Promise((resume) => setTimeout(resume, 20));
});
