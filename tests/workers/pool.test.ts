import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { invoicePdf } from "@/lib/documents/invoice";
import { labelsPdf } from "@/lib/documents/label";
import { quotePdf } from "@/lib/documents/quote";
import { Refusal } from "@/lib/domain/refusal";
import { closeWorkers, inWorker, makeWorkers, type Workers, workIn } from "@/lib/workers/pool";
import { gathered, sliced } from "@/lib/workers/slices";
import { invoiceSample, quoteSample } from "../documents/samples";
import type { Act } from "../support/workerThread";

let workers: Workers;
beforeAll(() => {
  workers = makeWorkers("tests/support/workerThread.ts", 2);
});
afterAll(async () => {
  await workers.pool.destroy();
  await closeWorkers();
});

const ask = (shop: string, act: Act, deadlineMs = 20_000, signal?: AbortSignal) =>
  workIn(workers, shop, act, { deadlineMs, signal });
const refusalOf = async (asked: Promise<unknown>): Promise<Refusal> => {
  const cause = await asked.then(
    () => undefined,
    (thrown: unknown) => thrown,
  );
  if (!(cause instanceof Refusal)) throw new Error(`No refusal, but ${String(cause)}.`);
  return cause;
};

describe("work in a worker thread", () => {
  it("answers what the task answered", async () => {
    expect(await ask("saltpan", { act: "say", what: { at: new Date(0), rows: [1, null, "x"] } })).toEqual({
      at: new Date(0),
      rows: [1, null, "x"],
    });
  });

  it("refuses with the task's own words: message, remedy, fields and kind cross the thread", async () => {
    expect(await refusalOf(ask("saltpan", { act: "refuse" }))).toMatchObject({
      message: "The drawer is empty.",
      remedy: "Order some.",
      fields: { code: "None left." },
      kind: "conflict",
    });
  });

  it("that has a bug throws it, and no refusal", async () => {
    await expect(ask("saltpan", { act: "break" })).rejects.toThrow(TypeError);
    await expect(ask("saltpan", { act: "break" })).rejects.not.toThrow(Refusal);
  });

  it("that never ends is ended at its deadline, says so, and the next work runs", async () => {
    const refused = await refusalOf(ask("saltpan", { act: "spin" }, 1000));
    expect(refused.message).toBe("This took longer than 1 seconds and was ended. Nothing was changed.");
    expect(refused.kind).toBe("refused");
    expect(await ask("saltpan", { act: "say", what: "on" })).toBe("on");
  });

  it("that kills its thread fails alone: another thread takes its place", async () => {
    for (let n = 0; n < 3; n++) await expect(ask("saltpan", { act: "die" })).rejects.toThrow("exited");
    expect(await ask("saltpan", { act: "say", what: "on" })).toBe("on");
    expect(workers.turns.busy).toBe(0);
  });

  it("that nobody waits for any more is ended", async () => {
    const gone = new AbortController();
    const spun = ask("saltpan", { act: "spin" }, 20_000, gone.signal);
    setTimeout(() => gone.abort(), 50);
    await expect(spun).rejects.toThrow(Refusal);
    expect(workers.turns.busy).toBe(0);
  });

  it("of one shop does not stop another's: one thread is always left to it", async () => {
    const gate = new Int32Array(new SharedArrayBuffer(4));
    const held = [1, 2, 3].map(() => ask("saltpan", { act: "wait", gate }));
    expect(await ask("fjellrev", { act: "say", what: "served" })).toBe("served");
    Atomics.store(gate, 0, 1);
    Atomics.notify(gate, 0);
    expect(await Promise.all(held)).toHaveLength(3);
  });

  it("beyond the few that may wait is refused as busy, with nothing run", async () => {
    const gate = new Int32Array(new SharedArrayBuffer(4));
    const held = Array.from({ length: 7 }, () => ask("saltpan", { act: "wait", gate }));
    const refused = await refusalOf(ask("saltpan", { act: "say", what: "never" }));
    expect(refused).toMatchObject({ kind: "busy", remedy: "Try again in a moment. Nothing was changed." });
    Atomics.store(gate, 0, 1);
    Atomics.notify(gate, 0);
    await Promise.all(held);
    expect(await ask("saltpan", { act: "say", what: "again" })).toBe("again");
  });
});

describe("papers printed in a worker thread", () => {
  const shop = { slug: "saltpan" };
  const same = (one: Uint8Array, other: Uint8Array) => expect(Buffer.compare(one, other)).toBe(0);

  it("are the same files, byte for byte, as printed in this thread", async () => {
    const invoice = invoiceSample("AU", 20);
    same(await inWorker(shop, "invoicePdf", invoice), await invoicePdf(invoice));
    const quote = quoteSample("NO");
    same(await inWorker(shop, "quotePdf", { quote, country: "NO" }), await quotePdf(quote, "NO"));
    const sheet = {
      labels: [{ code: "HX-1425", name: "Main jet 142.5", bin: "A-3" }],
      paper: "sheet" as const,
      shop: { name: "Saltpan Carburettor Works", locale: "en-AU", country: "AU" },
      day: "2026-11-25",
    };
    same(await inWorker(shop, "labelsPdf", sheet), await labelsPdf(sheet));
  });

  it("that go with a mail keep their name and type", async () => {
    const printed = invoiceSample("AU");
    const file = await inWorker(shop, "printEnclosed", {
      name: "invoice-2001.pdf",
      document: "invoice",
      form: "pdf",
      printed,
    });
    expect(file).toMatchObject({ name: "invoice-2001.pdf", type: "application/pdf" });
    same(file.content, await invoicePdf(printed));
  });
});

it("rows cross in slices and are the same rows in the same order", async () => {
  const rows = Array.from({ length: 1234 }, (_, n) => ({
    line: n,
    values: { name: `Part ${n}`, cost: null },
  }));
  const slices = sliced(rows);
  expect(slices).toHaveLength(3);
  expect(await gathered<(typeof rows)[number]>(slices)).toEqual(rows);
  expect(await gathered(sliced([]))).toEqual([]);
});
