import { inBackground, inTurns } from "@/lib/db/giveWay";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { PriceRow } from "@/lib/domain/imports/rowTypes";
import type { ReadRow, RowNote, RowProblem } from "@/lib/domain/imports/types";
import { Refusal } from "@/lib/domain/refusal";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { searchKey } from "@/lib/domain/searchKey";
import type { PriceListInput } from "@/lib/schemas/orders";
import { inWorker } from "@/lib/workers/pool";
import { gathered } from "@/lib/workers/slices";
import { auditChanges } from "../common/changes";
import { chunks } from "../common/chunks";
import { keepGoodUntil } from "./goodUntil";

export interface PriceChange {
  partId: number;
  code: string;
  name: string;
  theirCode: string;
  fromE4: number | null;
  toE4: number;
}

export interface PriceListView {
  supplier: string;
  rows: number;
  changes: PriceChange[];
  unchanged: number;
  /** Rows of parts this shop does not keep: a supplier's list holds many. */
  notOurs: number;
  problems: RowProblem[];
  notes: RowNote[];
}

type Reader = Pick<ShopTx, "supplier" | "part" | "partSupplier">;

/** What a supplier's list would change, and every row of it that is wrong. Writes nothing. */
export function previewPriceList(shop: ShopHandle, input: PriceListInput): Promise<PriceListView> {
  return inBackground(async () => (await read(shop.read, input, await readFile(shop, input))).view);
}

/** Takes the costs of a list over, all of them or none. The usual supplier's cost is also the part's list cost. */
export function takePriceList(shop: ShopHandle, input: PriceListInput, key?: string): Promise<PriceListView> {
  return inBackground(() => takeOver(shop, input, key));
}

async function takeOver(
  shop: ShopHandle,
  input: PriceListInput,
  key: string | undefined,
): Promise<PriceListView> {
  // Read before the transaction: the shop's other writers do not wait for it.
  const file = await readFile(shop, input);
  return shop.write((tx) =>
    once(tx, shop, "took a price list over", { ...input, key }, async () => {
      const { view, confirmed } = await read(tx, input, file);
      const first = view.problems[0];
      if (first)
        throw new Refusal(
          `${new Set(view.problems.map((problem) => problem.line)).size} of ${view.rows} rows cannot be read, so nothing was taken. Line ${first.line}: ${first.wrong}.`,
          "Mend the rows that are listed in the file and choose it again.",
        );
      await store(tx, shop, input.supplierId, view.changes);
      const { supplierId, goodUntil = null } = input;
      const changed = view.changes.map((change) => change.partId);
      await keepGoodUntil(tx, { supplierId, goodUntil }, changed, confirmed);
      await audit(tx, shop, "took a price list", "supplier", input.supplierId, {
        fileName: input.fileName,
        rows: view.rows,
        changed: view.changes.length,
        ...(input.goodUntil ? { goodUntil: input.goodUntil } : {}),
      });
      return view;
    }),
  );
}

interface ListRead {
  readonly headings: readonly string[];
  readonly count: number;
  readonly rows: readonly ReadRow<PriceRow>[];
  readonly problems: readonly RowProblem[];
  readonly notes: readonly RowNote[];
}

/** The list's rows, read in a worker thread. */
async function readFile(shop: ShopHandle, { text, map, mark }: PriceListInput): Promise<ListRead> {
  if (typeof map.costE4 !== "number")
    throw new Refusal("No column is chosen for the cost.", "Choose the column it stands in.", {
      "map.costE4": "Choose a column.",
    });
  const { currency } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { currency: true },
  });
  const { headings, count, ...sheet } = await inWorker(shop, "readSheet", {
    noun: "prices",
    text,
    map: { code: map.code, costE4: map.costE4 },
    terms: { currency, mark, distance: "km" },
  });
  return {
    headings,
    count,
    rows: (await gathered(sheet.rows)) as readonly ReadRow<PriceRow>[],
    problems: await gathered(sheet.problems),
    notes: await gathered(sheet.notes),
  };
}

