import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit, nextWritten } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { presetChoice, standing } from "@/lib/domain/packages/choose";
import type { ModelFacts } from "@/lib/domain/packages/facts";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { computeQuote } from "@/lib/domain/quoting/compute";
import type { QuoteFacts } from "@/lib/domain/quoting/facts";
import type { QuoteView } from "@/lib/domain/quoting/result";
import type { QuoteTerms } from "@/lib/domain/quoting/terms";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn, daysAfter } from "@/lib/domain/schedule/days";
import { searchKey } from "@/lib/domain/searchKey";
import type { SetConditions } from "@/lib/schemas/quoteConditions";
import type { ChooseOptions, CreateQuote, QuoteVersion } from "@/lib/schemas/quotes";
import { bikeName } from "../bikes/bikeName";
import { conditionsToday } from "../common/air";
import { storedRecipe } from "../packages/stored";
import { quoteFacts } from "./facts";
import { partRows } from "./partRows";
import { conflict, demandQuote, type FoundQuote, factsOf, notADraft } from "./rows";

const FIRST_NUMBER = 1001;

/** The title of a quote until its first work gives it one. */
export const UNTITLED = "New quote";

/** A draft quote for a bike: of a package's newest published revision, preset options ticked, or without works yet. Answers its id. */
export async function createQuote(
  shop: ShopHandle,
  input: CreateQuote & { key?: string | undefined },
): Promise<number> {
  return shop.write((tx) => once(tx, shop, "began a quote", input, () => createIn(tx, shop, input)));
}

export async function createIn(tx: ShopTx, shop: ShopHandle, input: CreateQuote): Promise<number> {
  const revision = input.packageId === undefined ? null : await newestPublished(tx, input.packageId);
  const bike = await tx.bike.findUnique({
    where: { id: input.bikeId },
    select: {
      id: true,
      year: true,
      plate: true,
      modelCard: { select: { make: true, model: true } },
      customer: { select: { id: true, name: true } },
    },
  });
  if (!bike)
    throw new Refusal(
      "There is no such bike.",
      "Choose one from the list.",
      { bikeId: "Choose a bike." },
      "missing",
    );
  const job = input.variationOfId === undefined ? null : await openJob(tx, input.variationOfId, bike.id);
  const settings = await tx.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: {
      altitudeM: true,
      latitude: true,
      longitude: true,
      latitudeSouth: true,
      zone: true,
      quoteValidDays: true,
    },
  });
  const conditions = conditionsToday(settings, shop.now);
  const validUntil = daysAfter(dayIn(settings.zone, shop.now), settings.quoteValidDays);
  const title = input.title || revision?.package.name || UNTITLED;
  const facts = await quoteFacts(tx, {
    bikeId: bike.id,
    works: revision ? [{ key: "", kind: "package", name: title, recipe: storedRecipe(revision.recipe) }] : [],
    choices: [],
    conditions,
    validUntil,
    now: shop.now,
    jobId: job?.id ?? null,
  });
  const choices = presetChoice(facts.recipe, facts.modelFacts);
  const view = computeQuote({ ...facts, choices });
  const finding = job ? await quoteFinding(tx, job.id, input.findingId) : null;
  const { number: sequence, written: number } = await nextWritten(tx, shop, "quote", FIRST_NUMBER);
  const { id } = await tx.quote.create({
    data: {
      number,
      sequence,
      customerId: bike.customer.id,
      bikeId: bike.id,
      title,
      validUntil,
      searchKey: searchOf(number, bike.customer.name, bike, title),
      createdAt: shop.now,
      createdBy: shop.by.staffId,
      grossMinor: view.price.grossMinor,
      minutes: view.plan.minutes,
      ...(job ? { variationOfId: job.id } : {}),
      ...(finding === null ? {} : { findingId: finding }),
      revisions: {
        create: {
          number: 1,
          ...(revision
            ? { works: { create: { position: 1, kind: "package", packageRevisionId: revision.id } } }
            : {}),
          choices,
          conditions: conditions as Prisma.InputJsonObject,
          createdAt: shop.now,
          ...figures(view),
        },
      },
    },
    select: { id: true },
  });
  await audit(tx, shop, "created", "quote", id, { number });
  return id;
}

/** Gives a draft another title. */
export async function retitleQuote(
  shop: ShopHandle,
  { title, ...input }: QuoteVersion & { title: string },
): Promise<void> {
  await edit(shop, input, "retitled", () => ({ title }));
}

/** The finding that extra work answers is quoted from here on; null for one of another job or dealt with already. */
async function quoteFinding(tx: ShopTx, jobId: number, id: number | undefined): Promise<number | null> {
  if (id === undefined) return null;
  const { count } = await tx.finding.updateMany({
    where: { id, jobId, state: "open" },
    data: { state: "quoted", version: { increment: 1 } },
  });
  return count === 1 ? id : null;
}

