import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { handPartsOf } from "@/lib/domain/quoting/handParts";
import type { QuoteTerms } from "@/lib/domain/quoting/terms";
import { Refusal } from "@/lib/domain/refusal";
import { daysAfter } from "@/lib/domain/schedule/days";
import type {
  AddLine,
  DepositInput,
  DiscountInput,
  ExtrasInput,
  LineDiscountInput,
  PriceBookInput,
  RemoveLine,
  ValidUntilInput,
} from "@/lib/schemas/quoteTerms";
import { shareTyped } from "@/lib/schemas/quoteTerms";
import { amountTyped } from "./typedAmount";
import { edit } from "./write";

function share(text: string): number {
  const read = shareTyped.safeParse(text);
  if (read.success) return read.data;
  const said = read.error.issues[0]?.message ?? "Enter a share in percent.";
  throw new Refusal("This share cannot be read.", "Look at the marked field.", { amount: said });
}

const handWritten = (agreed: QuoteTerms) => [...agreed.lines, ...handPartsOf(agreed)];

const nextKey = (agreed: QuoteTerms) =>
  `hand-${1 + Math.max(0, ...handWritten(agreed).map((l) => Number(l.key.replace("hand-", ""))))}`;

function demandRoom(agreed: QuoteTerms): void {
  if (handWritten(agreed).length >= 20)
    throw new Refusal("A quote takes 20 lines by hand.", "Take one off first, or put them into a package.");
}

/** Writes a line on a draft by hand: work bought outside with its cost, a line of the shop's own, or a part of its stock. */
export async function addLine(shop: ShopHandle, input: AddLine): Promise<void> {
  if (input.kind === "part") return addPart(shop, input);
  const { kind } = input;
  await edit(shop, input, "added a line to", (_, { agreed, terms }) => {
    const outside = kind === "outside";
    const priceMinor = amountTyped(input.price, terms, "price", outside ? null : 0);
    const costMinor = amountTyped(input.cost, terms, "cost", outside ? null : 0);
    demandRoom(agreed);
    const line = {
      key: nextKey(agreed),
      kind,
      name: input.name,
      priceMinor,
      costMinor,
      ...counted(input),
      ...(input.taxMark ? { taxMark: input.taxMark } : {}),
    };
    return { agreed: { ...agreed, lines: [...agreed.lines, line] } };
  });
}

/** A part of stock: reserved for the job and taken by it, like a part of a work. */
async function addPart(shop: ShopHandle, input: AddLine): Promise<void> {
  const { part: code = "", quantity = 1000, name, taxMark } = input;
  const part = await shop.read.part.findUnique({ where: { code }, select: { active: true } });
  if (!part?.active)
    throw new Refusal(
      part ? `${code} is put away.` : `No part has the code ${code}.`,
      "Choose one from stock, or add it there first.",
      { part: "Choose a part from stock." },
    );
  await edit(shop, input, "added a part to", (_, { agreed, terms }) => {
    demandRoom(agreed);
    const amount = (typed: string, field: string) =>
      typed.trim() === "" ? {} : { [`${field}Minor`]: amountTyped(typed, terms, field) };
    const line = {
      key: nextKey(agreed),
      code,
      name,
      quantityMilli: quantity,
      ...amount(input.price, "price"),
      ...amount(input.cost, "cost"),
      ...(taxMark ? { taxMark } : {}),
    };
    return { agreed: { ...agreed, parts: [...handPartsOf(agreed), line] } };
  });
}

/** How many a line is of, where it is not one. */
function counted({ quantity = 1000, unit = "" }: AddLine) {
  return quantity === 1000 && unit === "" ? {} : { quantityMilli: quantity, unit: unit || "each" };
}

/** Takes a line written by hand off again, with any discount on it. */
export async function removeLine(shop: ShopHandle, input: RemoveLine): Promise<void> {
  await edit(shop, input, "took a line off", (_, { agreed }) => ({
    agreed: {
      ...agreed,
      lines: agreed.lines.filter((l) => l.key !== input.line),
      parts: handPartsOf(agreed).filter((l) => l.key !== input.line),
      lineDiscounts: agreed.lineDiscounts.filter((d) => d.line !== input.line),
    },
  }));
}

