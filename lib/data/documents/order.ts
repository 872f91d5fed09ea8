import type { OrderOnPaper } from "@/lib/domain/stock/orderOnPaper";

/** What an order said when it was placed: kept with the letter that told it, since the order itself goes on changing. */
export interface PrintedOrder extends OrderOnPaper {
  readonly format: "throttlewright-order";
  readonly version: 1;
}

/** An order out of a letter; only `printedOrderIn` writes there. */
export function storedOrder(json: unknown): PrintedOrder {
  const found = json as PrintedOrder | null;
  if (found?.format !== "throttlewright-order") throw new Error("This is not a printed order.");
  return found;
}
