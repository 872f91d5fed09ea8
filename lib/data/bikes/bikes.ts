import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { BikeInput, BikeQueryInput, NewBikeInput } from "@/lib/schemas/bikes";
import { versionToReplace } from "@/lib/schemas/typedNumber";
import { auditChange, changedMeanwhile } from "../common/changes";
import { mergedOrMissing } from "../common/merged";
import { rowsMatching } from "../common/narrow";
import { ordered } from "../common/ordered";
import { bikeKey } from "./bikeKeys";
import { createModelCardIn } from "./modelCards";
import { latestSheets } from "./sheets";

const PAGE = 50;

/** What the carburettors of a bike are called at first: by side for two, by number for more. */
export function carburettorLabels(count: number): readonly string[] {
  if (count === 1) return ["Carburettor"];
  return count === 2 ? ["Left", "Right"] : Array.from({ length: count }, (_, at) => `Number ${at + 1}`);
}

/** Bikes by plate or by when they were added, narrowed by a search. */
export async function listBikes(shop: ShopHandle, query: BikeQueryInput) {
  const rows = await shop.read.bike.findMany({
    where: await rowsMatching(shop, "Bike", query.q),
    select: {
      id: true,
      plate: true,
      year: true,
      colour: true,
      odometerKm: true,
      createdAt: true,
      customer: { select: { id: true, name: true } },
      modelCard: { select: { make: true, model: true } },
    },
    orderBy: ordered<"plate">(query.sort),
    take: PAGE + 1,
    ...(query.after ? { cursor: { id: query.after }, skip: 1 } : {}),
  });
  const page = rows.slice(0, PAGE);
  return { rows: page, next: rows.length > PAGE ? (page.at(-1)?.id ?? null) : null };
}

const HISTORY = 30;

/** A bike's memory: carburettors, newest sheets of each kind, quotes, jobs and what is due; null when there is none. */
export async function getBike(shop: ShopHandle, id: number) {
  const bike = await shop.read.bike.findUnique({
    where: { id },
    select: {
      id: true,
      version: true,
      customerId: true,
      modelCardId: true,
      year: true,
      plate: true,
      frameNumber: true,
      colour: true,
      odometerKm: true,
      complaint: true,
      notes: true,
      severityId: true,
      severity: { select: { name: true, factor: true } },
      createdAt: true,
      customer: { select: { id: true, name: true, phone: true } },
      modelCard: {
        select: {
          id: true,
          make: true,
          model: true,
          displacementCc: true,
          cylinders: true,
          carburettorType: true,
          serviceKm: true,
          serviceMonths: true,
        },
      },
      carburettors: { select: { position: true, label: true, marking: true }, orderBy: { position: "asc" } },
      quotes: {
        select: { id: true, number: true, title: true, state: true, grossMinor: true, createdAt: true },
        orderBy: { id: "desc" },
        take: HISTORY,
      },
      jobs: {
        select: {
          id: true,
          number: true,
          title: true,
          state: true,
          stopped: true,
          arrivedAt: true,
          createdAt: true,
        },
        orderBy: { id: "desc" },
        take: HISTORY,
      },
      runAnswers: {
        select: { id: true, jobId: true, answer: true, words: true, at: true, seenAt: true },
        orderBy: { id: "desc" },
        take: 5,
      },
      followUps: {
        where: { state: "due" },
        select: { id: true, what: true, dueOn: true, dueKm: true, kmWhy: true },
        orderBy: [{ dueOn: "asc" }, { id: "asc" }],
        take: HISTORY,
      },
    },
  });
  return bike && { ...bike, latest: await latestSheets(shop, id) };
}

const detailsOf = (
  input: Omit<BikeInput, "id" | "version" | "over" | "customerId" | "modelCardId" | "carburettors">,
) => ({
  year: input.year,
  plate: input.plate,
  frameNumber: input.frameNumber,
  colour: input.colour,
  odometerKm: input.odometerKm,
  complaint: input.complaint,
  notes: input.notes,
  severityId: input.severityId,
});

async function demandSeverity(tx: ShopTx, id: number | null): Promise<void> {
  if (id === null || (await tx.severity.findUnique({ where: { id }, select: { id: true } }))) return;
  throw new Refusal("This use is not among the shop's.", "Choose one from the list.", {
    severityId: "Choose one from the list.",
  });
}

