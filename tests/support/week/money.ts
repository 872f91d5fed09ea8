import { type Differences, half, total } from "./sums";

/** A line as the reader makes it. Amounts in minor units, quantities in thousandths, unit prices in ten-thousandths. */
export interface ToldLine {
  readonly key: string;
  readonly shown: bigint;
  readonly category: string;
  readonly rate: bigint;
  readonly milli?: bigint;
  readonly unitE4?: bigint;
  /** Sundries are a share of labour and parts. */
  readonly worked?: boolean;
}

/** A line as a paper prints it. */
export interface PaperLine {
  readonly key: string;
  readonly kind: string;
  readonly quantityMilli: number;
  readonly unitPriceE4: number;
  readonly netMinor: number;
  readonly shownMinor: number;
  readonly taxCategory: string;
  readonly taxRateBp: number;
}

export interface PaperMoney {
  readonly pricesIncludeTax: boolean;
  readonly lines: readonly PaperLine[];
  readonly taxes: readonly {
    readonly category: string;
    readonly rateBp: number;
    readonly taxableMinor: number;
    readonly taxMinor: number;
  }[];
  readonly netMinor: number;
  readonly taxMinor: number;
  readonly grossMinor: number;
}

/**
 * Standard rates in basis points. Source: A New Tax System (Goods and Services Tax) Act 1999 s 9-70 (10 %); Merverdiavgiftsloven
 * with the Storting's yearly resolution (25 %). Both from memory.
 */
export const STANDARD: Readonly<Record<string, bigint>> = { AU: 1_000n, NO: 2_500n };

export interface Off {
  readonly lineDiscounts: readonly { readonly line: string; readonly bp: bigint }[];
  readonly discountBp: bigint;
  readonly sundriesBp: bigint;
  readonly sundriesMost: bigint | null;
  readonly rate: bigint;
}

/** Sundries, and what comes off single lines; the share off the whole is told apart by its sum. */
export function withOff(charged: readonly ToldLine[], off: Off): { lines: ToldLine[]; discount: bigint } {
  const base = total(charged.filter((line) => line.worked).map((line) => line.shown));
  const share = half(base * off.sundriesBp, 10_000n);
  const sundries = off.sundriesMost !== null && off.sundriesMost < share ? off.sundriesMost : share;
  const before: ToldLine[] = [
    ...charged,
    ...(sundries === 0n ? [] : [{ key: "sundries", shown: sundries, category: "S", rate: off.rate }]),
  ];
  const own = off.lineDiscounts.flatMap(({ line: key, bp }): ToldLine[] => {
    const line = before.find((one) => one.key === key);
    const amount = line ? half(line.shown * bp, 10_000n) : 0n;
    return line && amount !== 0n
      ? [{ ...line, key: `off-${key}`, shown: -amount, milli: -1_000n, unitE4: amount * 100n }]
      : [];
  });
  const lines = [...before, ...own];
  return { lines, discount: half(total(lines.map((line) => line.shown)) * off.discountBp, 10_000n) };
}

/** Whether a paper's lines, taxes and totals are those that the rows tell. */
export function compareMoney(
  diff: Differences,
  paper: PaperMoney,
  told: { lines: readonly ToldLine[]; discount: bigint },
): void {
  const whole = paper.lines.filter((line) => line.key.startsWith("discount-"));
  const others = paper.lines.filter((line) => !whole.includes(line));
  diff.same(
    "its lines",
    others.map((line) => line.key).toSorted(),
    told.lines.map((line) => line.key).toSorted(),
  );
  for (const line of told.lines) {
    const printed = others.find((one) => one.key === line.key);
    if (!printed) continue;
    diff.same(`${line.key}, amount`, printed.shownMinor, line.shown);
    diff.same(`${line.key}, tax`, [printed.taxCategory, printed.taxRateBp], [line.category, line.rate]);
    if (line.milli !== undefined) diff.same(`${line.key}, quantity`, printed.quantityMilli, line.milli);
    if (line.unitE4 !== undefined) diff.same(`${line.key}, price of one`, printed.unitPriceE4, line.unitE4);
  }
  diff.same("the share off all", total(whole.map((line) => BigInt(line.shownMinor))), -told.discount);
  const shown = total(told.lines.map((line) => line.shown));
  for (const line of whole) {
    const own = told.lines.filter((one) => `discount-${one.category}-${one.rate}` === line.key);
    diff.near(
      `${line.key}, amount`,
      BigInt(line.shownMinor),
      -told.discount * total(own.map((one) => one.shown)),
      shown,
    );
  }
  sumsHold(diff, paper);
}

