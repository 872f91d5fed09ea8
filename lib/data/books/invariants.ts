import type { ShopHandle } from "@/lib/db/shop";
import { dayProblems } from "../endOfDay/invariants";
import { moneyProblems } from "../invoices/invariants";
import { shareProblems } from "../invoices/shareInvariants";
import { timeProblems } from "../jobs/time/invariants";
import { ledgerProblems } from "../ledger/invariants";
import { orderProblems } from "../orders/invariants";
import { type FileReader, photoProblems } from "../photos/check";
import { stockProblems } from "../stock/invariants";

/**
 * Everything that must always hold in a shop's database: a sentence for each thing that does not. Run by tests,
 * after a backup is restored, and by an owner's button. With `files`, the shop's file store, its photos' pictures too.
 * The stock is read at one moment each, or a move in between would look like a fault; what is read in pieces is read side by side, so
 * that the pieces of one moment are one statement.
 */
export async function problemsOf(shop: ShopHandle, files?: FileReader): Promise<string[]> {
  const stock = await stockProblems(shop);
  const orders = await orderProblems(shop);
  const others = await Promise.all([
    timeProblems(shop),
    moneyProblems(shop),
    ledgerProblems(shop),
    shareProblems(shop),
    dayProblems(shop),
    files ? photoProblems(shop, files) : [],
  ]);
  return [...stock, ...orders, ...others.flat()];
}
