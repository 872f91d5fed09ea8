import { inBackground } from "@/lib/db/giveWay";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import { mergeSearchIn } from "@/lib/db/searchMerge";
import type { ShopHandle } from "@/lib/db/shop";
import type { RowsByNoun } from "@/lib/domain/imports/rowTypes";
import type { ImportNoun, ReadRow, RowNote, RowProblem } from "@/lib/domain/imports/types";
import { marksOf } from "@/lib/domain/money/format";
import { Refusal } from "@/lib/domain/refusal";
import type { ImportInput } from "@/lib/schemas/imports";
import { inWorker } from "@/lib/workers/pool";
import { gathered } from "@/lib/workers/slices";
import { chunks } from "../common/chunks";
import { demandMayCost } from "../stock/mayCost";
import { decideBikes } from "./bikes";
import { decideCustomers } from "./customers";
import { type Double, type DoubleChoice, findDoubles } from "./doubles";
import { FOUND_BY, MANY } from "./foundBy";
import { decideParts, decidePrices } from "./parts";
import type { Decide, Decision, MissingCard, Reader } from "./types";

export interface ImportView {
  readonly rows: number;
  readonly added: number;
  readonly changed: number;
  readonly unchanged: number;
  /** Rows that cannot come in; `problems` holds the first of what is wrong with them. */
  readonly bad: number;
  readonly problems: readonly RowProblem[];
  readonly notes: readonly RowNote[];
  /** Rows that are left out because the person said so. */
  readonly skipped: number;
  /** Rows that are probably one with what is here, and what is done with each. */
  readonly doubles: readonly (Double & { readonly choice: DoubleChoice })[];
  /** Models without a card: asked about once each. */
  readonly missing: readonly MissingCard[];
  /** What is not listed above, so that a file wrong in every cell is still answered quickly. */
  readonly unlisted: number;
}

/** Problems, and notes, told of one file: more than anyone mends before trying again. */
const LISTED = 1000;

/** Doubles shown to be decided one by one; what is decided for all holds for the others. */
const DOUBLES_LISTED = 300;

/** Models asked about at once. */
const CARDS_ASKED = 60;

/** What bringing a file in would do: every row that is wrong, and how many would be new, changed or the same. Writes nothing. */
export function previewImport(shop: ShopHandle, input: ImportInput): Promise<ImportView> {
  return inBackground(() => preview(shop, input));
}

async function preview(shop: ShopHandle, input: ImportInput): Promise<ImportView> {
  demandMayCost(shop, input.map.costE4, "map.costE4");
  const file = await withChoices(shop, input, await readFile(shop, input));
  const { view } = await decide(shop.read, input, file);
  return view;
}

/** Brings a file in, all of it or nothing, once per key. The same file again changes nothing. */
export function runImport(shop: ShopHandle, input: ImportInput, key?: string): Promise<ImportView> {
  return inBackground(() => bringIn(shop, input, key));
}

async function bringIn(shop: ShopHandle, input: ImportInput, key: string | undefined): Promise<ImportView> {
  demandMayCost(shop, input.map.costE4, "map.costE4");
  // Read before the transaction: the shop's other writers do not wait for it.
  const file = await withChoices(shop, input, await readFile(shop, input));
  return shop.write(async (tx) => {
    return once(tx, shop, "brought a file in", { ...input, key }, async () => {
      const { view, decision } = await decide(tx, input, file);
      const first = view.problems[0];
      if (first)
        throw new Refusal(
          `${view.bad} of ${view.rows} rows cannot come in, so nothing did. Line ${first.line}: ${[first.column, first.value && `"${first.value}"`, first.wrong].filter(Boolean).join(" ")}.`,
          "Mend the rows that are listed in the file and choose it again.",
        );
      const entries = await decision.store(tx, shop);
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
      for (const some of chunks(entries))
        await tx.importEntry.createMany({ data: some.map((entry) => ({ runId: run.id, ...entry })) });
      await audit(tx, shop, "imported", input.noun, run.id, { fileName: input.fileName, ...counts });
      return view;
    });
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
  { noun, text, map, mark, distance, way }: ImportInput,
): Promise<FileRead> {
  const { currency } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { currency: true },
  });
  const terms = { currency, mark, distance };
  const { headings, count, ...sheet } = await inWorker(shop, "readSheet", { noun, text, map, terms, way });
  return {
    count,
    rows: await gathered(sheet.rows),
    problems: await gathered(sheet.problems),
    notes: await gathered(sheet.notes),
    column: (field) => headings[map[field] ?? -1] ?? "",
  };
}

interface FileChosen extends FileRead {
  readonly doubles: readonly (Double & { readonly choice: DoubleChoice })[];
  readonly skipped: number;
}

const DECIDE: { readonly [N in ImportNoun]: Decide<RowsByNoun[N]> } = {
  customers: decideCustomers,
  bikes: decideBikes,
  parts: decideParts,
  prices: decidePrices,
};

/** The file with what was decided about each row that is probably one with a record here. */
async function withChoices(shop: ShopHandle, input: ImportInput, file: FileRead): Promise<FileChosen> {
  const doubles = (await findDoubles(shop, input.noun, file.rows)).map((double) => ({
    ...double,
    choice: input.double[String(double.line)] ?? (input.doubles || (double.sure ? "update" : "both")),
  }));
  const byLine = new Map(doubles.map((double) => [double.line, double]));
  const rows = file.rows.flatMap((row) => {
    const double = byLine.get(row.line);
    if (double?.choice === "skip") return [];
    return double?.choice === "update" ? { ...row, target: double.target.id } : row;
  });
  return { ...file, rows, doubles, skipped: file.rows.length - rows.length };
}

async function decide(
  reader: Reader,
  { noun, cards, way }: ImportInput,
  file: FileChosen,
): Promise<{ view: ImportView; decision: Decision }> {
  // The file was read as this noun's rows.
  const decision = await (DECIDE[noun] as Decide<unknown>)(reader, file.rows, file.column, {
    cards: Object.values(cards),
    byWords: way !== "column",
  });
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
    skipped: file.skipped,
    doubles: file.doubles.slice(0, DOUBLES_LISTED),
    missing: (decision.missing ?? []).slice(0, CARDS_ASKED),
    unlisted: Math.max(0, problems.length - LISTED) + Math.max(0, notes.length - LISTED),
  };
  return { decision, view };
}
