import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { searchKey } from "@/lib/domain/searchKey";
import { MODEL_FACTS } from "@/lib/domain/tuning/modelFacts";
import type { FactInput, ModelCardInput, ModelCardQueryInput } from "@/lib/schemas/modelCards";
import { versionToReplace } from "@/lib/schemas/typedNumber";
import { auditChange, changedMeanwhile, type Fields } from "../common/changes";
import { found } from "../common/narrow";
import { rekeyBikesIn } from "./bikeKeys";

const PAGE = 50;

const SUMMARY = {
  id: true,
  make: true,
  model: true,
  yearFrom: true,
  yearTo: true,
  displacementCc: true,
  cylinders: true,
  carburettors: true,
  carburettorType: true,
} as const;

const FACTS = {
  select: { key: true, value: true, text: true, how: true, note: true },
  orderBy: { id: "asc" },
} as const;

/** Model cards by make and model, narrowed by a search. */
export async function listModelCards(shop: ShopHandle, query: ModelCardQueryInput) {
  const rows = await shop.read.modelCard.findMany({
    where: { AND: found(query.q) },
    select: SUMMARY,
    orderBy: [{ make: "asc" }, { model: "asc" }, { yearFrom: "asc" }, { id: "asc" }],
    take: PAGE + 1,
    ...(query.after ? { cursor: { id: query.after }, skip: 1 } : {}),
  });
  const page = rows.slice(0, PAGE);
  return { rows: page, next: rows.length > PAGE ? (page.at(-1)?.id ?? null) : null };
}

/** One model card with its facts and the newest bikes on it; null when there is none. */
export async function getModelCard(shop: ShopHandle, id: number) {
  return shop.read.modelCard.findUnique({
    where: { id },
    select: {
      ...SUMMARY,
      serviceKm: true,
      serviceMonths: true,
      mainFamily: true,
      pilotFamily: true,
      notes: true,
      version: true,
      facts: FACTS,
      bikes: {
        select: { id: true, plate: true, year: true, customer: { select: { name: true } } },
        orderBy: { id: "desc" },
        take: 50,
      },
    },
  });
}

/** The smallest card a bike can stand on. */
export interface ModelCore {
  readonly make: string;
  readonly model: string;
  readonly displacementCc: number;
  readonly cylinders: number;
  readonly carburettors: number;
  readonly carburettorType: string;
}

/** Makes a model card from the least that is known, inside a transaction of the caller's. */
export async function createModelCardIn(tx: ShopTx, shop: ShopHandle, core: ModelCore): Promise<number> {
  await demandNew(tx, core.make, core.model, null, null);
  const made = await tx.modelCard.create({
    data: { ...core, searchKey: searchKey(core.make, core.model), createdAt: shop.now },
    select: { id: true },
  });
  await audit(tx, shop, "added", "modelCard", made.id, { make: core.make, model: core.model });
  return made.id;
}

/** The index lets two cards without a first year stand beside each other (null is never equal), so it is asked for. */
async function demandNew(
  tx: ShopTx,
  make: string,
  model: string,
  yearFrom: number | null,
  except: number | null,
): Promise<void> {
  const same = await tx.modelCard.findMany({
    where: { yearFrom, searchKey: { startsWith: searchKey(make, model) } },
    select: { id: true, make: true, model: true },
    orderBy: { id: "asc" },
    take: 50,
  });
  const twin = same.find(
    (card) => card.id !== except && searchKey(card.make, card.model) === searchKey(make, model),
  );
  if (!twin) return;
  const since = yearFrom === null ? "" : ` from ${yearFrom}`;
  throw new Refusal(
    `There is a card for ${twin.make} ${twin.model}${since} already.`,
    "Use that card, or give this one another first year.",
    {
      model: "A card for this model exists.",
    },
  );
}

const columnsOf = (input: ModelCardInput) => ({
  make: input.make,
  model: input.model,
  yearFrom: input.yearFrom,
  yearTo: input.yearTo,
  displacementCc: input.displacementCc,
  cylinders: input.cylinders,
  carburettors: input.carburettors,
  carburettorType: input.carburettorType as string,
  serviceKm: input.serviceKm,
  serviceMonths: input.serviceMonths,
  mainFamily: input.mainFamily,
  pilotFamily: input.pilotFamily,
  notes: input.notes,
});

const factRows = (facts: readonly FactInput[]) =>
  facts.map(({ key, value, text, how, note }) => ({ key, value, text, how, note }));

/** Makes a model card, once per key; answers the id. */
export async function createModelCard(
  shop: ShopHandle,
  input: ModelCardInput,
  key?: string,
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "added a model card", { ...input, key }, async () => {
      await demandNew(tx, input.make, input.model, input.yearFrom, null);
      const made = await tx.modelCard.create({
        data: {
          ...columnsOf(input),
          searchKey: searchKey(input.make, input.model),
          createdAt: shop.now,
          facts: { create: factRows(input.facts) },
        },
        select: { id: true },
      });
      await audit(tx, shop, "added", "modelCard", made.id, { make: input.make, model: input.model });
      return made.id;
    }),
  );
}

type StoredFact = { key: string; value: number | null; text: string | null; how: string; note: string };

/** Facts flattened to the form's own field names, so that a conflict marks the field it is about. */
function flat(facts: readonly StoredFact[]): Fields {
  const known = new Map(facts.map((fact) => [fact.key, fact]));
  return Object.fromEntries(
    MODEL_FACTS.flatMap(({ key }) => {
      const fact = known.get(key);
      return [
        [`facts.${key}.value`, fact?.text ?? fact?.value ?? null],
        [`facts.${key}.how`, fact?.how ?? null],
        [`facts.${key}.note`, fact?.note || null],
      ];
    }),
  );
}

const FACT_NAMES = Object.fromEntries(
  MODEL_FACTS.flatMap(({ key, name }) => [
    [`facts.${key}.value`, name],
    [`facts.${key}.how`, `how ${name} is known`],
    [`facts.${key}.note`, `the note on ${name}`],
  ]),
);

/** Changes a model card with all its facts from the version the form was drawn with. */
export async function changeModelCard(shop: ShopHandle, id: number, input: ModelCardInput): Promise<number> {
  return shop.write(async (tx) => {
    const before = await tx.modelCard.findUnique({ where: { id }, include: { facts: FACTS } });
    if (!before)
      throw new Refusal("There is no such model card.", "Choose one from the list.", {}, "missing");
    await demandNew(tx, input.make, input.model, input.yearFrom, id);
    const seen = versionToReplace(input);
    const columns = columnsOf(input);
    await demandOne(
      tx.modelCard.updateMany({
        where: { id, version: seen },
        data: { ...columns, searchKey: searchKey(input.make, input.model), version: { increment: 1 } },
      }),
      () => changedMeanwhile(tx, "modelCard", "model card", id, seen, before.version, FACT_NAMES),
    );
    if (input.make !== before.make || input.model !== before.model)
      await rekeyBikesIn(tx, { modelCardId: id });
    await tx.modelFact.deleteMany({ where: { modelCardId: id } });
    await tx.modelFact.createMany({
      data: factRows(input.facts).map((fact) => ({ ...fact, modelCardId: id })),
    });
    const was = Object.fromEntries(
      Object.keys(columns).map((key) => [key, before[key as keyof typeof columns]]),
    );
    await auditChange(
      tx,
      shop,
      "modelCard",
      id,
      seen + 1,
      { ...was, ...flat(before.facts) },
      { ...columns, ...flat(input.facts) },
    );
    return id;
  });
}
