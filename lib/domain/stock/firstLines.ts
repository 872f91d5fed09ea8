/** So many further suppliers are named at most. */
const MOST_LATER = 100;

interface Order<Line> {
  readonly supplier: string;
  readonly lines: readonly Line[];
}

/**
 * The first lines of suggested orders, as many as a page shows: `orders` with how many lines each has in all, `later` the suppliers whose
 * lines all come after, each with its count.
 */
export function firstLines<Line, O extends Order<Line>>(all: readonly (O & Order<Line>)[], most: number) {
  const orders: (Omit<O, "lines"> & { lines: readonly Line[]; count: number })[] = [];
  const later: { supplier: string; count: number }[] = [];
  let left = most;
  for (const order of all) {
    const count = order.lines.length;
    const lines = order.lines.slice(0, left);
    left -= lines.length;
    if (lines.length > 0) orders.push({ ...order, lines, count });
    else later.push({ supplier: order.supplier, count });
  }
  return { orders, later: later.slice(0, MOST_LATER) };
}
