import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { inTurns } from "@/lib/db/giveWay";
import type { ImportPartRow, PriceRow } from "@/lib/domain/imports/rowTypes";
import type { ReadRow, RowNote, RowProblem } from "@/lib/domain/imports/types";
import { searchKey } from "@/lib/domain/searchKey";
import { auditChanges } from "../common/changes";
import { chunks, fetched } from "../common/chunks";
import { gatherIn } from "../stock/betweenBins";
import { recordMoveIn } from "../stock/moves";
import { knownRecords, otherKeys } from "./known";
import { learnKeysIn } from "./learn";
import { takenBack } from "./takenBack";
import { type Decide, differing, type Entry, filledOf, type Reader } from "./types";
import { Updates } from "./updates";

interface KeyOf {
  code: string;
  name: string;
  kind: string;
  family: string;
  supplier: string;
  supplierCode: string;
  bin: string;
}

/** The text a part is found by. */
export const partKey = (part: KeyOf): string =>
  searchKey(part.code, part.name, part.kind, part.family, part.supplier, part.supplierCode, part.bin);

const findParts = (reader: Reader) => ({
  byKeys: (codes: string[]) =>
    reader.part.findMany({ where: { code: { in: codes } }, orderBy: { id: "asc" } }),
  byIds: (ids: number[]) => reader.part.findMany({ where: { id: { in: ids } }, orderBy: { id: "asc" } }),
  keyOf: (part: { code: string }) => part.code,
});

type StoredPart = Prisma.PartGetPayload<object>;

/** The part of each row; a part that was merged leads to the one that is kept. */
async function partsOf(reader: Reader, rows: readonly ReadRow<unknown>[]) {
  const merged = await otherKeys(
    reader,
    "part",
    rows.map((row) => row.key),
  );
  const inUse = new Set(
    (
      await fetched([...merged.keys()], (some) =>
        reader.part.findMany({
          where: { code: { in: some }, active: true },
          select: { code: true },
          orderBy: { id: "asc" },
        }),
      )
    ).map((part) => part.code),
  );
  const led = rows.map((row) => {
    const target = merged.get(row.key);
    // A part that is put away as a double still has its code.
    return target === undefined || inUse.has(row.key) ? row : { ...row, key: `merged | ${row.key}`, target };
  });
  const known = await knownRecords<StoredPart>(reader, "part", led, findParts(reader));
  const byLine = new Map(led.map((row) => [row.line, known.of(row)]));
  return {
    of: (row: ReadRow<unknown>) => byLine.get(row.line),
    learned: known.learned.filter((entry) => !String(entry.was?.key).startsWith("merged | ")),
  };
}

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
  const parts = await partsOf(reader, rows);
  const ids = [...new Set(rows.flatMap((row) => parts.of(row)?.id ?? []))];
  const undone = await takenBack(reader, ids);
  const moved = await withMoves(
    reader,
    ids.filter((id) => !undone.has(id)),
  );
  const problems: RowProblem[] = [];
  const notes: RowNote[] = [];
  const adds: ReadRow<ImportPartRow>[] = [];
  const updates = new Updates<StoredPart>(false);
  const openings: {
    part: StoredPart;
    partId: number;
    quantityMilli: number;
    unitCostE4: number | null;
  }[] = [];
  // What lay in no bin is in the first one it gets.
  const named: { part: StoredPart; bin: string }[] = [];
  let changed = 0;
  for await (const row of inTurns(rows)) {
    const { openingMilli, ...own } = row.values;
    const before = parts.of(row);
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
    const again = undone.has(before.id) && openingMilli ? { active: true } : {};
    const to = differing(before, { ...own, ...again });
    const opens = Boolean(openingMilli) && !moved.has(before.id);
    if (opens) moved.add(before.id);
    if (openingMilli && !opens)
      notes.push({
        line: row.line,
        text: `${row.key} has moves already: its opening stock is not booked again. Count the bin to correct it.`,
      });
    if (opens)
      openings.push({
        part: before,
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
    if (updates.take(before, { ...own, ...again }) || opens) changed++;
  }
  const changes = updates.changes(partKey);
  return {
    added: adds.length,
    changed,
    unchanged: rows.length - adds.length - changed - problems.length,
    problems,
    notes,
    async store(tx, shop) {
      const entries: Entry[] = [];
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
            searchKey: partKey({ ...fields, code: key }),
            createdAt: shop.now,
          };
        });
        const made = await tx.part.createManyAndReturn({ data, select: { id: true, onHandMilli: true } });
        entries.push(
          ...made.map(
            ({ id, onHandMilli }): Entry => ({
              noun: "part",
              nounId: id,
              act: "added",
              version: 1,
              openedMilli: onHandMilli,
            }),
          ),
        );
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
      for (const { partId, quantityMilli, unitCostE4 } of openings)
        await recordMoveIn(tx, shop, { partId, quantityMilli, unitCostE4, kind: "opening", why: WHY });
      await auditChanges(tx, shop, "part", changes);
      await learnKeysIn(tx, parts.learned);
      const opened = new Map(openings.map((one) => [one.partId, one.quantityMilli]));
      const told = new Set(changes.map((change) => change.id));
      for (const entry of updates.entries("part", changes))
        entries.push({ ...entry, openedMilli: opened.get(entry.nounId) ?? 0 });
      for (const { part, quantityMilli } of openings)
        if (!told.has(part.id))
          entries.push({
            noun: "part",
            nounId: part.id,
            act: "changed",
            version: part.version,
            was: {},
            openedMilli: quantityMilli,
          });
      return [...entries, ...parts.learned];
    },
  };
};

/** Costs and prices of parts the shop has; a code it does not have is refused. */
export const decidePrices: Decide<PriceRow> = async (reader, rows, column, asked) => {
  const parts = await partsOf(reader, rows);
  const problems: RowProblem[] = rows
    .filter((row) => !parts.of(row))
    .map((row) => ({
      line: row.line,
      column: column("code"),
      value: row.key,
      wrong: "is no part of this shop",
      remedy: "Bring it in as a part, or take the row out.",
    }));
  const known = rows.filter((row) => parts.of(row));
  const decision = await decideParts(reader, known, column, asked);
  return { ...decision, problems: [...problems, ...decision.problems] };
};
