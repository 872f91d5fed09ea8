import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import { writtenOff } from "@/lib/domain/invoices/held";
import { daysLate, outstanding, standing } from "@/lib/domain/invoices/state";
import { dayIn } from "@/lib/domain/schedule/days";
import type { InvoiceFilter, InvoiceQueryInput } from "@/lib/schemas/invoices";
import { rowsMatching } from "../common/narrow";
import { WRITTEN_OFF } from "./writtenOff";

const LINE = {
  id: true,
  kind: true,
  number: true,
  written: true,
  state: true,
  issuedOn: true,
  dueOn: true,
  grossMinor: true,
  prepaidMinor: true,
  paidMinor: true,
  customer: { select: { id: true, name: true } },
  job: { select: { id: true, number: true, title: true } },
  furtherJobs: { select: { job: { select: { number: true } } }, orderBy: { id: "asc" } },
  takenBack: true,
  payments: WRITTEN_OFF,
} satisfies Prisma.InvoiceSelect;

export type InvoiceLine = ReturnType<typeof lineOf>;

const TAKE = 50;

/** Invoices and credit notes, newest first. */
export async function listInvoices(
  shop: ShopHandle,
  query: InvoiceQueryInput,
): Promise<{ rows: InvoiceLine[]; next: number | null }> {
  const today = await todayOf(shop);
  const rows = await shop.read.invoice.findMany({
    where: {
      ...(query.state ? filterOf(query.state, today) : {}),
      ...(query.after ? { id: { lt: query.after } } : {}),
      AND: [await rowsMatching(shop, "Invoice", query.q ?? "")],
    },
    select: LINE,
    orderBy: { id: "desc" },
    take: TAKE + 1,
  });
  const page = rows.slice(0, TAKE).map((row) => lineOf(row, today));
  return { rows: page, next: rows.length > TAKE ? (page.at(-1)?.id ?? null) : null };
}

const STANDS = {
  kind: { in: ["invoice", "receipt"] },
  state: "issued",
  takenBack: false,
} satisfies Prisma.InvoiceWhereInput;

/** A job is invoiced exactly while its standing invoice is not settled, so that "unpaid" is one comparison of words. */
function filterOf(filter: InvoiceFilter, today: string): Prisma.InvoiceWhereInput {
  switch (filter) {
    case "draft":
      return { state: "draft" };
    case "unpaid":
      return { ...STANDS, job: { state: "invoiced" } };
    case "late":
      return { ...STANDS, dueOn: { lt: today }, job: { state: "invoiced" } };
    case "closed":
      return { ...STANDS, OR: [{ job: { state: "closed" } }, { saleId: { not: null } }] };
    case "credited":
      return { OR: [{ kind: "creditNote" }, { creditedBy: { some: {} } }] };
  }
}

export interface Unpaid {
  readonly rows: readonly InvoiceLine[];
  readonly outstandingMinor: number;
  readonly lateMinor: number;
  readonly late: number;
  /** True where there are more than were added up. */
  readonly more: boolean;
}

const MOST = 500;

/** What is still to come in, the oldest first; and how much of it is late. */
export async function listUnpaid(shop: ShopHandle): Promise<Unpaid> {
  const today = await todayOf(shop);
  const found = await shop.read.invoice.findMany({
    where: filterOf("unpaid", today),
    select: LINE,
    orderBy: { id: "asc" },
    take: MOST + 1,
  });
  const rows = found.slice(0, MOST).map((row) => lineOf(row, today));
  const late = rows.filter((row) => row.standing === "late");
  const sum = (lines: readonly InvoiceLine[]) =>
    lines.reduce((total, line) => total + Math.max(0, line.leftMinor), 0);
  return {
    rows,
    outstandingMinor: sum(rows),
    lateMinor: sum(late),
    late: late.length,
    more: found.length > MOST,
  };
}

async function todayOf(shop: ShopHandle): Promise<string> {
  const { zone } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  return dayIn(zone, shop.now);
}

function lineOf({ payments, ...row }: Prisma.InvoiceGetPayload<{ select: typeof LINE }>, today: string) {
  const money = { ...row, credited: row.takenBack, writtenOff: writtenOff(payments) > 0 };
  return {
    ...row,
    leftMinor: outstanding(money),
    standing: standing(money, today),
    lateDays: daysLate(money, today),
  };
}
