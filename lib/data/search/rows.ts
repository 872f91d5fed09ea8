import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { SearchTable } from "@/lib/db/search";
import type { ShopReader } from "@/lib/db/shop";
import { KIND_NAMES } from "@/lib/schemas/invoices";
import { bikeName } from "../bikes/bikeName";

export type HitNoun = "customers" | "bikes" | "quotes" | "jobs" | "parts" | "invoices";

/** A row as a search shows it; a document also by its number. */
export interface HitRow {
  readonly id: number;
  readonly label: string;
  readonly sub: string;
  readonly number?: number | null;
}

/** One noun of a search: its table, whether its own order is by name or code instead of newest first, and its rows. */
export interface HitSource {
  readonly noun: HitNoun;
  readonly table: SearchTable;
  readonly byName: boolean;
  load(read: ShopReader, where: Narrowed, take: number): Promise<HitRow[]>;
}

/** Rows named by id, or by the words they hold. */
export type Narrowed = { id: { in: number[] } } | { AND: object[] };

const newest = { orderBy: { id: "desc" } } as const;
const DOCUMENT = {
  select: { id: true, number: true, sequence: true, title: true, customer: { select: { name: true } } },
  ...newest,
} as const;

type Document = Prisma.QuoteGetPayload<{ select: (typeof DOCUMENT)["select"] }>;

const document =
  (word: string) =>
  (row: Document): HitRow => ({
    id: row.id,
    number: row.sequence,
    label: `${word} ${row.number}`,
    sub: `${row.title} · ${row.customer.name}`,
  });

const some = (...parts: readonly string[]) => parts.filter(Boolean).join(" · ");

const PART = { id: true, code: true, name: true, bin: true } as const;

const partHit = ({ id, code, name }: { id: number; code: string; name: string }, more: string): HitRow => ({
  id,
  label: code,
  sub: some(name, more),
});

/** What a search looks through, in the order it is shown in. */
export const SOURCES: readonly HitSource[] = [
  {
    noun: "customers",
    table: "Customer",
    byName: true,
    async load(read, where, take) {
      const rows = await read.customer.findMany({
        where,
        select: { id: true, name: true, phone: true, email: true },
        orderBy: [{ name: "asc" }, { id: "asc" }],
        take,
      });
      return rows.map((row) => ({ id: row.id, label: row.name, sub: row.phone || row.email }));
    },
  },
  {
    noun: "bikes",
    table: "Bike",
    byName: false,
    async load(read, where, take) {
      const rows = await read.bike.findMany({
        where,
        select: {
          id: true,
          plate: true,
          year: true,
          modelCard: { select: { make: true, model: true } },
          customer: { select: { name: true } },
        },
        ...newest,
        take,
      });
      return rows.map(({ id, modelCard, year, plate, customer }) => ({
        id,
        label: bikeName({ modelCard, year }),
        sub: some(plate, customer.name),
      }));
    },
  },
  {
    noun: "quotes",
    table: "Quote",
    byName: false,
    load: async (read, where, take) =>
      (await read.quote.findMany({ where, ...DOCUMENT, take })).map(document("Quote")),
  },
  {
    noun: "jobs",
    table: "Job",
    byName: false,
    load: async (read, where, take) =>
      (await read.job.findMany({ where, ...DOCUMENT, take })).map(document("Job")),
  },
  {
    noun: "parts",
    table: "Part",
    byName: true,
    async load(read, where, take) {
      const rows = await read.part.findMany({
        where,
        select: { ...PART, replacedBy: { select: PART } },
        orderBy: { code: "asc" },
        take,
      });
      return rows.flatMap(({ replacedBy, ...row }) => [
        partHit(row, replacedBy ? `made no more: ${replacedBy.code}` : row.bin),
        // What took its place is found with it, where the words do not find it anyhow.
        ...(replacedBy && !rows.some(({ id }) => id === replacedBy.id)
          ? [partHit(replacedBy, `in place of ${row.code}`)]
          : []),
      ]);
    },
  },
  {
    noun: "invoices",
    table: "Invoice",
    byName: false,
    async load(read, where, take) {
      const rows = await read.invoice.findMany({
        where,
        select: {
          id: true,
          kind: true,
          number: true,
          written: true,
          customer: { select: { name: true } },
          job: { select: { number: true } },
        },
        ...newest,
        take,
      });
      return rows.map((row) => ({
        id: row.id,
        number: row.number,
        label: `${KIND_NAMES[row.kind]} ${row.written || "draft"}`,
        sub: some(row.job ? `Job ${row.job.number}` : "Over the counter", row.customer?.name ?? ""),
      }));
    },
  },
];
