import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { inTurns } from "@/lib/db/giveWay";
import type { ImportPartRow, PriceRow } from "@/lib/domain/imports/rowTypes";
import type { ReadRow, RowNote, RowProblem } from "@/lib/domain/imports/types";
import { searchKey } from "@/lib/domain/searchKey";
import { auditChanges, type Change } from "../common/changes";
import { chunks, fetched } from "../common/chunks";
import { gatherIn } from "../stock/betweenBins";
import { recordMoveIn } from "../stock/moves";
import { type Decide, differing, filledOf, type Reader } from "./types";

interface KeyOf {
  code: string;
  name: string;
  kind: string;
  family: string;
  supplier: string;
  supplierCode: string;
  bin: string;
}

const keyOf = (part: KeyOf): string =>
  searchKey(part.code, part.name, part.kind, part.family, part.supplier, part.supplierCode, part.bin);

async function partsByCode(reader: Reader, rows: readonly { key: string }[]) {
  const stored = await fetched(
    rows.map((row) => row.key),
    (codes) => reader.part.findMany({ where: { code: { in: codes } }, orderBy: { id: "asc" } }),
  );
  return new Map(stored.map((part) => [part.code, part]));
}

type StoredPart = Awaited<ReturnType<typeof partsByCode>> extends Map<string, infer Part> ? Part : never;

/** Of these parts, those that have at least one move. */
async function withMoves(reader: Reader, ids: readonly number[]): Promise<Set<number>> {
  const rows = await fetched(ids, (some) =>
    reader.move.findMany({
      where: { partId: { in: some } },
      select: { partId: true },
      distinct: ["partId"],
      orderBy: { partId: "asc" },
    }),
  );
  return new Set(rows.map((row) => row.partId));
}

const WHY = "Opening stock, from an imported file";

/** Parts by code. Opening stock is booked once, for parts that have no moves yet. */
export const decideParts: Decide<ImportPartRow> = async (reader, rows, column) => {
  const byCode = await partsByCode(reader, rows);
  const moved = await withMoves(
    reader,
    [...byCode.values()].map((part) => part.id),
  );
  const problems: RowProblem[] = [];
  const notes: RowNote[] = [];
  const adds: ReadRow<ImportPartRow>[] = [];
  const changes: (Change & { searchKey: string })[] = [];
  const openings: { partId: number; quantityMilli: number; unitCostE4: number | null }[] = [];
  // What lay in no bin is in the first one it gets.
  const named: { part: StoredPart; bin: string }[] = [];
  let changed = 0;
  for await (const row of inTurns(rows)) {
    const { openingMilli, ...own } = row.values;
    const before = byCode.get(row.key);
    if (!before) {
      adds.push(row);
      continue;
    }
    if (own.unit && own.unit !== before.unit && moved.has(before.id)) {
      problems.push({
        line: row.line,
        column: column("unit"),
        value: own.unit,
        wrong: `differs from ${before.unit}, which its stock is counted in`,
        remedy: `Give it in ${before.unit}, or under another code.`,
      });
      continue;
    }
    const to = differing(before, own);
    const opens = Boolean(openingMilli) && !moved.has(before.id);
    if (openingMilli && !opens)
      notes.push({
        line: row.line,
        text: `${row.key} has moves already: its opening stock is not booked again. Count the bin to correct it.`,
      });
    if (opens)
      openings.push({
        partId: before.id,
        quantityMilli: openingMilli ?? 0,
        unitCostE4: own.costE4 ?? before.costE4,
      });
    if (typeof to.bin === "string" && to.bin !== "" && before.onHandMilli > 0) {
      if (before.bin === "") named.push({ part: before, bin: to.bin });
      else
        notes.push({
          line: row.line,
          text: `${row.key}: its usual bin is ${to.bin} from now on; what lies in ${before.bin} stays there until you move it.`,
        });
    }
    const from = Object.fromEntries(Object.keys(to).map((key) => [key, before[key as "name"]]));
    if (Object.keys(to).length > 0)
      changes.push({
        id: before.id,
        version: before.version,
        from,
        to,
        searchKey: keyOf({ ...before, ...to }),
      });
    if (opens || Object.keys(to).length > 0) changed++;
  }
  return {
    added: adds.length,
    changed,
    unchanged: rows.length - adds.length - changed - problems.length,
    problems,
    notes,
    async store(tx, shop) {
      for (const some of chunks(adds)) {
        const data = some.map(({ key, values }): Prisma.PartCreateManyInput => {
          const { openingMilli, ...own } = values;
          const fields = {
            name: "",
            kind: "other" as const,
            family: "",
            supplier: "",
            supplierCode: "",
            bin: "",
            ...filledOf(own),
          };
          const opening = openingMilli ?? 0;
          // The projections of the opening move below: a new part has nothing else in its ledger.
          const stock = { onHandMilli: opening, averageE4: opening > 0 ? (own.costE4 ?? null) : null };
          return {
            ...fields,
            ...stock,
            code: key,
            searchKey: keyOf({ ...fields, code: key }),
            createdAt: shop.now,
          };
        });
        await tx.part.createMany({ data });
        const opened = new Map(
          some.filter((row) => row.values.openingMilli).map((row) => [row.key, row.values]),
        );
        const parts = await tx.part.findMany({
          where: { code: { in: [...opened.keys()] } },
          select: { id: true, code: true, bin: true },
          orderBy: { id: "asc" },
        });
        await tx.partBin.createMany({
          data: parts.map((part) => ({
            partId: part.id,
            bin: part.bin,
            onHandMilli: opened.get(part.code)?.openingMilli ?? 0,
          })),
        });
        await tx.move.createMany({
          data: parts.map((part) => ({
            partId: part.id,
            kind: "opening",
            bin: part.bin,
            quantityMilli: opened.get(part.code)?.openingMilli ?? 0,
            unitCostE4: opened.get(part.code)?.costE4 ?? null,
            at: shop.now,
            staffId: shop.by.staffId,
            why: WHY,
          })),
        });
      }
      for (const { id, to, searchKey: key } of changes)
        await tx.part.updateMany({
          where: { id },
          data: { ...to, searchKey: key, version: { increment: 1 } },
        });
      for (const { part, bin } of named) await gatherIn(tx, shop, { ...part, bin }, bin, "");
      for (const opening of openings) await recordMoveIn(tx, shop, { ...opening, kind: "opening", why: WHY });
      await auditChanges(tx, shop, "part", changes);
    },
  };
};

/** Costs and prices of parts the shop has; a code it does not have is refused. */
export const decidePrices: Decide<PriceRow> = async (reader, rows, column) => {
  const byCode = await partsByCode(reader, rows);
  const problems: RowProblem[] = rows
    .filter((row) => !byCode.has(row.key))
    .map((row) => ({
      line: row.line,
      column: column("code"),
      value: row.key,
      wrong: "is no part of this shop",
      remedy: "Bring it in as a part, or take the row out.",
    }));
  const known = rows.filter((row) => byCode.has(row.key));
  const decision = await decideParts(reader, known, column);
  return { ...decision, problems: [...problems, ...decision.problems] };
};
