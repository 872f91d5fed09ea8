import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopReader, ShopTx } from "@/lib/db/shop";
import { moneyText } from "@/lib/domain/money/format";
import { amountOf, MILLI } from "@/lib/domain/money/scale";
import type { Option, Recipe } from "@/lib/domain/packages/recipe";
import { type KeptAlternative, turned } from "@/lib/domain/pricing/taxWithin";
import { handPartsOf } from "@/lib/domain/quoting/handParts";
import type { QuoteTerms } from "@/lib/domain/quoting/terms";
import { ratesOf, taxFor } from "@/lib/domain/tax/rates";
import type { TaxedKind } from "@/lib/domain/tax/regimes";
import { storedTerms } from "@/lib/schemas/quoteTerms";
import { keptWork, storedWritten } from "@/lib/schemas/works";
import { storedRecipe } from "../packages/stored";

type Tables = "settings" | "part" | "kit" | "labourGrade" | "package" | "quoteRevision";
export type Reads = Pick<ShopReader, Tables> | Pick<ShopTx, Tables>;

/** What is kept in the shop's way of showing prices, and an example of turning it to the other way. */
export interface KeptPrices {
  readonly parts: number;
  readonly rates: number;
  readonly fixedPrices: number;
  readonly kits: number;
  /** Draft quotes with lines by hand or an amount off. */
  readonly draftQuotes: number;
  /** "An hour of Workshop: 100.00 without tax becomes 110.00 with tax in it"; null where nothing is kept. */
  readonly example: string | null;
}

export const TAX_TERMS = {
  currency: true,
  locale: true,
  taxRegime: true,
  taxRateBp: true,
  taxLabour: true,
  taxParts: true,
  pricesIncludeTax: true,
  sundriesMaxMinor: true,
} satisfies Prisma.SettingsSelect;

export type TaxTerms = Prisma.SettingsGetPayload<{ select: typeof TAX_TERMS }>;

/** The rate, in basis points, that a kind of line is taxed at under some terms. */
export const rateOf = (terms: TaxTerms, kind: TaxedKind): number =>
  taxFor(terms.taxRegime, kind, ratesOf(terms)).rateBp;

/** The way that a switch turns prices to. */
export const otherWay = (terms: TaxTerms): KeptAlternative =>
  terms.pricesIncludeTax ? "without tax" : "with tax";

/** Whether an option of it has a price of its own: a fixed one, or that of a kit. */
export const hasOwnPrice = (recipe: Recipe): boolean =>
  recipe.options.some((option) => option.fixedPriceMinor !== undefined || option.kits !== undefined);

/** The prices of an option, or of a work that was written: fixed, and those of kits, which are taxed as parts are. */
export function turnedPrices<T extends Pick<Option, "fixedPriceMinor" | "kits">>(
  said: T,
  tax: TaxTerms,
  to: KeptAlternative,
): T {
  const { fixedPriceMinor, kits } = said;
  return {
    ...said,
    ...(fixedPriceMinor === undefined
      ? {}
      : { fixedPriceMinor: turned(fixedPriceMinor, rateOf(tax, "fixed"), to) }),
    ...(kits
      ? { kits: kits.map((kit) => ({ ...kit, priceMinor: kitTurned(kit.priceMinor, tax, to) })) }
      : {}),
  };
}

/** A kit's price turned to the other way. */
export const kitTurned = (priceMinor: number, tax: TaxTerms, to: KeptAlternative): number =>
  turned(priceMinor, rateOf(tax, "part"), to);

export const hasAmounts = (terms: QuoteTerms): boolean =>
  terms.lines.some((line) => line.priceMinor > 0) ||
  handPartsOf(terms).some((part) => (part.priceMinor ?? 0) > 0) ||
  terms.discount?.kind === "amount";

/** An amount of the terms of a quote turned to the other way: lines by hand as they are taxed, an amount off as labour is. */
export function turnedTerms(terms: QuoteTerms, tax: TaxTerms, to: KeptAlternative): QuoteTerms {
  const { discount } = terms;
  return {
    ...terms,
    lines: terms.lines.map((line) => ({
      ...line,
      priceMinor: line.taxMark
        ? line.priceMinor
        : turned(line.priceMinor, rateOf(tax, line.kind === "outside" ? "outside" : "fixed"), to),
    })),
    parts: handPartsOf(terms).map((part) =>
      part.taxMark || part.priceMinor === undefined
        ? part
        : { ...part, priceMinor: turned(part.priceMinor, rateOf(tax, "part"), to) },
    ),
    discount:
      discount?.kind === "amount"
        ? { ...discount, minor: turned(discount.minor, rateOf(tax, "labour"), to) }
        : discount,
  };
}

