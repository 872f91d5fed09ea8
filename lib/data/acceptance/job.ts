import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { demandOne } from "@/lib/db/guard";
import { nextWritten } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { searchKey } from "@/lib/domain/searchKey";
import type { SheetValue } from "@/lib/domain/sheets/check";
import { newestOfEach } from "@/lib/domain/sheets/fitted";
import { keepPartIn } from "../bikes/describedParts";
import { keepNeedleIn } from "../bikes/needles";
import { saveSheetIn } from "../bikes/sheets";
import type { FrozenQuote } from "../documents/quote";
import { sheetsOfJob } from "../jobs/sheets";
import { type ReservedBy, reserveIn } from "../stock/reservations";
import { leaveJetsOpenIn } from "./openJets";
import { addSteps, extendSteps } from "./steps";

export interface ShortPart {
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  readonly shortMilli: number;
  readonly reservedBy: readonly ReservedBy[];
}

/** What a yes made. */
export interface Accepted {
  readonly jobId: number;
  readonly jobNumber: string;
  /** What the job has less of than it needs, and which jobs have it. */
  readonly short: readonly ShortPart[];
  /** True when this had been accepted before. */
  readonly again: boolean;
}

export interface AcceptedWork {
  readonly revisionId: number;
  readonly frozen: FrozenQuote;
  readonly bikeId: number;
  readonly customerId: number;
  readonly title: string;
  readonly searchKey: string;
  readonly variationOf: { readonly id: number; readonly number: string } | null;
}

const FIRST_NUMBER = 601;

/** The job of an accepted quote, or the steps of an accepted variation on its card, planned anew: steps, target settings, reserved parts. */
export async function beginJob(
  tx: ShopTx,
  shop: ShopHandle,
  work: AcceptedWork,
): Promise<{ jobId: number; jobNumber: string; short: ShortPart[] }> {
  const job = work.variationOf ? await extend(tx, work) : await create(tx, shop, work);
  const stepIds = work.variationOf
    ? await extendSteps(tx, shop, job.id, work.revisionId, work.frozen)
    : await addSteps(tx, job.id, work.revisionId, work.frozen);
  const sheetId = await targetSheet(tx, shop, job.id, work);
  await targetParts(tx, shop, job.id, sheetId, work);
  const short = await reserveParts(tx, shop, job.id, work.frozen, stepIds);
  await leaveJetsOpenIn(tx, { id: job.id, bikeId: work.bikeId }, work.frozen, stepIds);
  return { jobId: job.id, jobNumber: job.number, short };
}

async function create(
  tx: ShopTx,
  shop: ShopHandle,
  work: AcceptedWork,
): Promise<{ id: number; number: string }> {
  const { number: sequence, written: number } = await nextWritten(tx, shop, "job", FIRST_NUMBER);
  const { customerId, bikeId, revisionId, title, frozen } = work;
  const { id } = await tx.job.create({
    data: {
      number,
      sequence,
      customerId,
      bikeId,
      revisionId,
      title,
      minutes: frozen.minutes,
      searchKey: searchKey(number, frozen.customer.name, frozen.bike.name, frozen.bike.plate, title),
      createdAt: shop.now,
    },
    select: { id: true },
  });
  return { id, number };
}

async function extend(tx: ShopTx, work: AcceptedWork): Promise<{ id: number; number: string }> {
  const { id, number } = work.variationOf as { id: number; number: string };
  await demandOne(
    tx.job.updateMany({
      where: { id, state: { notIn: ["invoiced", "closed", "cancelled"] } },
      data: { minutes: { increment: work.frozen.minutes }, version: { increment: 1 } },
    }),
    () =>
      new Refusal(
        `Job ${number} takes no more work.`,
        "Ask the shop for a quote of its own.",
        {},
        "conflict",
      ),
  );
  return { id, number };
}

async function targetSheet(
  tx: ShopTx,
  shop: ShopHandle,
  jobId: number,
  { bikeId, frozen, variationOf }: AcceptedWork,
): Promise<number | null> {
  const carburettors = await tx.carburettor.findMany({
    where: { bikeId },
    select: { position: true },
    orderBy: { position: "asc" },
  });
  const fitted = new Set(carburettors.map((c) => c.position));
  const own = frozen.settings.filter((s) => fitted.has(s.carburettor));
  // A variation knows nothing of what the job itself makes: it adds what it changes, and the rest stays as the job has it.
  const changed = own.filter((s) => s.value !== s.from);
  const values = variationOf
    ? newestOfEach<SheetValue>([
        { values: changed },
        { values: changed.length === 0 ? [] : (await sheetsOfJob(tx, { id: jobId, bikeId })).fitted },
      ])
    : own;
  if (values.length === 0) return null;
  const sheetId = await saveSheetIn(tx, shop, {
    bikeId,
    jobId,
    kind: "target",
    values,
    conditions: frozen.conditions as Prisma.InputJsonObject,
    ...(variationOf ? {} : { calculation: frozen.calculation as unknown as Prisma.InputJsonObject }),
    note: `From quote ${frozen.number}, revision ${frozen.revision}.`,
  });
  for (const { carburettor, record } of frozen.needles ?? [])
    if (fitted.has(carburettor))
      await keepNeedleIn(tx, shop, {
        bikeId,
        carburettor,
        state: "target",
        record,
        how: "computed",
        jobId,
        sheetId,
      });
  return sheetId;
}

async function targetParts(
  tx: ShopTx,
  shop: ShopHandle,
  jobId: number,
  sheetId: number | null,
  { bikeId, frozen }: AcceptedWork,
): Promise<void> {
  const places = await tx.carburettor.findMany({
    where: { bikeId },
    select: { position: true },
    orderBy: { position: "asc" },
    take: 10,
  });
  for (const { carburettor, after } of frozen.described ?? [])
    if (places.some((place) => place.position === carburettor))
      await keepPartIn(tx, shop, {
        bikeId,
        carburettor,
        state: "target",
        part: after,
        how: "computed",
        jobId,
        sheetId,
      });
}

async function reserveParts(
  tx: ShopTx,
  shop: ShopHandle,
  jobId: number,
  frozen: FrozenQuote,
  stepIds: ReadonlyMap<string, number>,
): Promise<ShortPart[]> {
  const short: ShortPart[] = [];
  for (const part of frozen.parts) {
    if (part.partId === null) continue;
    const stepId = part.operation === null ? undefined : stepIds.get(part.operation);
    const made = await reserveIn(tx, shop, {
      jobId,
      stepId,
      partId: part.partId,
      wantedMilli: part.quantityMilli,
    });
    if (made.shortMilli > 0)
      short.push({
        code: part.code,
        name: part.name,
        unit: part.unit,
        shortMilli: made.shortMilli,
        reservedBy: made.reservedBy,
      });
  }
  return short;
}
