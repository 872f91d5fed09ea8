import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { type BandFrom, balance, type VacuumUnit, vacuumIn } from "@/lib/domain/procedures/vacuum";
import { Refusal } from "@/lib/domain/refusal";
import type { BalanceInput } from "@/lib/schemas/balances";
import { limitsOn } from "./heldTo";
import { takeReadingsIn } from "./readings";
import { stepIn } from "./steps";

/** What a hold point measures that takes a balance's difference. */
export const BALANCE_READING = "vacuumSpreadKpa";

/**
 * Keeps what the gauges of all carburettors said at once. On a step whose hold point measures the difference, the hold point takes
 * it once it lies inside its limits: while screws are turned, readings outside them are no fault and stop nothing.
 */
export async function recordBalance(shop: ShopHandle, input: BalanceInput): Promise<{ inBand: boolean }> {
  return shop.write((tx) => once(tx, shop, "recorded a balance", input, () => recordIn(tx, shop, input)));
}

async function recordIn(tx: ShopTx, shop: ShopHandle, input: BalanceInput): Promise<{ inBand: boolean }> {
  const { readings, key: _, ...said } = input;
  const bike = await tx.bike.findUnique({
    where: { id: input.bikeId },
    select: { carburettors: { select: { position: true, label: true }, orderBy: { position: "asc" } } },
  });
  if (!bike) throw new Refusal("There is no such bike.", "Choose a bike from the list.", {}, "missing");
  demandEach(bike.carburettors, readings);
  await demandPlace(tx, input);
  const { id } = await tx.vacuumBalance.create({
    data: {
      ...said,
      jobId: input.jobId ?? null,
      stepId: input.stepId ?? null,
      at: shop.now,
      staffId: shop.by.staffId,
      readings: { create: readings },
    },
    select: { id: true },
  });
  const found = balance(readings, input.band);
  if (input.stepId !== undefined) await holdIn(tx, shop, input.stepId, input.unit, found.spread);
  await audit(tx, shop, "recorded", "vacuum balance", id, {
    bikeId: input.bikeId,
    jobId: input.jobId ?? null,
  });
  return { inBand: found.inBand };
}

function demandEach(
  carburettors: readonly { readonly position: number; readonly label: string }[],
  readings: BalanceInput["readings"],
): void {
  if (carburettors.length < 2)
    throw new Refusal(
      "This bike has one carburettor: there is nothing to balance it with.",
      "Add the others to the bike first.",
    );
  const missing = carburettors.filter(
    ({ position }) => !readings.some((one) => one.carburettor === position),
  );
  if (missing.length > 0)
    throw new Refusal(
      `All carburettors are read at once: ${missing.map((one) => one.label).join(" and ")} is missing.`,
      "Enter what its gauge says.",
      Object.fromEntries(missing.map((one) => [`values.${one.position}`, "Enter what its gauge says."])),
    );
  if (readings.length > carburettors.length)
    throw new Refusal("The bike has fewer carburettors now.", "Open it again.", {}, "conflict");
}

async function demandPlace(tx: ShopTx, { bikeId, jobId, stepId }: BalanceInput): Promise<void> {
  if (jobId === undefined && stepId === undefined) return;
  const job =
    jobId === undefined
      ? null
      : await tx.job.findUnique({ where: { id: jobId }, select: { id: true, bikeId: true, number: true } });
  if (!job) throw new Refusal("There is no such job.", "Choose a job of this bike.", {}, "missing");
  if (job.bikeId !== bikeId)
    throw new Refusal(`Job ${job.number} is on another bike.`, "Choose a job of this bike.");
  if (stepId === undefined) return;
  const step = await tx.step.findUnique({ where: { id: stepId }, select: { jobId: true } });
  if (step?.jobId !== job.id)
    throw new Refusal("This step is not of this job.", "Open the card again.", {}, "missing");
}

/** Hands the difference to the step's open hold point where it lies inside. */
async function holdIn(
  tx: ShopTx,
  shop: ShopHandle,
  stepId: number,
  unit: VacuumUnit,
  spread: number,
): Promise<void> {
  const step = await stepIn(tx, stepId);
  if (step.state !== "todo") return;
  const limitsOf = await limitsOn(tx, { id: step.jobId, bikeId: step.job.bikeId });
  const value = Number(vacuumIn(spread, unit, "kPa").toFixed(2));
  const open = step.holdPoints.filter((hold) => {
    const { low, high } = limitsOf(hold, step.position);
    const inside = (low === null || value >= low) && (high === null || value <= high);
    return hold.kind === "reading" && hold.measures === BALANCE_READING && !hold.passed && inside;
  });
  await takeReadingsIn(
    tx,
    shop,
    step,
    open.map((hold) => ({ holdPointId: hold.id, value })),
  );
}

const VIEW = {
  id: true,
  at: true,
  staffId: true,
  rpm: true,
  unit: true,
  band: true,
  bandFrom: true,
  note: true,
  stepId: true,
  job: { select: { id: true, number: true } },
  readings: { select: { carburettor: true, value: true }, orderBy: { carburettor: "asc" }, take: 4 },
} satisfies Prisma.VacuumBalanceSelect;

type Row = Prisma.VacuumBalanceGetPayload<{ select: typeof VIEW }>;

const told = ({ readings, unit, bandFrom, ...row }: Row) => ({
  ...row,
  unit: unit as VacuumUnit,
  bandFrom: bandFrom as BandFrom,
  ...balance(readings, row.band),
});
export type BalanceView = ReturnType<typeof told>;

const PAGE = 30;

/** A bike's balances, newest first; of one job where it is given. */
export async function balancesOf(
  shop: ShopHandle,
  where: { readonly bikeId: number; readonly jobId?: number },
  after?: number,
): Promise<{ rows: BalanceView[]; next: number | null }> {
  const rows = await shop.read.vacuumBalance.findMany({
    where,
    select: VIEW,
    orderBy: { id: "desc" },
    take: PAGE + 1,
    ...(after ? { cursor: { id: after }, skip: 1 } : {}),
  });
  const page = rows.slice(0, PAGE);
  return { rows: page.map(told), next: rows.length > PAGE ? (page.at(-1)?.id ?? null) : null };
}

/** Unit and band of the newest balance of a bike's model: what the next one begins with. Null where there is none. */
export async function lastBand(
  shop: ShopHandle,
  bikeId: number,
): Promise<{ unit: VacuumUnit; band: number; bandFrom: BandFrom } | null> {
  const row = await shop.read.vacuumBalance.findFirst({
    where: { bike: { modelCard: { bikes: { some: { id: bikeId } } } } },
    select: { unit: true, band: true, bandFrom: true },
    orderBy: { id: "desc" },
  });
  return row && { unit: row.unit as VacuumUnit, band: row.band, bandFrom: row.bandFrom as BandFrom };
}
