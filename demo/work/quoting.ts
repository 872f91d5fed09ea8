import { acceptForCustomer, acceptQuote } from "@/lib/data/acceptance/accept";
import type { Accepted } from "@/lib/data/acceptance/job";
import { storedQuote } from "@/lib/data/documents/quote";
import { putOnOrder } from "@/lib/data/parts/save";
import { sendQuote } from "@/lib/data/quotes/send";
import { chooseOptions, createQuote } from "@/lib/data/quotes/write";
import { partsByCode } from "@/lib/data/stock/drawer";
import { recordMove } from "@/lib/data/stock/moves";
import type { Stage } from "../stage";

/** Links in demo mail lead here. */
const ORIGIN = "http://localhost:3000";

export interface QuoteWish {
  readonly bikeId: number;
  readonly package: string;
  /** Options ticked beside the preset ones, and preset ones left out. */
  readonly take?: readonly string[];
  readonly leave?: readonly string[];
  readonly variationOfId?: number;
  readonly findingId?: number;
}

export interface Draft {
  readonly id: number;
  readonly version: number;
}

export async function draftQuote(stage: Stage, when: Date, wish: QuoteWish): Promise<Draft> {
  const shop = stage.shop.as(stage.hands.desk, when);
  const packageId = stage.packages[wish.package];
  if (packageId === undefined) throw new Error(`The demo has no package ${wish.package}.`);
  const { bikeId, variationOfId, findingId } = wish;
  const id = await createQuote(shop, { bikeId, packageId, variationOfId, findingId });
  const take = wish.take ?? [];
  const leave = wish.leave ?? [];
  if (take.length + leave.length === 0) return { id, version: 1 };
  const { revisions } = await shop.read.quote.findUniqueOrThrow({
    where: { id },
    select: { revisions: { select: { choices: true }, orderBy: { number: "desc" }, take: 1 } },
  });
  const ticked = (revisions[0]?.choices ?? []) as string[];
  const choices = [...ticked.filter((key) => !leave.includes(key)), ...take];
  await chooseOptions(shop, { id, version: 1, choices, touched: take[0] ?? "" });
  return { id, version: 2 };
}

export interface Out {
  readonly id: number;
  readonly version: number;
  readonly revisionId: number;
  readonly hash: string;
  readonly acknowledgements: readonly string[];
  readonly customer: string;
  readonly grossMinor: number;
}

export async function send(stage: Stage, when: Date, draft: Draft): Promise<Out> {
  const shop = stage.shop.as(stage.hands.desk, when);
  const { revisionId } = await sendQuote(shop, { ...draft, origin: ORIGIN });
  const { hash, frozen, quote } = await shop.read.quoteRevision.findUniqueOrThrow({
    where: { id: revisionId },
    select: {
      hash: true,
      frozen: true,
      quote: { select: { version: true, customer: { select: { name: true } } } },
    },
  });
  if (!frozen || !hash) throw new Error("A sent quote is not frozen.");
  const { acknowledgements, grossMinor } = storedQuote(frozen);
  return {
    id: draft.id,
    version: quote.version,
    revisionId,
    hash,
    acknowledgements: acknowledgements.map((one) => one.key),
    customer: quote.customer.name,
    grossMinor,
  };
}

/** The customer's yes, by the link or told at the desk. */
export async function sayYes(stage: Stage, when: Date, out: Out, how: "link" | string): Promise<Accepted> {
  const proof = {
    revisionId: out.revisionId,
    typedName: out.customer,
    acknowledgements: [...out.acknowledgements],
    shownHash: out.hash,
  };
  return how === "link"
    ? acceptQuote(stage.shop.asCustomer(when), { ...proof, agent: "Phone browser" })
    : acceptForCustomer(stage.shop.as(stage.hands.desk, when), { ...proof, how });
}

/** Orders what a job is short of, with one to spare of what is counted. */
export async function orderShort(
  stage: Stage,
  when: Date,
  short: Accepted["short"],
): Promise<{ partId: number; quantityMilli: number }[]> {
  const shop = stage.shop.as(stage.hands.desk, when);
  const rows = await partsByCode(
    shop,
    short.map((one) => one.code),
  );
  const orders = [];
  for (const row of rows) {
    const shortMilli = short
      .filter((one) => one.code === row.code)
      .reduce((sum, one) => sum + one.shortMilli, 0);
    const quantityMilli = shortMilli + (row.unit === "each" ? 1000 : 0);
    await putOnOrder(shop, { partId: row.id, quantityMilli, why: "short for a job" });
    orders.push({ partId: row.id, quantityMilli });
  }
  return orders;
}

export async function receive(
  stage: Stage,
  when: Date,
  orders: readonly { partId: number; quantityMilli: number }[],
): Promise<void> {
  for (const order of orders)
    await recordMove(stage.shop.as(stage.hands.desk, when), { ...order, kind: "receipt", why: "delivery" });
}
