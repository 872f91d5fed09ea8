import type { ShopHandle } from "@/lib/db/shop";
import { searchKey } from "@/lib/domain/searchKey";
import { found } from "./customers";

export type HitNoun = "customers" | "bikes" | "quotes" | "jobs" | "parts" | "invoices";

export interface Hit {
  readonly noun: HitNoun;
  readonly id: number;
  readonly label: string;
  readonly sub: string;
  readonly href: string;
}

export interface Hits {
  readonly noun: HitNoun;
  readonly hits: readonly Hit[];
  /** There are more than are shown. */
  readonly more: boolean;
}

const MOST = 8;
const take = MOST + 1;
const newest = { orderBy: { id: "desc" }, take } as const;

/** What is typed as a document's number: "1042", "Q1042", "#1042". Beyond 32 bits there is no such number. */
function numberIn(text: string): number | null {
  const digits = /^\s*(?:[a-z]{1,2}|#)?\s*(\d{1,9})\s*$/i.exec(text)?.[1];
  return digits ? Number(digits) : null;
}

/**
 * Everything of this shop that holds every word typed, or bears the number typed: up to eight of each noun, the number
 * itself first. Groups without a hit are left out; without `invoices` none are looked for.
 */
export async function searchAll(
  shop: ShopHandle,
  text: string,
  may: { invoices: boolean } = { invoices: true },
): Promise<Hits[]> {
  if (searchKey(text) === "") return [];
  const words = found(text);
  const number = numberIn(text);
  const numbered = { OR: [{ AND: words }, ...(number === null ? [] : [{ number }])] };
  const at = (noun: HitNoun, id: number) => `/s/${shop.slug}/${noun === "parts" ? "stock" : noun}/${id}`;
  const group = <T extends { id: number }>(
    noun: HitNoun,
    rows: readonly T[],
    show: (row: T) => { label: string; sub: string; first?: boolean },
  ): Hits => ({
    noun,
    more: rows.length > MOST,
    hits: rows
      .map((row) => ({ noun, id: row.id, href: at(noun, row.id), ...show(row) }))
      .sort((a, b) => Number(b.first ?? false) - Number(a.first ?? false))
      .slice(0, MOST)
      .map(({ first: _, ...hit }) => hit),
  });
  const customers = shop.read.customer.findMany({
    where: { AND: words },
    select: { id: true, name: true, phone: true, email: true },
    orderBy: [{ name: "asc" }, { id: "asc" }],
    take,
  });
  const bikes = shop.read.bike.findMany({
    where: { AND: words },
    select: {
      id: true,
      plate: true,
      year: true,
      modelCard: { select: { make: true, model: true } },
      customer: { select: { name: true } },
    },
    ...newest,
  });
  const quotes = shop.read.quote.findMany({
    where: numbered,
    select: { id: true, number: true, title: true, customer: { select: { name: true } } },
    ...newest,
  });
  const jobs = shop.read.job.findMany({
    where: numbered,
    select: { id: true, number: true, title: true, customer: { select: { name: true } } },
    ...newest,
  });
  const parts = shop.read.part.findMany({
    where: { AND: words },
    select: { id: true, code: true, name: true, bin: true },
    orderBy: [{ code: "asc" }],
    take,
  });
  const invoices = may.invoices
    ? shop.read.invoice.findMany({
        where: numbered,
        select: {
          id: true,
          kind: true,
          number: true,
          customer: { select: { name: true } },
          job: { select: { number: true } },
        },
        ...newest,
      })
    : Promise.resolve([]);
  const bikeName = (card: { make: string; model: string }, year: number | null) =>
    `${card.make} ${card.model}${year ? `, ${year}` : ""}`;
  const groups = [
    group("customers", await customers, (row) => ({ label: row.name, sub: row.phone || row.email })),
    group("bikes", await bikes, (row) => ({
      label: bikeName(row.modelCard, row.year),
      sub: [row.plate, row.customer.name].filter(Boolean).join(" · "),
    })),
    group("quotes", await quotes, (row) => ({
      label: `Quote ${row.number}`,
      sub: `${row.title} · ${row.customer.name}`,
      first: row.number === number,
    })),
    group("jobs", await jobs, (row) => ({
      label: `Job ${row.number}`,
      sub: `${row.title} · ${row.customer.name}`,
      first: row.number === number,
    })),
    group("parts", await parts, (row) => ({
      label: row.code,
      sub: [row.name, row.bin].filter(Boolean).join(" · "),
    })),
    group("invoices", await invoices, (row) => ({
      label: `${row.kind === "creditNote" ? "Credit note" : "Invoice"} ${row.number ?? "draft"}`,
      sub: `Job ${row.job.number} · ${row.customer.name}`,
      first: row.number !== null && row.number === number,
    })),
  ];
  return groups.filter((each) => each.hits.length > 0);
}
