import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { readRows } from "@/lib/domain/imports/rows";
import type { ReadFile, RowNote, RowProblem } from "@/lib/domain/imports/types";
import { marksOf } from "@/lib/domain/money/format";
import { Refusal } from "@/lib/domain/refusal";
import { parseCsv } from "@/lib/schemas/csv";
import type { ImportInput } from "@/lib/schemas/imports";
import { demandMayCost } from "../stock/mayCost";
import { decideBikes } from "./bikes";
import { decideCustomers } from "./customers";
import { decideParts, decidePrices } from "./parts";
import type { Decision, Reader } from "./types";

export interface ImportView {
  readonly rows: number;
  readonly added: number;
  readonly changed: number;
  readonly unchanged: number;
  readonly problems: readonly RowProblem[];
  readonly notes: readonly RowNote[];
}

/** What bringing a file in would do: every row that is wrong, and how many would be new, changed or the same. Writes nothing. */
export async function previewImport(shop: ShopHandle, input: ImportInput): Promise<ImportView> {
  demandMayCost(shop, input.map.costE4, "map.costE4");
  const { view } = await decide(shop.read, input);
  return view;
}

/** Brings a file in, all of it or nothing, once per key. The same file again changes nothing. */
export async function runImport(shop: ShopHandle, input: ImportInput, key?: string): Promise<ImportView> {
  demandMayCost(shop, input.map.costE4, "map.costE4");
  return shop.write(async (tx) => {
    return once(tx, shop, "brought a file in", { ...input, key }, async () => {
      const { view, decision } = await decide(tx, input);
      const bad = new Set(view.problems.map((problem) => problem.line)).size;
      const first = view.problems[0];
      if (first)
        throw new Refusal(
          `${bad} of ${view.rows} rows cannot come in, so nothing did. Line ${first.line}: ${[first.column, first.value && `"${first.value}"`, first.wrong].filter(Boolean).join(" ")}.`,
          "Mend the rows that are listed in the file and choose it again.",
        );
      await decision.store(tx, shop);
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

async function decide(
  reader: Reader & Pick<ShopHandle["read"], "settings">,
  input: ImportInput,
): Promise<{ view: ImportView; decision: Decision }> {
  const { headings, rows, problems } = parseCsv(input.text);
  const settings = await reader.settings.findUniqueOrThrow({ where: { id: 1 }, select: { currency: true } });
  const terms = { currency: settings.currency, mark: input.mark, distance: input.distance };
  const outside = Object.values(input.map).find((column) => column !== null && column >= headings.length);
  if (outside !== undefined)
    throw new Refusal("A column was chosen that this file does not have.", "Choose the columns again.");
  const column = (field: string) => headings[input.map[field] ?? -1] ?? "";
  const read = <T>(file: ReadFile<T>, run: (file: ReadFile<T>) => Promise<Decision>) =>
    run(file).then((decision) => ({ file, decision }));
  const take = (noun: ImportInput["noun"]) => {
    const from = <N extends ImportInput["noun"]>(n: N) => readRows(n, headings, rows, input.map, terms);
    if (noun === "customers") return read(from(noun), (file) => decideCustomers(reader, file.rows, column));
    if (noun === "bikes") return read(from(noun), (file) => decideBikes(reader, file.rows, column));
    if (noun === "parts") return read(from(noun), (file) => decideParts(reader, file.rows, column));
    return read(from(noun), (file) => decidePrices(reader, file.rows, column));
  };
  const { file, decision } = await take(input.noun);
  const all = [...problems, ...file.problems, ...decision.problems].sort((a, b) => a.line - b.line);
  const notes = [...file.notes, ...decision.notes].sort((a, b) => a.line - b.line);
  const { added, changed, unchanged } = decision;
  return { decision, view: { rows: rows.length, added, changed, unchanged, problems: all, notes } };
}
