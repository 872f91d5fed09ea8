import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { SearchTable } from "@/lib/db/search";
import { mergeSearchIn } from "@/lib/db/searchMerge";
import type { ShopHandle } from "@/lib/db/shop";
import type { RowsByNoun } from "@/lib/domain/imports/rowTypes";
import type { ImportNoun, ReadRow, RowNote, RowProblem } from "@/lib/domain/imports/types";
import { marksOf } from "@/lib/domain/money/format";
import { Refusal } from "@/lib/domain/refusal";
import type { ImportInput } from "@/lib/schemas/imports";
import { inWorker } from "@/lib/workers/pool";
import { gathered } from "@/lib/workers/slices";
import { demandMayCost } from "../stock/mayCost";
import { decideBikes } from "./bikes";
import { decideCustomers } from "./customers";
import { decideParts, decidePrices } from "./parts";
import type { Decide, Decision, Reader } from "./types";

export interface ImportView {
  readonly rows: number;
  readonly added: number;
  readonly changed: number;
  readonly unchanged: number;
  /** Rows that cannot come in; `problems` holds the first of what is wrong with them. */
  readonly bad: number;
  readonly problems: readonly RowProblem[];
  readonly notes: readonly RowNote[];
  /** What is not listed above, so that a file wrong in every cell is still answered quickly. */
  readonly unlisted: number;
}

/** Problems, and notes, told of one file: more than anyone mends before trying again. */
const LISTED = 1000;

/** So many rows leave enough behind in the search's index that it is put in order at once. */
const MANY = 500;

const FOUND_BY: Readonly<Record<ImportNoun, readonly SearchTable[]>> = {
  // A bike is found by its owner's name.
  customers: ["Customer", "Bike"],
  bikes: ["Bike"],
  parts: ["Part"],
  prices: [],
};

/** What bringing a file in would do: every row that is wrong, and how many would be new, changed or the same. Writes nothing. */
export async function previewImport(shop: ShopHandle, input: ImportInput): Promise<ImportView> {
  demandMayCost(shop, input.map.costE4, "map.costE4");
  const { view } = await decide(shop.read, input.noun, await readFile(shop, input));
  return view;
}

/** Brings a file in, all of it or nothing, once per key. The same file again changes nothing. */
export async function runImport(shop: ShopHandle, input: ImportInput, key?: string): Promise<ImportView> {
  demandMayCost(shop, input.map.costE4, "map.costE4");
  // Read before the transaction: the shop's other writers do not wait for it.
  const file = await readFile(shop, input);
  return shop.write(async (tx) => {
    return once(tx, shop, "brought a file in", { ...input, key }, async () => {
      const { view, decision } = await decide(tx, input.noun, file);
      const first = view.problems[0];
      if (first)
        throw new Refusal(
          `${view.bad} of ${view.rows} rows cannot come in, so nothing did. Line ${first.line}: ${[first.column, first.value && `"${first.value}"`, first.wrong].filter(Boolean).join(" ")}.`,
          "Mend the rows that are listed in the file and choose it again.",
        );
      await decision.store(tx, shop);
      if (view.added + view.changed > MANY) await mergeSearchIn(tx, FOUND_BY[input.noun]);
      const counts = { rows: view.rows, added: view.added, changed: view.changed };
      const run = await tx.importRun.create({
        data: {
          at: shop.now,
          noun: input.noun,
          fileName: input.fileName,
          staffId: shop.by.staffId,
          ...counts,
        },
        select: { id: true },
      });
      await audit(tx, shop, "imported", input.noun, run.id, { fileName: input.fileName, ...counts });
      return view;
    });
  });
}

/** The newest imports. */
export async function listImports(shop: ShopHandle) {
  return shop.read.importRun.findMany({
    select: { id: true, at: true, noun: true, fileName: true, rows: true, added: true, changed: true },
    orderBy: { id: "desc" },
    take: 20,
  });
}

/** The decimal mark a shop's people write, which decides where a number could be read in two ways. */
export function usualMark(locale: string): "." | "," {
  return marksOf(locale).decimal === "," ? "," : ".";
}

interface FileRead {
  readonly count: number;
  readonly rows: readonly ReadRow<RowsByNoun[ImportNoun]>[];
  readonly problems: readonly RowProblem[];
  readonly notes: readonly RowNote[];
  readonly column: (field: string) => string;
}

/** The file's rows, read in a worker thread. */
async function readFile(
  shop: ShopHandle,
  { noun, text, map, mark, distance }: ImportInput,
): Promise<FileRead> {
  const { currency } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { currency: true },
  });
  const terms = { currency, mark, distance };
  const { headings, count, ...sheet } = await inWorker(shop, "readSheet", { noun, text, map, terms });
  return {
    count,
    rows: await gathered(sheet.rows),
    problems: await gathered(sheet.problems),
    notes: await gathered(sheet.notes),
    column: (field) => headings[map[field] ?? -1] ?? "",
  };
}

const DECIDE: { readonly [N in ImportNoun]: Decide<RowsByNoun[N]> } = {
  customers: decideCustomers,
  bikes: decideBikes,
  parts: decideParts,
  prices: decidePrices,
};

async function decide(
  reader: Reader,
  noun: ImportNoun,
  file: FileRead,
): Promise<{ view: ImportView; decision: Decision }> {
  // The file was read as this noun's rows.
  const decision = await (DECIDE[noun] as Decide<unknown>)(reader, file.rows, file.column);
  const problems = [...file.problems, ...decision.problems].sort((a, b) => a.line - b.line);
  const notes = [...file.notes, ...decision.notes].sort((a, b) => a.line - b.line);
  const { added, changed, unchanged } = decision;
  const view = {
    rows: file.count,
    added,
    changed,
    unchanged,
    bad: new Set(problems.map((problem) => problem.line)).size,
    problems: problems.slice(0, LISTED),
    notes: notes.slice(0, LISTED),
    unlisted: Math.max(0, problems.length - LISTED) + Math.max(0, notes.length - LISTED),
  };
  return { decision, view };
}