/** What became of a quote is told to the finding it answers: agreed, or open again. */
export async function answerFindingIn(
  tx: ShopTx,
  id: number | null,
  state: "agreed" | "open",
): Promise<void> {
  if (id === null) return;
  await tx.finding.updateMany({
    where: { id, state: "quoted" },
    data: { state, version: { increment: 1 } },
  });
}

export async function newestPublished(tx: ShopTx, packageId: number) {
  const found = await tx.packageRevision.findFirst({
    where: { packageId, state: "published", package: { active: true } },
    select: { id: true, recipe: true, package: { select: { name: true } } },
    orderBy: { number: "desc" },
  });
  if (found) return found;
  throw new Refusal("This package has no published revision.", "Publish it, or choose another package.", {
    packageId: "Choose a published package.",
  });
}

async function openJob(tx: ShopTx, id: number, bikeId: number) {
  const job = await tx.job.findUnique({ where: { id }, select: { id: true, bikeId: true, state: true } });
  if (job?.bikeId === bikeId && !["invoiced", "closed", "cancelled"].includes(job.state)) return job;
  throw new Refusal(
    "That job takes no extra work.",
    "Make a quote of its own for this bike.",
    {},
    "conflict",
  );
}

export function figures({ price, plan, depositMinor }: QuoteView) {
  const { netMinor, taxMinor, grossMinor } = price;
  return { netMinor, taxMinor, grossMinor, depositMinor, minutes: plan.minutes };
}

/** Stores the ticks of a draft: the option just touched stands, and others give way where they cannot go with it. */
export async function chooseOptions(shop: ShopHandle, input: ChooseOptions): Promise<void> {
  await edit(shop, input, "changed the options of", (_, facts) => ({
    choices: settled(facts.recipe, input.choices, input.touched, facts.modelFacts),
  }));
}

/** Stores the air that a draft's settings are computed for. */
export async function setConditions(shop: ShopHandle, input: SetConditions): Promise<void> {
  const { id, version, ...conditions } = input;
  await edit(shop, { id, version }, "changed the conditions of", () => ({ conditions }));
}

/** The ticks that can stand together: the touched option first, then each other one that goes with those before it. */
export function settled(
  recipe: Recipe,
  ticked: readonly string[],
  touched: string,
  facts: ModelFacts,
): string[] {
  const known = recipe.options.map((o) => o.key).filter((key) => ticked.includes(key));
  const order = known.includes(touched) ? [touched, ...known.filter((key) => key !== touched)] : known;
  const stand = standing(recipe, order, facts);
  return recipe.options.map((o) => o.key).filter((key) => stand.includes(key));
}

/** A quote's title, where its search key follows. */
export const retitled = ({ quote }: FoundQuote, title: string) => ({
  title,
  searchKey: searchOf(quote.number, quote.customer.name, quote.bike, title),
});

const searchOf = (
  number: string,
  customer: string,
  bike: Parameters<typeof bikeName>[0] & { plate: string },
  title: string,
) => searchKey(number, customer, bikeName(bike), bike.plate, title);

export interface Change {
  readonly choices?: string[];
  readonly conditions?: Omit<SetConditions, "id" | "version">;
  readonly agreed?: QuoteTerms;
  readonly validUntil?: string;
  readonly title?: string;
}

/** Changes a draft and computes it anew, against its version. */
export async function edit(
  shop: ShopHandle,
  { id, version }: { id: number; version: number },
  act: string,
  decide: (found: FoundQuote, facts: QuoteFacts) => Change,
): Promise<void> {
  await shop.write(async (tx) => {
    const found = await demandQuote(tx, id);
    const { quote, revision } = found;
    if (quote.state !== "draft") throw notADraft(quote.number, quote.state);
    if (quote.version !== version) throw await conflict(tx, id, quote.number);
    const before = await factsOf(tx, found, shop.now);
    const change = decide(found, before);
    const parts = change.agreed ? await partRows(tx, before.recipe, change.agreed) : before.parts;
    const view = computeQuote({ ...before, ...change, parts });
    await tx.quoteRevision.update({
      where: { id: revision.id },
      data: {
        ...(change.choices ? { choices: change.choices } : {}),
        ...(change.conditions ? { conditions: change.conditions as Prisma.InputJsonObject } : {}),
        ...(change.agreed ? { terms: change.agreed as unknown as Prisma.InputJsonObject } : {}),
        ...figures(view),
      },
      select: { id: true },
    });
    await demandOne(
      tx.quote.updateMany({
        where: { id, state: "draft", version },
        data: {
          ...(change.validUntil ? { validUntil: change.validUntil } : {}),
          ...(change.title ? retitled(found, change.title) : {}),
          grossMinor: view.price.grossMinor,
          minutes: view.plan.minutes,
          version: { increment: 1 },
        },
      }),
      () => conflict(tx, id, quote.number),
    );
    await audit(tx, shop, act, "quote", id, { number: quote.number });
  });
}
