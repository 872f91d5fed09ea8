import { setTimeout as afterwards } from "node:timers";
import { setTimeout as pause } from "node:timers/promises";
import { previewImport, runImport } from "@/lib/data/imports/run";
import { prepareShop } from "@/lib/data/shop/prepare";
import { createShopDatabase } from "@/lib/db/migrate";
import type { ShopHandle } from "@/lib/db/shop";
import { handleFor } from "@/lib/gate/handle";
import type { ImportInput } from "@/lib/schemas/imports";
import { closeWorkers, startWorkers } from "@/lib/workers/pool";
import { few, longestWithin, median, type Row } from "./floor";

const ROWS = few(20_000);
const RUNS = 2;

interface Block {
  readonly passedMs: number;
  /** What the thread itself worked of it: the rest is the disk's, or other processes'. */
  readonly workedMs: number;
}

const worked = () => {
  const { user, system } = process.threadCpuUsage();
  return (user + system) / 1000;
};

/** An import stands back where others keep the loop busy: what beats at every turn would be taken for them. */
const EVERY_MS = 2;

/** The longest time for which the event loop served nobody else during `run`, and the longest that it worked for. */
async function longestBlock(run: () => Promise<unknown>): Promise<Block> {
  let [passedMs, workedMs, over] = [0, 0, false];
  let [at, busy] = [performance.now(), worked()];
  const beat = () => {
    passedMs = Math.max(passedMs, performance.now() - at - EVERY_MS);
    workedMs = Math.max(workedMs, worked() - busy);
    [at, busy] = [performance.now(), worked()];
    if (!over) afterwards(beat, EVERY_MS);
  };
  afterwards(beat, EVERY_MS);
  await run();
  await pause(2 * EVERY_MS);
  over = true;
  return { passedMs, workedMs };
}

const lines = (count: number, line: (n: number) => string) =>
  Array.from({ length: count }, (_, n) => line(n)).join("\n");

type File = Pick<ImportInput, "noun" | "text" | "map">;

/** The largest files that may be brought in, and the same with a change in every row. */
function files(change: string): File[] {
  return [
    {
      noun: "customers",
      text: `key,name,email,phone,address\n${lines(ROWS, (n) => `C${n},Customer number ${n}${change},c${n}@customer.example,555 ${n},${n} Ridge Road`)}`,
      map: { importKey: 0, name: 1, email: 2, phone: 3, address: 4 },
    },
    {
      noun: "bikes",
      text: `key,customer,make,model,cc,kind,plate,colour\n${lines(ROWS, (n) => `B${n},C${n},Tarrant,Drover ${n % 50},578,constant vacuum,SP ${n},red${change}`)}`,
      map: {
        importKey: 0,
        customerKey: 1,
        make: 2,
        model: 3,
        displacementCc: 4,
        carburettorType: 5,
        plate: 6,
        colour: 7,
      },
    },
    {
      noun: "parts",
      text: `code,name,kind,unit,cost,stock,bin\n${lines(ROWS, (n) => `P-${n},Part number ${n}${change},jet,each,1.25,4,A-${n % 300}`)}`,
      map: { code: 0, name: 1, kind: 2, unit: 3, costE4: 4, openingMilli: 5, bin: 6 },
    },
  ];
}

async function shopOf(name: string): Promise<ShopHandle> {
  await createShopDatabase({ database: name, server: "" });
  const by = { personId: `owner-${name}`, name: "Bench", role: "owner" as const, staffId: null };
  const shop = handleFor({ slug: name, database: name, server: "" }, by, new Date());
  const { staffId } = await prepareShop(shop, { name, country: "AU" });
  return { ...shop, by: { ...by, staffId } };
}

const asked = (file: File): ImportInput => ({
  ...file,
  fileName: `${file.noun}.csv`,
  mark: ".",
  distance: "km",
  way: "column",
  doubles: "",
  double: {},
  cards: {},
});

/** How long the event loop is held by the largest imports: brought in, looked at again, changed in every row. */
export async function importRows(): Promise<Row[]> {
  startWorkers();
  const found = new Map<string, Block[]>();
  const measure = async (work: string, run: () => Promise<unknown>) =>
    found.set(work, [...(found.get(work) ?? []), await longestBlock(run)]);
  for (let n = 0; n < RUNS; n++) {
    const shop = await shopOf(`import_${n}`);
    for (const file of files("")) {
      await measure(`${ROWS} ${file.noun} looked at`, () => previewImport(shop, asked(file)));
      await measure(`${ROWS} ${file.noun} brought in`, () =>
        runImport(shop, asked(file), `in-${n}-${file.noun}`),
      );
      await measure(`${ROWS} ${file.noun} looked at again`, () => previewImport(shop, asked(file)));
    }
    for (const file of files(" B"))
      await measure(`${ROWS} ${file.noun} changed`, () =>
        runImport(shop, asked(file), `ch-${n}-${file.noun}`),
      );
  }
  await closeWorkers();
  return [...found].map(([work, blocks]) => {
    const passed = blocks.map((block) => block.passedMs).toSorted((a, b) => a - b);
    const own = blocks.map((block) => block.workedMs).toSorted((a, b) => a - b);
    return {
      work: `longest block: ${work}`,
      medianMs: median(passed),
      p95Ms: passed.at(-1) ?? Number.NaN,
      cpuMs: median(own),
      floor: "-",
      floorMs: null,
      samples: RUNS,
      goal: longestWithin(50),
    };
  });
}
