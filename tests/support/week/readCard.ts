import type { ShopHandle } from "@/lib/db/shop";
import { fittedBefore } from "./readSheets";
import { Differences } from "./sums";

/** A job card as its paper is made from. */
export interface CardText {
  readonly number: string;
  readonly title: string;
  readonly customer: { readonly name: string };
  readonly bike: { readonly plate: string };
  readonly odometerKm?: number | null;
  readonly minutes: number;
  readonly steps: readonly {
    readonly position: number;
    readonly name: string;
    readonly minutes: number;
    readonly state: string;
    readonly holdPoints: readonly {
      readonly name: string;
      readonly passed: boolean;
      readonly readings: readonly { readonly value: number | null }[];
    }[];
    readonly settings: readonly {
      readonly def: { readonly key: string };
      readonly carburettor: number;
      readonly from: number | null;
      readonly to: number | null;
    }[];
    readonly parts: readonly { readonly wantedMilli: number; readonly part: { readonly code: string } }[];
  }[];
}

/** Whether a job's card says what its steps, readings, promises and sheets tell. */
export async function readCard(shop: ShopHandle, jobId: number, card: CardText): Promise<string[]> {
  const job = await shop.read.job.findUniqueOrThrow({
    where: { id: jobId },
    include: {
      customer: true,
      bike: true,
      steps: {
        orderBy: { position: "asc" },
        include: {
          holdPoints: { orderBy: { position: "asc" }, include: { readings: { orderBy: { id: "desc" } } } },
          reservations: {
            where: { state: { not: "released" } },
            include: { part: true },
            orderBy: { id: "asc" },
          },
        },
      },
    },
  });
  const diff = new Differences(`Card of job ${job.number}`);
  diff.same(
    "its head",
    [card.number, card.title, card.customer.name, card.bike.plate],
    [job.number, job.title, job.customer.name, job.bike.plate],
  );
  diff.same("the odometer", card.odometerKm, job.odometerKm);
  diff.same(
    "planned minutes",
    card.minutes,
    job.steps.reduce((sum, step) => sum + step.minutes, 0),
  );
  diff.same(
    "its steps",
    card.steps.map(({ position, name, minutes, state }) => [position, name, minutes, state]),
    job.steps.map(({ position, name, minutes, state }) => [position, name, minutes, state]),
  );

  const left = await shop.read.settingSheet.findFirst({
    where: { jobId, kind: "asLeft" },
    orderBy: { id: "desc" },
  });
  const found = await fittedBefore(shop, job.bikeId, {
    notJob: jobId,
    ...(left ? { beforeSheet: left.id } : {}),
  });
  const target = await shop.read.settingSheet.findFirst({
    where: { jobId, kind: "target" },
    include: { values: true },
    orderBy: { id: "desc" },
  });
  for (const [at, row] of job.steps.entries()) {
    const printed = card.steps[at];
    const readings = row.holdPoints.map((hold) => [hold.name, hold.passed, hold.readings[0]?.value ?? null]);
    diff.same(
      `readings of step ${row.position}`,
      printed?.holdPoints.map((hold) => [hold.name, hold.passed, hold.readings[0]?.value ?? null]),
      readings,
    );
    diff.same(
      `parts of step ${row.position}`,
      printed?.parts.map((one) => [one.part.code, one.wantedMilli]),
      row.reservations.map((one) => [one.part.code, one.wantedMilli]),
    );
    diff.same(
      `settings of step ${row.position}`,
      printed?.settings.map(({ def, carburettor, from, to }) => [def.key, carburettor, from, to]),
      (row.makes as string[]).flatMap((setting) => {
        const aimed = target?.values.filter((one) => one.setting === setting) ?? [];
        return aimed.map((one) => [
          setting,
          one.carburettor,
          found.get(`${one.carburettor} ${setting}`) ?? null,
          one.value,
        ]);
      }),
    );
  }
  return diff.found;
}