async function ownerAndCard(tx: ShopTx, customerId: number, modelCardId: number) {
  const customer = await tx.customer.findUnique({ where: { id: customerId }, select: { name: true } });
  if (!customer)
    throw new Refusal("There is no such customer.", "Choose one from the list.", {
      customerId: "Choose a customer.",
    });
  const card = await tx.modelCard.findUnique({
    where: { id: modelCardId },
    select: { make: true, model: true, carburettors: true },
  });
  if (!card)
    throw new Refusal("There is no such model card.", "Choose one from the list.", {
      modelCardId: "Choose a model card.",
    });
  return { customer, card };
}

/** Makes a bike for a customer, on a known model card or a new smallest one, with its carburettors; once per key. */
export async function createBike(shop: ShopHandle, input: NewBikeInput, key?: string): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "added a bike", { ...input, key }, () => createBikeIn(tx, shop, input)),
  );
}

async function createBikeIn(tx: ShopTx, shop: ShopHandle, input: NewBikeInput): Promise<number> {
  const { make, model, displacementCc, cylinders, carburettors, carburettorType } =
    input.card === "new" ? input : EMPTY;
  const modelCardId =
    input.card === "known"
      ? input.modelCardId
      : await createModelCardIn(tx, shop, {
          make,
          model,
          displacementCc,
          cylinders,
          carburettors,
          carburettorType,
        });
  const { customer, card } = await ownerAndCard(tx, input.customerId, modelCardId);
  const details = detailsOf(input);
  await demandSeverity(tx, details.severityId);
  const bike = await tx.bike.create({
    data: {
      ...details,
      customerId: input.customerId,
      modelCardId,
      searchKey: bikeKey(details, card, customer),
      createdAt: shop.now,
      carburettors: {
        create: carburettorLabels(card.carburettors).map((label, at) => ({ position: at + 1, label })),
      },
    },
    select: { id: true },
  });
  await audit(tx, shop, "added", "bike", bike.id, { customerId: input.customerId, modelCardId });
  return bike.id;
}

const EMPTY = { make: "", model: "", displacementCc: 0, cylinders: 1, carburettors: 1, carburettorType: "" };

const NAMES: Readonly<Record<string, string>> = {
  customerId: "the customer",
  modelCardId: "the model card",
  frameNumber: "the frame number",
  odometerKm: "the odometer",
  severityId: "its use",
};

/** Changes a bike from the version the form was drawn with; carburettors keep their number, their labels and markings may change. */
export async function changeBike(shop: ShopHandle, input: BikeInput): Promise<number> {
  const { id } = input;
  return shop.write(async (tx) => {
    const before = await tx.bike.findUnique({
      where: { id },
      include: { carburettors: { orderBy: { position: "asc" } } },
    });
    if (!before) throw await mergedOrMissing(tx, "bike", id);
    const { customer, card } = await ownerAndCard(tx, input.customerId, input.modelCardId);
    if (card.carburettors !== before.carburettors.length && input.modelCardId !== before.modelCardId)
      throw new Refusal(
        `A ${card.make} ${card.model} has ${card.carburettors}, and this bike ${before.carburettors.length} carburettors with sheets kept for each.`,
        "Choose a card with as many carburettors, or make a new bike.",
        { modelCardId: "Has another number of carburettors." },
      );
    await demandSeverity(tx, input.severityId);
    const seen = versionToReplace(input);
    const fields = { customerId: input.customerId, modelCardId: input.modelCardId, ...detailsOf(input) };
    await demandOne(
      tx.bike.updateMany({
        where: { id, version: seen },
        data: { ...fields, searchKey: bikeKey(fields, card, customer), version: { increment: 1 } },
      }),
      () => changedMeanwhile(tx, "bike", "bike", id, seen, before.version, NAMES),
    );
    const was: Record<string, string | number | null> = Object.fromEntries(
      Object.keys(fields).map((key) => [key, before[key as keyof typeof fields]]),
    );
    const is: Record<string, string | number | null> = { ...fields };
    for (const carburettor of before.carburettors) {
      const typed = input.carburettors[String(carburettor.position)];
      if (!typed) continue;
      const data = { label: typed.label || carburettor.label, marking: typed.marking };
      await tx.carburettor.updateMany({ where: { id: carburettor.id }, data });
      for (const part of ["label", "marking"] as const) {
        was[`carburettors.${carburettor.position}.${part}`] = carburettor[part];
        is[`carburettors.${carburettor.position}.${part}`] = data[part];
      }
    }
    await auditChange(tx, shop, "bike", id, seen + 1, was, is);
    return id;
  });
}
