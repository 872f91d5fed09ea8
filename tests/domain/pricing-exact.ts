import type { PriceFacts } from "../../lib/domain/pricing/facts";

/** Whole-number division rounded half away from zero, written apart from the product's. */
function divided(numerator: bigint, denominator: bigint): bigint {
  const size = numerator < 0n ? -numerator : numerator;
  const rounded = (2n * size + denominator) / (2n * denominator);
  return numerator < 0n ? -rounded : rounded;
}

const PER_MAJOR: Readonly<Record<string, bigint>> = { AUD: 100n, NOK: 100n, JPY: 1n, KWD: 1000n };
const FIXED_RATES: Readonly<Record<string, number>> = { au: 1000, nz: 1500, no: 2500, none: 0 };

interface ExactLine {
  readonly shown: bigint;
  readonly rate: bigint;
  readonly key?: string;
}

/** Shares an amount over the tax rates by what each shows, largest remainder first. */
function shared(lines: readonly ExactLine[], groupsOf: (rate: bigint) => string, off: bigint): ExactLine[] {
  const sums = new Map<bigint, bigint>();
  for (const { rate, shown } of lines) sums.set(rate, (sums.get(rate) ?? 0n) + shown);
  const total = [...sums.values()].reduce((a, b) => a + b, 0n);
  if (off === 0n || total === 0n) return [];
  const shares = [...sums]
    .sort(([a], [b]) => (groupsOf(a) < groupsOf(b) ? -1 : 1))
    .map(([rate, sum], at) => ({ rate, at, whole: (off * sum) / total, rest: (off * sum) % total, sum }));
  let left = off - shares.reduce((a, s) => a + s.whole, 0n);
  const order = [...shares].sort((a, b) => Number(b.rest - a.rest) || Number(b.sum - a.sum) || a.at - b.at);
  for (const share of order) {
    if (left <= 0n) break;
    share.whole += 1n;
    left -= 1n;
  }
  return shares.filter((s) => s.whole > 0n).map((s) => ({ rate: s.rate, shown: -s.whole }));
}

/** A quote's totals and shown lines in whole-number fractions: an independent second writing of the rules. */
export function exactQuote(facts: PriceFacts) {
  const per = PER_MAJOR[facts.currency] ?? 0n;
  const standard = BigInt(FIXED_RATES[facts.taxRegime] ?? facts.taxRates?.standardBp ?? 0);
  const rateOf = (kind: "labour" | "part" | "fixed" | "sundries" | "outside") =>
    facts.taxRegime === "us" && facts.taxRates?.taxed?.[kind] === false ? 0n : standard;
  const byUnit = (e4: bigint, milli: number) => divided(e4 * BigInt(milli) * per, 10_000_000n);
  const ofHour = (perHour: number, minutes: number) => divided(BigInt(perHour) * BigInt(minutes), 60n);
  const bands = facts.markupBands.toSorted((a, b) => (a.upToE4 ?? Infinity) - (b.upToE4 ?? Infinity));
  const partPrice = (p: PriceFacts["parts"][number]): bigint => {
    if (p.unitPriceE4 !== null) return BigInt(p.unitPriceE4);
    const cost = p.unitCostE4;
    const band = cost === null ? undefined : bands.find((b) => b.upToE4 === null || cost <= b.upToE4);
    if (cost === null || !band) return 0n;
    const tax = facts.pricesIncludeTax ? rateOf("part") : 0n;
    return divided(BigInt(cost) * BigInt(10_000 + band.markupBp) * (10_000n + tax), 100_000_000n);
  };
  const lines: ExactLine[] = [
    ...facts.labour.map((l) => ({
      key: l.key,
      shown: ofHour(l.ratePerHourMinor, l.minutes),
      rate: rateOf("labour"),
    })),
    ...facts.parts.map((p) => ({
      key: p.code,
      shown: byUnit(partPrice(p), p.quantityMilli),
      rate: rateOf("part"),
    })),
  ];
  const base = lines.reduce((sum, l) => sum + l.shown, 0n);
  for (const kind of ["fixed", "outside"] as const) {
    for (const f of facts[kind]) lines.push({ key: f.key, shown: BigInt(f.priceMinor), rate: rateOf(kind) });
  }
  for (const f of facts.byHand ?? [])
    lines.push({ key: f.key, shown: BigInt(f.priceMinor), rate: rateOf("fixed") });
  const full = divided(base * BigInt(facts.sundriesBp), 10_000n);
  const most = facts.sundriesMaxMinor === null ? full : BigInt(facts.sundriesMaxMinor);
  const sundries = full < most ? full : most;
  if (sundries > 0n) lines.push({ shown: sundries, rate: rateOf("sundries") });
  const category = (rate: bigint) => `${rate === 0n ? "E" : "S"}-${rate}`;
  const shownSoFar = () => lines.reduce((sum, l) => sum + l.shown, 0n);
  const off = (facts.lineDiscounts ?? []).flatMap((d): ExactLine[] => {
    const line = lines.find((l) => l.key === d.line);
    const amount = line ? divided(line.shown * BigInt(d.bp), 10_000n) : 0n;
    return line && amount > 0n ? [{ rate: line.rate, shown: -amount }] : [];
  });
  lines.push(...off);
  lines.push(...shared(lines, category, divided(shownSoFar() * BigInt(facts.discountBp), 10_000n)));
  const left = shownSoFar();
  const agreed = BigInt(facts.amountOffMinor ?? 0);
  lines.push(...shared(lines, category, agreed < left ? agreed : left));
  const step = BigInt(facts.roundDownToMinor ?? 0);
  if (step > 0n) lines.push(...shared(lines, category, shownSoFar() % step));

  let net = 0n;
  let tax = 0n;
  for (const rate of new Set(lines.map((l) => l.rate))) {
    const shown = lines.filter((l) => l.rate === rate).reduce((sum, l) => sum + l.shown, 0n);
    const part = facts.pricesIncludeTax
      ? divided(shown * rate, 10_000n + rate)
      : divided(shown * rate, 10_000n);
    tax += part;
    net += facts.pricesIncludeTax ? shown - part : shown;
  }
  const cost =
    facts.labour.reduce((sum, l) => sum + ofHour(l.costPerHourMinor, l.minutes), 0n) +
    facts.parts.reduce((sum, p) => sum + byUnit(BigInt(p.unitCostE4 ?? 0), p.quantityMilli), 0n) +
    [...facts.fixed, ...facts.outside, ...(facts.byHand ?? [])].reduce(
      (sum, f) => sum + BigInt(f.costMinor),
      0n,
    );
  return {
    totals: {
      netMinor: Number(net),
      taxMinor: Number(tax),
      grossMinor: Number(net + tax),
      costMinor: Number(cost),
    },
    shown: lines.map((l) => Number(l.shown)),
  };
}
