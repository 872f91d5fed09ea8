import type { ShopHandle, ShopReader, ShopTx } from "@/lib/db/shop";
import { MAKES_NEEDLE } from "@/lib/domain/packages/needleOption";
import { modelCardFacts } from "@/lib/domain/tuning/modelCardFacts";
import { knownNeedle } from "@/lib/domain/tuning/needleRecord";
import type { NeedleShape } from "@/lib/domain/tuning/targetTypes";
import { type KeptNeedle, keepNeedleIn, needlesOf } from "../bikes/needles";
import { makersOf } from "./makers";

/** The needle of one carburettor on a job. */
export interface JobNeedle {
  readonly carburettor: number;
  readonly found: KeptNeedle | null;
  readonly target: KeptNeedle | null;
  /** As measured after the work, or as left. */
  readonly made: KeptNeedle | null;
  /** What is in the carburettor once the card is done: as made, else the target where a step makes it, else as found. */
  readonly fitted: KeptNeedle | null;
}

export type JobNeedleReads = Pick<ShopReader, "fittedPart" | "step"> | Pick<ShopTx, "fittedPart" | "step">;

/** The needles of a job, for each carburettor of which anything was ever written. */
export async function needlesOfJob(
  reads: JobNeedleReads,
  job: { readonly id: number; readonly bikeId: number },
): Promise<readonly JobNeedle[]> {
  const all = await needlesOf(reads, job.bikeId);
  if (all.length === 0) return [];
  const steps = await makersOf(reads, job.id);
  const makers = steps.filter((step) => (step.makes as string[]).includes(MAKES_NEEDLE));
  const makes = makers.some((step) => step.state !== "skipped");
  const end = all.find((needle) => needle.jobId === job.id && needle.state === "left")?.id;
  return [...new Set(all.map((needle) => needle.carburettor))].sort().flatMap((carburettor) => {
    const here = all.filter((needle) => needle.carburettor === carburettor);
    const own = here.filter((needle) => needle.jobId === job.id);
    const of = (...states: KeptNeedle["state"][]) =>
      own.find((needle) => states.includes(needle.state)) ?? null;
    const before =
      here.find(
        (needle) =>
          needle.jobId !== job.id && needle.state !== "target" && (end === undefined || needle.id < end),
      ) ?? null;
    const found = of("found") ?? before;
    const [target, made] = [of("target"), of("made", "left")];
    const one = { carburettor, found, target, made, fitted: made ?? (makes ? target : null) ?? found };
    return found || target || made ? [one] : [];
  });
}

/** Writes what a job leaves, with its as-left sheet; answers the job's needles. */
export async function keepNeedlesLeftIn(
  tx: ShopTx,
  shop: ShopHandle,
  job: { readonly id: number; readonly bikeId: number },
  sheetId: number,
): Promise<readonly JobNeedle[]> {
  const needles = await needlesOfJob(tx, job);
  for (const { carburettor, fitted } of needles)
    if (fitted)
      await keepNeedleIn(tx, shop, {
        bikeId: job.bikeId,
        carburettor,
        state: "left",
        record: fitted.record,
        how: fitted.how,
        jobId: job.id,
        sheetId,
      });
  return needles;
}

/** The first carburettor's needle as evidence keeps it; nothing where none was recorded or its shape is not known. */
export async function needleShapeIn(
  tx: Pick<ShopTx, "bike">,
  bikeId: number,
  needles: readonly JobNeedle[],
): Promise<{ readonly needle?: NeedleShape }> {
  const record = needles[0]?.fitted?.record;
  if (!record) return {};
  const { modelCard } = await tx.bike.findUniqueOrThrow({
    where: { id: bikeId },
    select: {
      modelCard: {
        select: {
          displacementCc: true,
          cylinders: true,
          carburettorType: true,
          facts: { select: { key: true, value: true, text: true, how: true }, orderBy: { key: "asc" } },
        },
      },
    },
  });
  const needle = knownNeedle(record, modelCardFacts(modelCard));
  return needle ? { needle: needle.value } : {};
}
