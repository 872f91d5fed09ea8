import type { ShopTx } from "@/lib/db/shop";
import type { OpenItem } from "@/lib/domain/bank/types";
import { outstanding } from "@/lib/domain/invoices/state";
import { kidOf } from "@/lib/domain/money/checkDigits";
import { INVOICE_ROW } from "../invoices/rows";
import { depositsAsked } from "../payments/several";
import { accountOf } from "../shop/account";

/** So many of each are held against a list's lines (judgement). */
const MOST = 500;

const STANDING = { kind: "invoice", state: "issued", takenBack: false, saleId: null } as const;
const ROW = { ...INVOICE_ROW, customer: { select: { name: true } } } as const;

type Db = Pick<ShopTx, "invoice" | "job" | "bankAccount">;

/** What customers have to pay, or one of them: invoices and deposits that were asked. With them the newest invoices that are settled, so that a line that names one is known. */
export async function openItems(db: Db, customerId?: number): Promise<OpenItem[]> {
  const of = customerId === undefined ? {} : { customerId };
  const [open, settled, deposits, account] = await Promise.all([
    db.invoice.findMany({
      where: { ...STANDING, ...of, job: { state: "invoiced" } },
      select: ROW,
      orderBy: { id: "asc" },
      take: MOST,
    }),
    db.invoice.findMany({
      where: { ...STANDING, ...of, job: { state: "closed" } },
      select: ROW,
      orderBy: { id: "desc" },
      take: MOST,
    }),
    depositsAsked(db, of, MOST),
    accountOf(db),
  ]);
  const withKid = account?.form === "no";
  const kid = (kind: OpenItem["kind"], number: number | null) =>
    withKid && number !== null ? kidOf(kind, number) : "";
  return [
    ...[...open, ...settled].flatMap((row): OpenItem[] =>
      row.customerId === null
        ? []
        : [
            {
              kind: "invoice",
              id: row.id,
              written: row.written,
              kid: kid("invoice", row.number),
              customerId: row.customerId,
              customerName: row.customer?.name ?? "",
              leftMinor: Math.max(0, outstanding({ ...row, credited: false })),
              since: row.issuedOn ?? "",
            },
          ],
    ),
    ...deposits.map(
      ({ id, customer, quote, leftMinor, createdAt }): OpenItem => ({
        kind: "deposit",
        id,
        written: quote.number,
        kid: kid("deposit", quote.sequence),
        customerId: customer.id,
        customerName: customer.name,
        leftMinor,
        since: createdAt.toISOString().slice(0, 10),
      }),
    ),
  ];
}
