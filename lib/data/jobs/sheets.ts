import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle, ShopReader, ShopTx } from "@/lib/db/shop";
import { madeValues, readValues, type SettingReading, type SettingStep } from "@/lib/domain/sheets/afterJob";
import { newestOfEach } from "@/lib/domain/sheets/fitted";
import { standing } from "@/lib/domain/sheets/standing";
import type { TargetSheet } from "@/lib/domain/tuning/targetTypes";
import { fittedOn } from "../bikes/fitted";
import { fittedNeedles } from "../bikes/needles";

const SHEET = {
  id: true,
  kind: true,
  takenAt: true,
  jobId: true,
  note: true,
  odometerKm: true,
  values: {
    select: { carburettor: true, setting: true, value: true, how: true },
    orderBy: { id: "asc" },
    take: 200,
  },
} satisfies Prisma.SettingSheetSelect;

export type SheetOfJob = Prisma.SettingSheetGetPayload<{ select: typeof SHEET }>;
type Value = SheetOfJob["values"][number];

export type SheetReads =
  | Pick<ShopReader, "settingSheet" | "step" | "carburettor" | "fittedPart">
  | Pick<ShopTx, "settingSheet" | "step" | "carburettor" | "fittedPart">;

export interface JobSheets {
  readonly asFound: SheetOfJob | null;
  readonly target: (SheetOfJob & { readonly calculation: Prisma.JsonValue }) | null;
  readonly asLeft: SheetOfJob | null;
  /** What is fitted once the steps of the card are done: found, made, and measured on the card last. */
  readonly fitted: SheetOfJob["values"];
  /** Of those, what a reading on the card measured. */
  readonly measured: SheetOfJob["values"];
}

/**
 * The sheets of a job. As found is what its own as-found sheet and its card's readings say, over what the bike's newest sheet of
 * another job says, as found or as left. Of the target only what a step of the card makes is taken for fitted: the rest of it
 * may be older than the bike.
 */
export async function sheetsOfJob(
  reads: SheetReads,
  job: { id: number; bikeId: number },
): Promise<JobSheets> {
  const newest = (kind: "asFound" | "asLeft") =>
    reads.settingSheet.findFirst({
      where: { bikeId: job.bikeId, jobId: job.id, kind },
      select: SHEET,
      orderBy: { id: "desc" },
    });
  const [own, target, asLeft, steps, carburettors, needles] = await Promise.all([
    newest("asFound"),
    reads.settingSheet.findFirst({
      where: { bikeId: job.bikeId, jobId: job.id, kind: "target" },
      select: { ...SHEET, calculation: true },
      orderBy: { id: "desc" },
    }),
    newest("asLeft"),
    settingSteps(reads, job.id),
    reads.carburettor.findMany({
      where: { bikeId: job.bikeId },
      select: { id: true },
      orderBy: { id: "asc" },
    }),
    fittedNeedles(reads, job.bikeId),
  ]);
  const end = asLeft?.id;
  const before = await fittedOn(reads, job.bikeId, {
    OR: [{ jobId: null }, { jobId: { not: job.id } }],
    ...(end === undefined ? {} : { id: { lt: end } }),
  });
  const read = readValues(steps.steps, steps.readings, Math.max(1, carburettors.length));
  // A needle that was looked at and has no grooves has no clip, whatever an older sheet says.
  const found = newestOfEach<Value>([
    { values: read.found },
    own ?? { values: [] },
    before ?? { values: [] },
  ]).filter((v) => v.setting !== "clipPosition" || needles.get(v.carburettor)?.record.grooves !== 0);
  const base = own ?? before;
  const made = madeValues(target?.values ?? [], steps.steps, changedBy(target?.calculation ?? null));
  return {
    asFound: found.length === 0 ? null : { ...(base ?? unwritten(job.id)), kind: "asFound", values: found },
    target,
    asLeft,
    measured: read.left,
    fitted: newestOfEach<Value>([{ values: read.left }, { values: made }, { values: found }]),
  };
}

/** Whether a target's calculation changes a setting; a target without one, as after a correction, holds what the job made. */
function changedBy(calculation: unknown): (setting: string) => boolean {
  const answered = calculation as TargetSheet | null;
  if (!answered?.carburettors) return () => true;
  const changed = answered.carburettors.flatMap((one) =>
    one.settings.filter(({ value, from }) => value !== from).map(({ key }) => key as string),
  );
  return (setting) => changed.includes(setting);
}

/** What the card's readings tell, where no sheet was recorded. */
const unwritten = (jobId: number): SheetOfJob => ({
  id: 0,
  kind: "asFound",
  takenAt: new Date(0),
  jobId,
  note: "",
  odometerKm: null,
  values: [],
});

/** The steps of a card with the settings that they make, and the newest reading of each hold point that measures something, on each carburettor. */
async function settingSteps(
  reads: SheetReads,
  jobId: number,
): Promise<{ steps: SettingStep[]; readings: SettingReading[] }> {
  const rows = await reads.step.findMany({
    where: { jobId },
    select: {
      position: true,
      state: true,
      makes: true,
      holdPoints: {
        where: { measures: { not: "" } },
        select: {
          measures: true,
          carburettor: true,
          takenBackTo: true,
          readings: {
            select: { id: true, value: true, carburettor: true },
            orderBy: { id: "desc" },
            take: 20,
          },
        },
        orderBy: { position: "asc" },
        take: 20,
      },
    },
    orderBy: { position: "asc" },
    take: 500,
  });
  return {
    steps: rows.map((row) => ({
      position: row.position,
      skipped: row.state === "skipped",
      makes: row.makes as string[],
    })),
    readings: rows.flatMap((row) =>
      row.holdPoints.flatMap((hold) => {
        const read = standing(hold).map((one) => ({
          ...one,
          carburettor: hold.carburettor ?? one.carburettor,
        }));
        return read.flatMap(({ value, carburettor }, at) =>
          value === null || read.findIndex((other) => other.carburettor === carburettor) < at
            ? []
            : [{ position: row.position, setting: hold.measures, carburettor, value }],
        );
      }),
    ),
  };
}

/** What a new sheet of a bike starts from: for a job what its card says, else the newest sheets of the bike. */
export async function draftOf(
  shop: ShopHandle,
  bikeId: number,
  jobId: number | undefined,
  kind: "asFound" | "asLeft",
): Promise<SheetOfJob["values"]> {
  if (jobId === undefined) return (await fittedOn(shop.read, bikeId))?.values ?? [];
  const sheets = await sheetsOfJob(shop.read, { id: jobId, bikeId });
  return kind === "asLeft" ? sheets.fitted : (sheets.asFound?.values ?? []);
}
