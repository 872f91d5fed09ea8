/** Whole-number arithmetic of the week's reader: none of it is the product's. */

/** n / d, halves away from zero. */
export function half(n: bigint, d: bigint): bigint {
  const [top, bottom] = d < 0n ? [-n, -d] : [n, d];
  const size = top < 0n ? -top : top;
  const rounded = (2n * size + bottom) / (2n * bottom);
  return top < 0n ? -rounded : rounded;
}

/** n / d, begun units whole; neither below zero. */
export const upTo = (n: bigint, d: bigint): bigint => (n + d - 1n) / d;

export const total = (amounts: readonly bigint[]): bigint => amounts.reduce((sum, one) => sum + one, 0n);

/** Differences between what a paper says and what the rows tell, one sentence each. */
export class Differences {
  readonly found: string[] = [];

  constructor(private readonly paper: string) {}

  same(what: string, printed: unknown, told: unknown): void {
    const [left, right] = [plain(printed), plain(told)];
    if (left !== right) this.found.push(`${this.paper}: ${what} says ${left}, the rows tell ${right}.`);
  }

  /** For shares that are rounded so that they add up: each is less than one away from its exact share. */
  near(what: string, printed: bigint, top: bigint, bottom: bigint): void {
    const off = printed * bottom - top;
    if ((off < 0n ? -off : off) >= bottom)
      this.found.push(`${this.paper}: ${what} says ${printed}, the rows tell about ${half(top, bottom)}.`);
  }
}

/** As text; fields in one order, since PostgreSQL keeps JSON in an order of its own. */
const plain = (value: unknown): string =>
  JSON.stringify(value, (_, one: unknown) =>
    typeof one === "bigint"
      ? Number(one)
      : one !== null && typeof one === "object" && !Array.isArray(one)
        ? Object.fromEntries(Object.entries(one).toSorted(([a], [b]) => (a < b ? -1 : 1)))
        : one,
  ) ?? "nothing";
