import type { ShopHandle } from "@/lib/db/shop";
import {
  amount,
  compareMoney,
  labour,
  type PaperMoney,
  STANDARD,
  type ToldLine,
  unitPrice,
  withOff,
} from "./money";
import { fittedBefore, localDay } from "./readSheets";
import { Differences, half, total } from "./sums";

/** A recipe, as far as the reader needs it, out of its row. */
export interface RecipeRow {
  readonly options: readonly {
    readonly key: string;
    readonly name: string;
    readonly operations: readonly string[];
    readonly parts: readonly PartWanted[];
    readonly changes: readonly {
      readonly setting: string;
      readonly change: string;
      readonly value?: number;
    }[];
    readonly cautions: readonly string[];
    readonly fixedPriceMinor?: number;
  }[];
  readonly operations: readonly {
    readonly key: string;
    readonly name: string;
    readonly minutes: number;
    readonly grade: string;
    readonly accesses: readonly string[];
    readonly parts: readonly PartWanted[];
  }[];
  readonly accesses: readonly {
    readonly key: string;
    readonly openMinutes: number;
    readonly closeMinutes: number;
    readonly needs: readonly string[];
  }[];
}

type PartWanted =
  | { readonly kind: "part"; readonly code: string; readonly quantityMilli: number }
  | {
      readonly kind: "jet";
      readonly setting: string;
      readonly family: string;
      readonly quantityMilli: number;
    };

/** A sent quote's text, as it is kept. */
export interface QuoteText extends PaperMoney {
  readonly number: string;
  readonly revision: number;
  readonly sentOn: string;
  readonly validUntil: string;
  readonly title: string;
  readonly shop: { readonly name: string; readonly taxNumber: string; readonly address: string };
  readonly customer: { readonly name: string; readonly address: string };
  readonly bike: { readonly plate: string; readonly frameNumber: string };
  readonly currency: string;
  readonly options: readonly { readonly key: string; readonly minutes: number }[];
  readonly steps: readonly {
    readonly kind: string;
    readonly key: string;
    readonly minutes: number;
    readonly grade: string;
    readonly access?: string;
  }[];
  readonly parts: readonly { readonly code: string; readonly quantityMilli: number }[];
  readonly settings: readonly {
    readonly carburettor: number;
    readonly setting: string;
    readonly value: number;
    readonly from: number | null;
  }[];
  readonly depositMinor: number;
  readonly minutes: number;
  readonly savedMinutes: number;
  readonly cautions: readonly string[];
}

export interface TermsRow {
  readonly lines?: readonly { readonly key: string; readonly kind: string; readonly priceMinor: number }[];
  readonly lineDiscounts?: readonly { readonly line: string; readonly bp: number }[];
  readonly discount?: { readonly kind: string; readonly bp?: number } | null;
  readonly deposit?: { readonly percentBp?: number; readonly amountMinor?: number } | null;
}

/** An access and all that it needs open. */
function opened(recipe: RecipeRow, keys: readonly string[], known = new Set<string>()): Set<string> {
  for (const key of keys) {
    if (known.has(key)) continue;
    known.add(key);
    opened(recipe, recipe.accesses.find((one) => one.key === key)?.needs ?? [], known);
  }
  return known;
}

/**
 * Whether the quote of a revision says what the rows of its shop tell. It is to be read as it is sent, with the prices of that
 * moment. The sizes that the tuning library computed are no ledger's: the reader sees that they are the same wherever they stand.
 */