/** EN 16931 BR-CO-10, 13, 14, 15 and 17, and where tax is in the prices, the tax within what is shown. */
export function sumsHold(diff: Differences, paper: PaperMoney): void {
  const groups = Map.groupBy(paper.lines, (line) => `${line.taxCategory} ${line.taxRateBp}`);
  const taxes = [...groups.values()].map((lines) => {
    const { taxCategory: category, taxRateBp } = lines[0] as PaperLine;
    const rate = BigInt(taxRateBp);
    const shown = total(lines.map((line) => BigInt(line.shownMinor)));
    const net = total(lines.map((line) => BigInt(line.netMinor)));
    const tax = paper.pricesIncludeTax ? half(shown * rate, 10_000n + rate) : half(shown * rate, 10_000n);
    diff.same(`nets of ${category}`, net, paper.pricesIncludeTax ? shown - tax : shown);
    for (const line of lines)
      if (paper.pricesIncludeTax)
        diff.near(
          `${line.key}, net`,
          BigInt(line.netMinor),
          BigInt(line.shownMinor) * 10_000n,
          10_000n + rate,
        );
      else diff.same(`${line.key}, net`, line.netMinor, line.shownMinor);
    return { category, rateBp: taxRateBp, taxableMinor: net, taxMinor: tax };
  });
  const printed = paper.taxes.map(({ category, rateBp, taxableMinor, taxMinor }) => ({
    category,
    rateBp,
    taxableMinor,
    taxMinor,
  }));
  const order = (a: { category: string }, b: { category: string }) => (a.category < b.category ? -1 : 1);
  diff.same("its taxes", printed.toSorted(order), taxes.toSorted(order));
  const net = total(paper.lines.map((line) => BigInt(line.netMinor)));
  const tax = total(taxes.map((one) => one.taxMinor));
  diff.same("its totals", [paper.netMinor, paper.taxMinor, paper.grossMinor], [net, tax, net + tax]);
}

interface QuotePartRow {
  readonly costE4: number | null;
  readonly priceE4: number | null;
  readonly taxCategory: string;
}

/** What one of a part is sold for, out of its row, and how it is taxed. */
export function unitPrice(
  part: QuotePartRow,
  costE4: number | null,
  bands: readonly { readonly upToE4: number | null; readonly markupBp: number }[],
  standard: bigint,
  inclusive: boolean,
): { unitE4: bigint; category: string; rate: bigint } {
  const category = part.taxCategory || "S";
  const rate = category === "S" ? standard : 0n;
  if (part.priceE4 !== null) return { unitE4: BigInt(part.priceE4), category, rate };
  const cost = BigInt(costE4 ?? 0);
  const fitting = bands
    .filter((band) => band.upToE4 === null || BigInt(band.upToE4) >= cost)
    .toSorted((a, b) => (a.upToE4 ?? Number.MAX_SAFE_INTEGER) - (b.upToE4 ?? Number.MAX_SAFE_INTEGER))[0];
  const within = inclusive ? rate : 0n;
  const top = cost * (10_000n + BigInt(fitting?.markupBp ?? 0)) * (10_000n + within);
  return { unitE4: half(top, 100_000_000n), category, rate };
}

/** An amount in minor units of a currency of two decimals. */
export const amount = (unitE4: bigint, milli: bigint): bigint => half(unitE4 * milli * 100n, 10_000_000n);

/** Minutes at a rate an hour, and the quantity in thousandths of an hour. */
export const labour = (key: string, minutes: bigint, perHour: number, rate: bigint): ToldLine => ({
  key,
  shown: half(BigInt(perHour) * minutes, 60n),
  category: "S",
  rate,
  milli: half(minutes * 1_000n, 60n),
  unitE4: BigInt(perHour) * 100n,
  worked: true,
});
