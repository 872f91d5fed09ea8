import type { ShopHandle } from "@/lib/db/shop";
import { outstanding } from "@/lib/domain/invoices/state";
import type { AccountUse } from "@/lib/domain/ledger/accounts";
import { poster } from "@/lib/domain/ledger/post";
import { ledgerEvents } from "./events";

/** Later than any day of a shop. */
const EVER = "9999-12-31";

/**
 * A sentence for each thing about a shop's journal that does not hold: every entry adds up to nothing, and customers owe and are owed
 * what their invoices say.
 */
export async function ledgerProblems(shop: ShopHandle): Promise<string[]> {
  const [{ problems, sums }, { owedMinor, backMinor }] = await Promise.all([
    posted(shop),
    saidByInvoices(shop),
  ]);
  const receivable = sums.get("receivable") ?? 0;
  const balance = 0 - (sums.get("customerBalance") ?? 0);
  return [
    ...problems.slice(0, 20),
    ...(receivable === owedMinor
      ? []
      : [`The journal says ${receivable} is owed, the invoices ${owedMinor}.`]),
    ...(balance === backMinor
      ? []
      : [`The journal says ${balance} is owed back, the invoices ${backMinor}.`]),
  ];
}

/** Every entry posted: which of them are off, and what all of them come to. */
async function posted(shop: ShopHandle) {
  const post = poster();
  const sums = new Map<AccountUse, number>();
  const problems: string[] = [];
  for await (const event of ledgerEvents(shop, { from: "", to: EVER, detailFrom: EVER, stockToo: false })) {
    const { lines } = post(event);
    const total = lines.reduce((sum, line) => sum + line.minor, 0);
    if (total !== 0) problems.push(`The journal's entry of ${event.is} ${event.id} is off by ${total}.`);
    for (const { use, minor } of lines) sums.set(use, (sums.get(use) ?? 0) + minor);
  }
  return { problems, sums };
}

const PAGE = 500;

/** What the invoices say is owed, and what is paid too much on them. */
async function saidByInvoices(shop: ShopHandle): Promise<{ owedMinor: number; backMinor: number }> {
  let [owedMinor, backMinor] = [0, 0];
  for (let after = 0; ; ) {
    const rows = await shop.read.invoice.findMany({
      where: { state: "issued", kind: { not: "creditNote" }, saleId: null, id: { gt: after } },
      select: {
        id: true,
        kind: true,
        state: true,
        dueOn: true,
        grossMinor: true,
        prepaidMinor: true,
        paidMinor: true,
        takenBack: true,
      },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    for (const { takenBack, ...row } of rows) {
      const left = outstanding({ ...row, credited: takenBack });
      owedMinor += Math.max(0, left);
      backMinor += Math.max(0, 0 - left);
    }
    const last = rows.at(-1);
    if (!last || rows.length < PAGE) return { owedMinor, backMinor };
    after = last.id;
  }
}