export async function readQuote(shop: ShopHandle, revisionId: number): Promise<string[]> {
  const revision = await shop.read.quoteRevision.findUniqueOrThrow({
    where: { id: revisionId },
    include: {
      works: { include: { packageRevision: true } },
      quote: {
        include: { customer: true, bike: { include: { carburettors: { orderBy: { position: "asc" } } } } },
      },
    },
  });
  const text = revision.frozen as unknown as QuoteText;
  const recipe = revision.works[0]?.packageRevision?.recipe as unknown as RecipeRow;
  const terms = (revision.terms ?? {}) as unknown as TermsRow;
  const settings = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 } });
  const { quote } = revision;
  const diff = new Differences(`Quote ${quote.number}`);

  diff.same("its number", [text.number, text.revision], [quote.number, revision.number]);
  diff.same(
    "its days",
    [text.sentOn, text.validUntil],
    [localDay(quote.sentAt, settings.zone), quote.validUntil],
  );
  diff.same("its title", text.title, quote.title);
  const { name, address } = quote.customer;
  diff.same("the customer", [text.customer.name, text.customer.address], [name, address]);
  diff.same("the bike", [text.bike.plate, text.bike.frameNumber], [quote.bike.plate, quote.bike.frameNumber]);
  diff.same("the shop", [text.shop.taxNumber, text.shop.address], [settings.taxNumber, settings.address]);
  diff.same(
    "the currency",
    [text.currency, text.pricesIncludeTax],
    [settings.currency, settings.pricesIncludeTax],
  );

  const chosen = recipe.options.filter((option) => (revision.choices as string[]).includes(option.key));
  diff.same(
    "its options",
    text.options.map((one) => one.key).toSorted(),
    chosen.map((one) => one.key).toSorted(),
  );
  const operations = recipe.operations.filter((one) =>
    chosen.some((option) => option.operations.includes(one.key)),
  );
  const variation = quote.variationOfId !== null;
  readSteps(diff, text, recipe, operations, variation);
  const carburettors = Math.max(1, quote.bike.carburettors.length);
  const fitted = await fittedBefore(shop, quote.bikeId, {});
  for (const one of text.settings) {
    diff.same(`${one.setting} as it was`, one.from, fitted.get(`${one.carburettor} ${one.setting}`) ?? null);
    const set = chosen.flatMap((option) => option.changes).find((change) => change.setting === one.setting);
    if (set?.change === "set") diff.same(`${one.setting}, set`, one.value, set.value);
    if (!set) diff.same(`${one.setting}, left as it is`, one.value, one.from);
  }

  const told = await linesTold(shop, {
    text,
    recipe,
    chosen,
    operations,
    terms,
    carburettors,
    variation,
    diff,
  });
  compareMoney(diff, text, told);
  const asked = terms.deposit?.percentBp ?? settings.depositBp;
  diff.same("the deposit", text.depositMinor, half(BigInt(text.grossMinor) * BigInt(asked), 10_000n));
  diff.same(
    "its row",
    [revision.netMinor, revision.taxMinor, revision.grossMinor, revision.depositMinor, revision.minutes],
    [text.netMinor, text.taxMinor, text.grossMinor, text.depositMinor, text.minutes],
  );
  return diff.found;
}

type Operation = RecipeRow["operations"][number];

/** The plan: every operation once, what it needs opened and closed as often, each at the minutes that the recipe says. */
function readSteps(
  diff: Differences,
  text: QuoteText,
  recipe: RecipeRow,
  operations: readonly Operation[],
  variation: boolean,
): void {
  const done = text.steps.filter((step) => step.kind === "operation");
  diff.same(
    "its operations",
    done.map((one) => one.key).toSorted(),
    operations.map((one) => one.key).toSorted(),
  );
  for (const step of done) {
    const own = operations.find((one) => one.key === step.key);
    diff.same(`step ${step.key}`, [step.minutes, step.grade], [own?.minutes, own?.grade]);
  }
  const needed = [
    ...opened(
      recipe,
      operations.flatMap((one) => one.accesses),
    ),
  ];
  for (const kind of ["open", "close"] as const) {
    const steps = text.steps.filter((step) => step.kind === kind);
    diff.same(`what it ${kind}s`, steps.map((one) => one.key).toSorted(), needed.toSorted());
    for (const step of steps) {
      const access = recipe.accesses.find((one) => one.key === step.key);
      const minutes = (kind === "open" ? access?.openMinutes : access?.closeMinutes) ?? -1;
      // What the job of a variation opens anyhow costs the variation nothing.
      if (!variation || step.minutes !== 0) diff.same(`${kind} ${step.key}`, step.minutes, minutes);
    }
  }
  diff.same(
    "its minutes",
    text.minutes,
    text.steps.reduce((sum, step) => sum + step.minutes, 0),
  );
}

interface Asked {
  readonly text: QuoteText;
  readonly recipe: RecipeRow;
  readonly chosen: RecipeRow["options"];
  readonly operations: readonly Operation[];
  readonly terms: TermsRow;
  readonly carburettors: number;
  readonly variation: boolean;
  readonly diff: Differences;
}