/** A share off one line; none takes the line's discount off. */
export async function discountLine(shop: ShopHandle, input: LineDiscountInput): Promise<void> {
  await edit(shop, input, "changed a line's discount on", (_, { agreed }) => {
    const others = agreed.lineDiscounts.filter((d) => d.line !== input.line);
    const mine = input.percent > 0 ? [{ line: input.line, bp: input.percent, why: input.why }] : [];
    return { agreed: { ...agreed, lineDiscounts: [...others, ...mine] } };
  });
}

/** A share in place of the customer's usual discount, or an amount on top of it; or neither. */
export async function discountQuote(shop: ShopHandle, input: DiscountInput): Promise<void> {
  await edit(shop, input, "changed the discount of", (_, { agreed, terms }) => {
    const { how, amount, why } = input;
    const discount: QuoteTerms["discount"] =
      how === "none"
        ? null
        : how === "percent"
          ? { kind: "percent", bp: share(amount), why }
          : { kind: "amount", minor: amountTyped(amount, terms, "amount"), why };
    return { agreed: { ...agreed, discount } };
  });
}

/** The deposit asked for: as the shop usually does, none, a share or an amount. */
export async function setDeposit(shop: ShopHandle, input: DepositInput): Promise<void> {
  await edit(shop, input, "changed the deposit of", (_, { agreed, terms }) => {
    const { how, amount } = input;
    const deposit: QuoteTerms["deposit"] =
      how === "shop"
        ? null
        : how === "amount"
          ? { amountMinor: amountTyped(amount, terms, "amount") }
          : { percentBp: how === "none" ? 0 : share(amount) };
    return { agreed: { ...agreed, deposit } };
  });
}

/** Which options the customer may add when accepting. */
export async function offerExtras(shop: ShopHandle, input: ExtrasInput): Promise<void> {
  await edit(shop, input, "changed the extras of", (_, { agreed, recipe }) => {
    const extras = input.extras.filter((key) => recipe.options.some((o) => o.key === key));
    return { agreed: { ...agreed, extras } };
  });
}

const LONGEST_DAYS = 366;

/** The last day on which the quote keeps its word: from today to a year on. */
export async function setValidUntil(shop: ShopHandle, input: ValidUntilInput): Promise<void> {
  await edit(shop, input, "changed the last day of", (_, { today }) => {
    const { validUntil } = input;
    const [first, last] = [today ?? validUntil, daysAfter(today ?? validUntil, LONGEST_DAYS)];
    if (validUntil < first || validUntil > last)
      throw new Refusal("A quote is valid until a day from today to a year on.", "Choose another day.", {
        validUntil: `Choose ${first} to ${last}.`,
      });
    return { validUntil };
  });
}

/** How quotes of this shop round, and until when its prices are good. */
export async function getPriceBook(shop: ShopHandle) {
  const row = await shop.read.priceBook.findUnique({
    where: { id: 1 },
    select: { roundDownToMinor: true, pricesFrom: true, pricesUntil: true, version: true },
  });
  return row ?? { roundDownToMinor: 0, pricesFrom: null, pricesUntil: null, version: 0 };
}

export async function savePriceBook(shop: ShopHandle, input: PriceBookInput): Promise<void> {
  await shop.write(async (tx) => {
    const terms = await tx.settings.findUniqueOrThrow({
      where: { id: 1 },
      select: { currency: true, locale: true },
    });
    const { pricesFrom, pricesUntil } = input;
    if (pricesFrom && pricesUntil && pricesUntil < pricesFrom)
      throw new Refusal("The prices end before they begin.", "Correct one of the days.", {
        pricesUntil: `Choose ${pricesFrom} or later.`,
      });
    const data = {
      roundDownToMinor: amountTyped(input.roundDownTo, terms, "roundDownTo", 0),
      pricesFrom: pricesFrom || null,
      pricesUntil: pricesUntil || null,
    };
    const before = await tx.priceBook.findUnique({ where: { id: 1 }, select: { version: true } });
    if ((before?.version ?? 0) !== input.version)
      throw new Refusal(
        "The price book was changed since you opened it.",
        "Open it again and look at what it says now.",
        {},
        "conflict",
      );
    await tx.priceBook.upsert({
      where: { id: 1 },
      create: { id: 1, ...data },
      update: { ...data, version: { increment: 1 } },
      select: { id: true },
    });
    await audit(tx, shop, "changed", "price book", 1, data);
  });
}