/** What a written work says, its prices and the prices of its work from outside turned to the other way. */
export function turnedWork(data: unknown, tax: TaxTerms, to: KeptAlternative): Prisma.JsonObject {
  const { outside, ...said } = storedWritten(data);
  return keptWork({
    ...turnedPrices(said, tax, to),
    outside: outside.map((line) => ({
      ...line,
      priceMinor: line.taxMark ? line.priceMinor : turned(line.priceMinor, rateOf(tax, "outside"), to),
    })),
  }) as unknown as Prisma.JsonObject;
}

/** What a switch of “prices include tax” would touch. */
export async function keptPrices(reads: Reads): Promise<KeptPrices> {
  const [terms, parts, kits, grades, packages, drafts] = await Promise.all([
    reads.settings.findUniqueOrThrow({ where: { id: 1 }, select: TAX_TERMS }),
    reads.part.count({ where: { priceE4: { not: null }, taxCategory: "" } }),
    reads.kit.count({ where: { priceMinor: { not: null } } }),
    reads.labourGrade.findMany({
      where: { rateSet: true },
      select: { name: true, ratePerHourMinor: true },
      orderBy: { id: "asc" },
      take: 50,
    }),
    reads.package.findMany({
      select: {
        revisions: {
          where: { state: "published" },
          select: { recipe: true },
          orderBy: { number: "desc" },
          take: 1,
        },
      },
      orderBy: { id: "asc" },
      take: 500,
    }),
    reads.quoteRevision.findMany({
      where: { frozenAt: null, quote: { state: "draft" } },
      select: { terms: true },
      orderBy: { id: "asc" },
      take: 2000,
    }),
  ]);
  const recipes = packages.flatMap((one) => one.revisions.map((revision) => storedRecipe(revision.recipe)));
  return {
    parts,
    kits,
    rates: grades.length,
    fixedPrices: recipes
      .flatMap((recipe) => recipe.options)
      .filter((option) => option.fixedPriceMinor !== undefined).length,
    draftQuotes: drafts.filter((draft) => hasAmounts(storedTerms(draft.terms))).length,
    example: await exampleOf(reads, terms, grades[0]),
  };
}

async function exampleOf(
  reads: Reads,
  terms: TaxTerms,
  grade: { name: string; ratePerHourMinor: number } | undefined,
): Promise<string | null> {
  const text = (minor: number) => moneyText(minor, terms.currency, terms.locale);
  const ways = ["with tax in it", "without tax"];
  const [now, then] = terms.pricesIncludeTax ? ways : ways.toReversed();
  const say = (what: string, minor: number, kind: TaxedKind) =>
    `${what}: ${text(minor)} ${now} becomes ${text(turned(minor, rateOf(terms, kind), otherWay(terms)))} ${then}`;
  if (grade) return say(`An hour of ${grade.name}`, grade.ratePerHourMinor, "labour");
  const part = await reads.part.findFirst({
    where: { priceE4: { not: null }, taxCategory: "" },
    select: { name: true, priceE4: true },
    orderBy: { id: "asc" },
  });
  return part ? say(part.name, amountOf(part.priceE4 ?? 0, MILLI, terms.currency), "part") : null;
}

/** “12 part prices, 2 labour rates, 3 fixed prices and the amounts of 1 draft quote”. */
export function keptText({ parts, kits, rates, fixedPrices, draftQuotes }: KeptPrices): string {
  const said = [
    [parts, "part price", "part prices"],
    [kits, "price of a kit", "prices of kits"],
    [rates, "labour rate", "labour rates"],
    [fixedPrices, "fixed price of a package", "fixed prices of packages"],
    [draftQuotes, "draft quote with amounts of its own", "draft quotes with amounts of their own"],
  ] as const;
  const some = said
    .filter(([count]) => count > 0)
    .map(([count, one, many]) => `${count} ${count === 1 ? one : many}`);
  return some.length < 2 ? (some[0] ?? "no price") : `${some.slice(0, -1).join(", ")} and ${some.at(-1)}`;
}
