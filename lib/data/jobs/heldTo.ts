import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopReader, ShopTx } from "@/lib/db/shop";
import { MAKES_NEEDLE } from "@/lib/domain/packages/needleOption";
import { heldAgainst, LIMIT_FACTS, wearLimit } from "@/lib/domain/tuning/wearLimits";

/** A hold point, as far as its limits go. */
export interface Held {
  readonly measures: string;
  readonly station: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** Limits that a reading is held to; `from` says whose they are where they are not the hold point's own. */
export interface Limits {
  readonly low: number | null;
  readonly high: number | null;
  readonly from: string;
}

const LIMITS = {
  where: { key: { in: [...LIMIT_FACTS] } },
  select: { key: true, value: true, text: true, how: true },
  orderBy: { id: "asc" },
} satisfies Prisma.ModelCard$factsArgs;

type Reads = Pick<ShopReader, "bike" | "step"> | Pick<ShopTx, "bike" | "step">;

/**
 * The limits of a job's readings: those of each hold point and those of the bike's model card. What a step of the job makes, such
 * as a spring's length or a needle, is held to the card only as found, before that step.
 */
export async function limitsOn(
  reads: Reads,
  job: { readonly id: number; readonly bikeId: number },
): Promise<(hold: Held, position: number) => Limits> {
  const [bike, steps] = await Promise.all([
    // From the bike to its card: the other way round every card's facts would be walked.
    reads.bike.findUnique({
      where: { id: job.bikeId },
      select: { modelCard: { select: { facts: LIMITS } } },
    }),
    reads.step.findMany({
      where: { jobId: job.id, kind: "operation", state: { not: "skipped" } },
      select: { position: true, makes: true },
      orderBy: { position: "asc" },
      take: 500,
    }),
  ]);
  const facts = bike?.modelCard.facts ?? [];
  const madeBy = (measures: string, position: number) =>
    steps.some(
      (step) =>
        step.position <= position &&
        (step.makes as string[]).includes(measures === "needleMm" ? MAKES_NEEDLE : measures),
    );
  return (hold, position) =>
    heldAgainst(
      hold,
      hold.measures === "" || madeBy(hold.measures, position)
        ? null
        : wearLimit(hold.measures, hold.station, facts),
    );
}

/** “3 to 3.3”, “up to 2.65 of the model card”. */
export function limitsText({ low, high, from }: Limits): string {
  const range = low === null ? `up to ${high}` : high === null ? `from ${low}` : `${low} to ${high}`;
  return from ? `${range}, the limit of the ${from}` : range;
}