/** What the list comes to, and the parts whose cost it confirms. */
async function read(
  reader: Reader,
  input: PriceListInput,
  file: ListRead,
): Promise<{ view: PriceListView; confirmed: number[] }> {
  const supplier = await reader.supplier.findUnique({
    where: { id: input.supplierId },
    select: { name: true },
  });
  if (!supplier) throw new Refusal("There is no such supplier.", "Choose one from the list.", {}, "missing");
  const ours = await partsOf(reader, input.supplierId, supplier.name);
  const changes: PriceChange[] = [];
  const missing: RowProblem[] = [];
  const seen = new Map<number, number>();
  const confirmed: number[] = [];
  let notOurs = 0;
  for await (const { key, line, values } of inTurns(file.rows)) {
    const part = ours.get(searchKey(key));
    if (values.costE4 === undefined)
      missing.push({
        line,
        column: file.headings[input.map.costE4 ?? -1] ?? "",
        value: "",
        wrong: `has no cost for ${key}`,
        remedy: "Fill the cost in, or take the row out.",
      });
    else if (!part) notOurs++;
    else if (seen.has(part.partId))
      missing.push({
        line,
        column: file.headings[input.map.code ?? 0] ?? "",
        value: key,
        wrong: `is ${part.code} once more, as line ${seen.get(part.partId)} is`,
        remedy: "Leave one of the two rows.",
      });
    else {
      seen.set(part.partId, line);
      if (part.costE4 === values.costE4) confirmed.push(part.partId);
      else
        changes.push({
          partId: part.partId,
          code: part.code,
          name: part.name,
          theirCode: key,
          fromE4: part.costE4,
          toE4: values.costE4,
        });
    }
  }
  const problems = [...file.problems, ...missing].sort((a, b) => a.line - b.line);
  const notes = [...file.notes];
  const [rows, unchanged] = [file.count, confirmed.length];
  return { view: { supplier: supplier.name, rows, changes, unchanged, notOurs, problems, notes }, confirmed };
}

interface Ours {
  partId: number;
  code: string;
  name: string;
  costE4: number | null;
}

/** The parts this supplier sells, by its code and, where no code of its own says so, by ours. */
async function partsOf(reader: Reader, supplierId: number, name: string): Promise<Map<string, Ours>> {
  const [offers, named] = await Promise.all([
    reader.partSupplier.findMany({
      where: { supplierId },
      select: {
        partId: true,
        codeKey: true,
        costE4: true,
        part: { select: { code: true, name: true, costE4: true } },
      },
      orderBy: { id: "asc" },
    }),
    reader.part.findMany({
      where: { supplier: name },
      select: { id: true, code: true, name: true, supplierCode: true, costE4: true },
      orderBy: { id: "asc" },
    }),
  ]);
  const found = new Map<string, Ours>();
  for (const row of named) {
    const part = { partId: row.id, code: row.code, name: row.name, costE4: row.costE4 };
    found.set(searchKey(row.code), part);
    if (row.supplierCode) found.set(searchKey(row.supplierCode), part);
  }
  for (const row of offers) {
    const part = {
      partId: row.partId,
      code: row.part.code,
      name: row.part.name,
      costE4: row.costE4 ?? row.part.costE4,
    };
    if (!found.has(searchKey(part.code))) found.set(searchKey(part.code), part);
    else if (found.get(searchKey(part.code))?.partId === part.partId) found.set(searchKey(part.code), part);
    if (row.codeKey) found.set(row.codeKey, part);
  }
  return found;
}

async function store(
  tx: ShopTx,
  shop: ShopHandle,
  supplierId: number,
  changes: readonly PriceChange[],
): Promise<void> {
  const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const pricedOn = dayOf(shop.now.getTime(), zone);
  for (const some of chunks(changes)) {
    const ids = some.map((change) => change.partId);
    const parts = await tx.part.findMany({
      where: { id: { in: ids } },
      select: {
        id: true,
        version: true,
        supplierCode: true,
        leadDays: true,
        suppliers: { where: { usual: true }, select: { supplierId: true }, orderBy: { id: "asc" }, take: 1 },
      },
      orderBy: { id: "asc" },
    });
    const told = [];
    for (const change of some) {
      const part = parts.find((row) => row.id === change.partId);
      if (!part) continue;
      const usual = (part.suppliers[0]?.supplierId ?? supplierId) === supplierId;
      const offer = {
        code: change.theirCode,
        codeKey: searchKey(change.theirCode),
        costE4: change.toE4,
        pricedOn,
      };
      await tx.partSupplier.upsert({
        where: { partId_supplierId: { partId: part.id, supplierId } },
        create: { partId: part.id, supplierId, ...offer, leadDays: part.leadDays, usual },
        // A row found by our own code leaves the supplier's as it is.
        update: { costE4: change.toE4, pricedOn, version: { increment: 1 } },
        select: { id: true },
      });
      if (!usual) continue;
      await tx.part.updateMany({
        where: { id: part.id },
        data: { costE4: change.toE4, version: { increment: 1 } },
      });
      told.push({
        id: part.id,
        version: part.version,
        from: { costE4: change.fromE4 },
        to: { costE4: change.toE4 },
      });
    }
    await auditChanges(tx, shop, "part", told);
  }
}
