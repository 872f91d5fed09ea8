import type { ShopReader } from "@/lib/db/shop";
import type { Days } from "@/lib/domain/taxReport/periods";
import { chunks, fetched } from "../common/chunks";
import { invoicesByMoney, type MoneyEntries, type ShownEntry, salesByMoney } from "./byMoney";
import { depositEntries } from "./deposits";
import { type Touched, touchedIn } from "./touched";

/** What a summary counts by: the documents issued, or the money that moved. */
export type Basis = "issued" | "paid";

/** The parts of a report: what is reported, deposits before their invoice, and what was written off. */
export type Part = "main" | "deposits" | "off";

/** What is asked for: a stretch of days on a basis, and whether tax in deposits falls due as they come. */
export interface TaxQuery extends Days {
  readonly basis: Basis;
  readonly depositsReceived: boolean;
}

/** So many documents are read and written out between other requests. */
const PAGE = 200;

/** Every entry of a part in a stretch of days, each with what it stands on, read in pieces. */
export async function* taxEntries(
  read: ShopReader,
  query: TaxQuery,
  part: Part,
  touched = touchedOnce(read, query),
): AsyncGenerator<ShownEntry> {
  if (part === "main" && query.basis === "issued") return yield* issuedEntries(read, query);
  if (part === "deposits" && !query.depositsReceived) return;
  if (part === "off" && query.basis === "paid") return;
  const inside = ({ on }: ShownEntry) => on >= query.from && on <= query.to;
  const all = part === "main" ? touchedIn(read, query, true) : touched();
  for await (const some of partOf(read, await all, part)) yield* some.filter(inside);
}

/** What something happened to besides sales, read once, when it is first asked for. */
export function touchedOnce(read: ShopReader, days: Days): () => Promise<Touched> {
  let touched: Promise<Touched> | undefined;
  return () => (touched ??= touchedIn(read, days, false));
}

/** Every entry of every part, each with the part that it is of. */
export async function* reportEntries(read: ShopReader, query: TaxQuery) {
  for (const part of ["main", "deposits", "off"] as const)
    for await (const entry of taxEntries(read, query, part)) yield { part, ...entry };
}

/** What counts by money in some days, of some invoices and sales. */
export async function* paidEntries(
  read: ShopReader,
  { from, to }: Days,
  invoices: readonly number[],
  sales: readonly number[],
): AsyncGenerator<ShownEntry> {
  const inside = ({ on }: ShownEntry) => on >= from && on <= to;
  for await (const { paid } of invoicesByMoney(read, invoices)) yield* paid.filter(inside);
  for await (const { paid } of salesByMoney(read, sales)) yield* paid.filter(inside);
}

async function* partOf(
  read: ShopReader,
  touched: Touched,
  part: Part,
): AsyncGenerator<readonly ShownEntry[]> {
  if (part === "deposits") return yield* depositEntries(read, await withDeposits(read, [...touched.jobs]));
  const side = (entries: MoneyEntries) => (part === "off" ? entries.off : entries.paid);
  const invoices = [...touched.invoices];
  const asked = part === "off" ? await writtenOff(read, invoices) : invoices;
  for await (const entries of invoicesByMoney(read, asked)) yield side(entries);
  if (part === "main")
    for await (const entries of salesByMoney(read, [...touched.sales])) yield side(entries);
}

/** Those of some jobs that ever held money without an invoice: other jobs' money is their invoices'. */
async function withDeposits(read: ShopReader, ids: readonly number[]): Promise<number[]> {
  const takenBack = { takenBack: true } as const;
  const rows = await fetched(ids, (some) =>
    read.job.findMany({
      where: {
        id: { in: some },
        OR: [
          { payments: { some: { invoiceId: null } } },
          { invoices: { some: takenBack } },
          { alsoOn: { some: { invoice: takenBack } } },
        ],
      },
      select: { id: true },
      orderBy: { id: "asc" },
    }),
  );
  return rows.map((row) => row.id);
}

/** Those of some invoices of which something was ever written off. */
async function writtenOff(read: ShopReader, ids: readonly number[]): Promise<number[]> {
  const found = new Set<number>();
  for (const some of chunks(ids)) {
    const rows = await read.payment.findMany({
      where: { invoiceId: { in: some }, kind: "writeOff" },
      select: { invoiceId: true },
      orderBy: { id: "asc" },
    });
    for (const { invoiceId } of rows) if (invoiceId !== null) found.add(invoiceId);
  }
  return [...found];
}

/** What documents charge, in the order of their days. */
async function* issuedEntries(read: ShopReader, { from, to }: Days): AsyncGenerator<ShownEntry> {
  for (let after: number | undefined; ; ) {
    const rows = await read.invoiceTax.findMany({
      where: { issuedOn: { gte: from, lte: to } },
      select: {
        id: true,
        category: true,
        rateBp: true,
        netMinor: true,
        taxMinor: true,
        issuedOn: true,
        invoice: { select: { id: true, kind: true, written: true, customer: { select: { name: true } } } },
      },
      orderBy: [{ issuedOn: "asc" }, { category: "asc" }, { rateBp: "asc" }, { id: "asc" }],
      take: PAGE,
      ...(after === undefined ? {} : { cursor: { id: after }, skip: 1 }),
    });
    for (const { id: _, issuedOn, invoice, ...amounts } of rows) {
      const { customer, ...document } = invoice;
      yield {
        ...amounts,
        on: issuedOn,
        ref: `d${document.id}`,
        source: "document",
        document,
        job: null,
        customer: customer?.name ?? "",
        moved: "",
      };
    }
    after = rows.at(-1)?.id;
    if (rows.length < PAGE) return;
  }
}