async function linesTold(shop: ShopHandle, asked: Asked): Promise<{ lines: ToldLine[]; discount: bigint }> {
  const { text, recipe, chosen, operations, terms, carburettors, diff } = asked;
  const settings = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 } });
  const grades = await shop.read.labourGrade.findMany();
  const bands = await shop.read.markupBand.findMany();
  const rate = STANDARD[settings.country] ?? 0n;
  const fixed = chosen.filter((option) => option.fixedPriceMinor !== undefined);
  const byTime = chosen.filter((option) => !fixed.includes(option));
  const charged = operations.filter((one) => byTime.some((option) => option.operations.includes(one.key)));
  const rateOf = (code: string) => grades.find((grade) => grade.code === code)?.ratePerHourMinor ?? 0;

  const lines: ToldLine[] = [];
  for (const [code, own] of Map.groupBy(charged, (one) => one.grade))
    lines.push(
      labour(`work-${code}`, BigInt(own.reduce((sum, one) => sum + one.minutes, 0)), rateOf(code), rate),
    );
  // What is opened is charged once; which grade opens it follows from the order of the work.
  const turns = text.steps.filter((step) => step.kind !== "operation");
  const around = fixed.length === 0 ? turns : [];
  for (const [code, own] of Map.groupBy(around, (one) => one.grade)) {
    const minutes = own.reduce((sum, one) => sum + one.minutes, 0);
    if (minutes > 0) lines.push(labour(`opening-${code}`, BigInt(minutes), rateOf(code), rate));
  }
  if (fixed.length > 0)
    for (const line of text.lines.filter((one) => one.key.startsWith("opening-"))) {
      const minutes = half(BigInt(line.quantityMilli) * 60n, 1_000n);
      lines.push(labour(line.key, minutes, rateOf(line.key.slice("opening-".length)), rate));
    }
  const openingMinutes = total(
    lines
      .filter((line) => line.key.startsWith("opening-"))
      .map((line) => half((line.milli ?? 0n) * 60n, 1_000n)),
  );
  const accesses = (own: readonly Operation[]) => {
    const keys = opened(
      recipe,
      own.flatMap((one) => one.accesses),
    );
    return recipe.accesses
      .filter((one) => keys.has(one.key))
      .reduce((sum, one) => sum + one.openMinutes + one.closeMinutes, 0);
  };
  if (!asked.variation) diff.same("minutes of opening and closing", openingMinutes, accesses(charged));
  const visit = charged.reduce((sum, one) => sum + one.minutes, 0) + accesses(charged);
  const spent = charged.reduce((sum, one) => sum + one.minutes, 0) + Number(openingMinutes);
  diff.same("minutes saved against a visit of its own", text.savedMinutes, visit - spent);

  const wanted = [...byTime.flatMap((option) => option.parts), ...charged.flatMap((one) => one.parts)];
  const quantities = new Map<string, bigint>();
  for (const need of wanted) {
    if (need.kind === "part") {
      quantities.set(need.code, (quantities.get(need.code) ?? 0n) + BigInt(need.quantityMilli));
      continue;
    }
    for (const one of text.settings.filter(
      (setting) => setting.setting === need.setting && setting.value !== setting.from,
    )) {
      const jet = await shop.read.part.findFirst({
        where: { kind: "jet", family: need.family, sizeMilli: Math.round(one.value * 1_000) },
      });
      const each = BigInt(Math.max(1_000, need.quantityMilli / carburettors));
      if (jet) quantities.set(jet.code, (quantities.get(jet.code) ?? 0n) + each);
      else diff.same(`a jet of ${one.value}`, "none in the drawer", "one");
    }
  }
  for (const [code, milli] of quantities) {
    const part = await shop.read.part.findUniqueOrThrow({ where: { code } });
    const {
      unitE4,
      category,
      rate: own,
    } = unitPrice(part, part.averageE4 ?? part.costE4, bands, rate, text.pricesIncludeTax);
    lines.push({ key: code, shown: amount(unitE4, milli), category, rate: own, milli, unitE4, worked: true });
  }
  diff.same(
    "its parts",
    text.parts.map((part) => [part.code, part.quantityMilli]).toSorted(),
    [...quantities].map(([code, milli]) => [code, Number(milli)]).toSorted(),
  );
  for (const option of fixed)
    lines.push({ key: option.key, shown: BigInt(option.fixedPriceMinor ?? 0), category: "S", rate });
  for (const line of terms.lines ?? [])
    lines.push({ key: line.key, shown: BigInt(line.priceMinor), category: "S", rate });
  const customer = await shop.read.quote.findUniqueOrThrow({
    where: { number: text.number },
    select: { customer: { select: { discountBp: true } } },
  });
  const agreed = terms.discount?.kind === "percent" ? terms.discount.bp : customer.customer.discountBp;
  return withOff(lines, {
    lineDiscounts: (terms.lineDiscounts ?? []).map(({ line, bp }) => ({ line, bp: BigInt(bp) })),
    discountBp: BigInt(agreed ?? 0),
    sundriesBp: BigInt(settings.sundriesBp),
    sundriesMost: settings.sundriesMaxMinor === null ? null : BigInt(settings.sundriesMaxMinor),
    rate,
  });
}
