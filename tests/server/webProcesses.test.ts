import { readdirSync } from "node:fs";
import { totalmem } from "node:os";
import { PassThrough } from "node:stream";
import { describe, expect, it } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { allowedMemory, isSmall } from "@/lib/db/memory";
import { actionKey } from "@/lib/gate/secret";
import { heapOfEach, usualProcesses } from "@/lib/server/processes/count";
import { Homes, servingNow } from "@/lib/server/processes/homes";
import { Line } from "@/lib/server/processes/line";
import { wholeLines } from "@/lib/server/processes/lines";
import { nextStart } from "@/lib/server/processes/restarts";
import { shopOfPath } from "@/lib/server/processes/shopOfPath";

describe("the shop that an address is of", () => {
  it("is found in every address that carries one", () => {
    const carrying = readdirSync("app", { recursive: true, encoding: "utf8" })
      .filter((file) => /\[shop\]/.test(file) && /(?:^|\/)(?:page\.tsx|route\.ts)$/.test(file))
      .map((file) => `/${file.replace(/\/?(?:page\.tsx|route\.ts)$/, "").replace(/\([^)]*\)\//g, "")}`);
    expect(carrying.length).toBeGreaterThan(100);
    for (const route of carrying) {
      const address = route.replace("[shop]", "fjellrev-2").replace(/\[[^\]]+\]/g, "7");
      expect([route, shopOfPath(`${address}?_rsc=1x`)]).toEqual([route, "fjellrev-2"]);
    }
  });

  it("is found however the address is spelled that Next.js takes for it", () => {
    for (const address of [
      "/s/saltpan.rsc?x",
      "/s/%73altpan/jobs",
      "//s//saltpan",
      "/%73/saltpan#x",
      "/api/c/saltpan/calendar/x",
    ])
      expect([address, shopOfPath(address)]).toEqual([address, "saltpan"]);
    for (const address of [
      "/",
      "/signin",
      "/s",
      "/s/",
      "/x/s/saltpan",
      "/join/s/saltpan",
      "/s/%E0%A4%A",
      "*",
    ])
      expect([address, shopOfPath(address)]).toEqual([address, null]);
  });
});

describe("homes of shops", () => {
  it("are spread evenly, and kept", () => {
    const homes = new Homes(3);
    const found = ["a", "b", "c", "d", "e"].map((shop) => homes.settle(shop));
    expect(found).toEqual([1, 2, 3, 1, 2]);
    expect(["a", "b", "c", "d", "e"].map((shop) => homes.settle(shop))).toEqual(found);
    expect(homes.at(1)).toEqual(["a", "d"]);
    expect(homes.homeOf("z")).toBeUndefined();
  });

  it("are bounded: the shop that was asked for longest ago loses its own", () => {
    const homes = new Homes(2, 3);
    for (const shop of ["a", "b", "c", "a", "d"]) homes.settle(shop);
    expect(["a", "b", "c", "d"].map((shop) => homes.homeOf(shop))).toEqual([1, undefined, 1, 2]);
  });

  it("are left for one and the same other worker while theirs is down", () => {
    expect(servingNow(2, [1, 2, 3])).toBe(2);
    expect([1, 2, 3, 4].map((home) => servingNow(home, [3, 1]))).toEqual([1, 1, 3, 1]);
    expect(servingNow(1, [])).toBeUndefined();
  });
});

describe("a worker that ended", () => {
  it("is started anew at once after it served for a while", () => {
    expect(nextStart(4, true, 31_000)).toEqual({ deaths: 0, pauseMs: 0, hopeless: false });
  });

  it("is started after longer and longer pauses where it ends at its start again and again, and given up at five", () => {
    const seen = [];
    for (let deaths = 0; deaths < 9; ) {
      const next = nextStart(deaths, false, 60_000);
      seen.push([next.pauseMs, next.hopeless]);
      deaths = next.deaths;
    }
    expect(seen).toEqual([
      [0, false],
      [200, false],
      [500, false],
      [1_000, false],
      [2_000, true],
      [5_000, true],
      [15_000, true],
      [30_000, true],
      [30_000, true],
    ]);
  });
});

describe("how many processes serve", () => {
  const machine = (cores: number, memoryMb: number, heapMb = 4_096) => ({ cores, memoryMb, heapMb });
  it("is one for each core, at most four, with a gigabyte for each", () => {
    expect(usualProcesses(machine(1, 8_000))).toBe(1);
    expect(usualProcesses(machine(2, 8_000))).toBe(2);
    expect(usualProcesses(machine(64, 64_000))).toBe(4);
    expect(usualProcesses(machine(4, 2_500))).toBe(2);
    expect(usualProcesses(machine(4, 512))).toBe(1);
    // Somebody said how large the heap may be: it is shared out.
    expect(usualProcesses(machine(4, 8_000, 512))).toBe(1);
  });

  it("goes about its memory where there is less than a gigabyte", () => {
    expect([512, 1_023, 1_024, 8_000].map((mib) => isSmall(mib * 2 ** 20))).toEqual([
      true,
      true,
      false,
      false,
    ]);
    expect(allowedMemory()).toBeLessThanOrEqual(totalmem());
  });

  it("shares out the heap that one process would have had", () => {
    expect(heapOfEach(machine(2, 24_000), 2)).toBe(2_048);
    expect(heapOfEach(machine(4, 24_000, 512), 4)).toBe(384);
  });
});

describe("the line between two processes", () => {
  type Sums = { readonly add: readonly [asked: readonly [number, number], answer: number] };
  type None = Record<never, never>;
  function two() {
    const asker: Line<Sums, None> = new Line<Sums, None>((note) => answerer.receive(note), {});
    const answerer: Line<None, Sums> = new Line<None, Sums>((note) => asker.receive(note), {
      add: async ([x, y]) => {
        if (x < 0) throw new Error("Too small.");
        await new Promise((resume) => setTimeout(resume, y));
        return x + y;
      },
    });
    return { asker, answerer };
  }

  it("brings each answer to its question, in whatever order they come, and failures too", async () => {
    const { asker } = two();
    const asked = [asker.ask("add", [1, 9]), asker.ask("add", [2, 1]), asker.ask("add", [3, 4])];
    expect(await Promise.all(asked)).toEqual([10, 3, 7]);
    await expect(asker.ask("add", [-1, 1])).rejects.toThrow("Too small.");
  });

  it("fails what is unanswered when the other end goes, and what is asked after it", async () => {
    const { asker } = two();
    const open = asker.ask("add", [1, 50]);
    asker.close();
    await expect(open).rejects.toThrow("gone");
    await expect(asker.ask("add", [1, 1])).rejects.toThrow("gone");
  });
});

it("what a process says is passed on in whole lines, however it comes", async () => {
  const said = new PassThrough();
  const lines: string[] = [];
  wholeLines(said, (line) => lines.push(line));
  for (const part of ["one\ntw", "o\nthr", "ee", "\n\nlæ"]) said.write(part);
  said.end("st");
  await new Promise((resume) => said.once("close", resume));
  expect(lines).toEqual(["one", "two", "three", "", "læst"]);
});

it("the key that Next.js seals with follows from the secret: the same on every machine that has it", () => {
  reconfigure({ NEXTAUTH_SECRET: "a".repeat(40) });
  const key = actionKey();
  expect(Buffer.from(key, "base64")).toHaveLength(32);
  expect(actionKey()).toBe(key);
  reconfigure({ NEXTAUTH_SECRET: "b".repeat(40) });
  expect(actionKey()).not.toBe(key);
  reconfigure({ NEXTAUTH_SECRET: undefined });
});
