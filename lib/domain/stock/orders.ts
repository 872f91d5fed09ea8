/** The states of a purchase order. */
export type OrderState = "draft" | "ordered" | "partReceived" | "received" | "cancelled";

/** What was ordered of a part, what came and what will not come; thousandths. */
export interface OrderedLine {
  readonly quantityMilli: number;
  readonly receivedMilli: number;
  readonly cancelledMilli: number;
}

/** What is still to come of a line. */
export function openOf(line: OrderedLine): number {
  return line.quantityMilli - line.receivedMilli - line.cancelledMilli;
}

/**
 * The state of a placed order by its lines: ordered while nothing came, part received while something came and something
 * is open; once nothing is open, received if anything came, else cancelled.
 */
export function placedState(lines: readonly OrderedLine[]): Exclude<OrderState, "draft"> {
  const came = lines.some((line) => line.receivedMilli > 0);
  if (lines.some((line) => openOf(line) > 0)) return came ? "partReceived" : "ordered";
  return came ? "received" : "cancelled";
}

/** What came in, shared among the open lines in the order given; what no line waits for stands last without one. */
export function shareOut(
  quantityMilli: number,
  lines: readonly (OrderedLine & { readonly id: number })[],
): { readonly lineId: number | null; readonly quantityMilli: number }[] {
  let left = quantityMilli;
  const shares: { lineId: number | null; quantityMilli: number }[] = [];
  for (const line of lines) {
    const taken = Math.min(left, openOf(line));
    if (taken <= 0) continue;
    shares.push({ lineId: line.id, quantityMilli: taken });
    left -= taken;
  }
  if (left > 0) shares.push({ lineId: null, quantityMilli: left });
  return shares;
}

/** How a supplier sells a part; 0 where it sells loose, or any quantity. Thousandths. */
export interface SoldAs {
  readonly packMilli: number;
  readonly leastMilli: number;
}

/** The least that covers a wanted quantity in whole packs and not under the supplier's least; nothing stays nothing. */
export function inPacks(wantedMilli: number, sold: SoldAs): number {
  if (wantedMilli <= 0) return 0;
  const least = Math.max(wantedMilli, sold.leastMilli);
  return sold.packMilli > 0 ? Math.ceil(least / sold.packMilli) * sold.packMilli : least;
}
