import type { ShopTx } from "@/lib/db/shop";
import type { TakenRow } from "@/lib/domain/endOfDay/takings";
import { movedMinor } from "@/lib/domain/invoices/held";
import type { DocumentKind } from "@/lib/domain/invoices/printed";
import { Refusal } from "@/lib/domain/refusal";
import { chunks } from "../common/chunks";
import { dayTexts } from "../shop/dayTexts";

export type Db = Pick<ShopTx, "payment" | "invoice" | "drawerMove" | "endOfDay" | "settings">;

/** Days that one end of day covers: both count. */
export interface Span {
  readonly fromDay: string;
  readonly day: string;
}

/** So much money stands on one sheet. */
const MOST = 2000;

/** Money that moved on some days, in the order it was recorded, with the documents it belongs to. Write-offs are no money. */
export async function moneyOf(db: Db, { fromDay, day }: Span) {
  const rows = await db.payment.findMany({
    where: { paidOn: { gte: fromDay, lte: day }, kind: { not: "writeOff" } },
    select: {
      id: true,
      kind: true,
      method: true,
      amountMinor: true,
      roundingMinor: true,
      paidOn: true,
      at: true,
      saleId: true,
      invoiceId: true,
      jobId: true,
      invoice: { select: { id: true, kind: true, written: true } },
      job: { select: { number: true } },
    },
    orderBy: { id: "asc" },
    take: MOST + 1,
  });
  if (rows.length > MOST) {
    const text = await dayTexts(db);
    throw new Refusal(
      `More than ${MOST} payments fall on ${text(fromDay)} to ${text(day)}.`,
      "Close an earlier day by itself first.",
    );
  }
  const returned = await creditNotesOf(
    db,
    rows.flatMap((row) => (row.saleId !== null && row.invoiceId === null ? [row.saleId] : [])),
  );
  return rows.map(({ invoice, job, ...row }) => ({
    ...row,
    movedMinor: movedMinor(row),
    overCounter: row.saleId !== null,
    ...documentOf(invoice ?? returned.get(row.saleId ?? 0) ?? null),
    job: job?.number ?? null,
  }));
}

/** The document that money belongs to, as a sheet names it, and where it is. */
const documentOf = (found: { id: number; kind: DocumentKind; written: string } | null) => ({
  documentId: found?.id ?? null,
  document: found && { kind: found.kind, written: found.written },
});

export type Money = Awaited<ReturnType<typeof moneyOf>>[number] & TakenRow;

/** What money given back over the counter belongs to: the newest document of its sale. */
async function creditNotesOf(db: Db, saleIds: readonly number[]) {
  const found = new Map<number, { id: number; kind: DocumentKind; written: string }>();
  for (const some of chunks([...new Set(saleIds)])) {
    const notes = await db.invoice.findMany({
      where: { saleId: { in: [...some] }, state: "issued" },
      select: { id: true, saleId: true, kind: true, written: true },
      orderBy: { id: "asc" },
    });
    for (const { saleId, ...note } of notes) if (saleId !== null) found.set(saleId, note);
  }
  return found;
}

/** What was put into the drawer and taken out of it on some days. */
export const movesOf = (db: Db, { fromDay, day }: Span) =>
  db.drawerMove.findMany({
    where: { day: { gte: fromDay, lte: day } },
    select: { id: true, day: true, amountMinor: true, reason: true, personName: true },
    orderBy: { id: "asc" },
    take: MOST,
  });

/** What somebody who counts has seen of some days' money: another one once any of it was recorded since. */
export const seenOf = (
  { fromDay, day }: Span,
  money: readonly { readonly id: number }[],
  moves: readonly { readonly id: number }[],
): string =>
  [fromDay, day, money.length, money.at(-1)?.id ?? 0, moves.length, moves.at(-1)?.id ?? 0].join("_");
