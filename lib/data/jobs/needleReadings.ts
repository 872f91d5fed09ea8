import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { MAKES_NEEDLE } from "@/lib/domain/packages/needleOption";
import { standing } from "@/lib/domain/sheets/standing";
import { modelCardFacts } from "@/lib/domain/tuning/modelCardFacts";
import {
  type NeedleBefore,
  type NeedleReading,
  recordWithReadings,
  UNREAD_NEEDLE,
} from "@/lib/domain/tuning/needleReadings";
import type { NeedleRecord } from "@/lib/domain/tuning/needleRecord";
import type { NeedleShape } from "@/lib/domain/tuning/targetTypes";
import { type KeptNeedle, keepNeedleIn, needlesOf } from "../bikes/needles";

/** What a hold point measures that reads a needle's diameter. */
export const NEEDLE_READING = "needleMm";

type State = "found" | "made";

interface ReadOnCard extends NeedleReading {
  readonly state: State;
  readonly carburettor: number;
  readonly at: Date;
}

interface JobOfBike {
  readonly id: number;
  readonly bikeId: number;
}

/**
 * Writes the diameters that a job's card read into the bike's needle records, anew whenever these readings change: those taken before
 * the step that makes the needle as found, those at it or later as made. What a person records of the needle is what later readings
 * are put into. Where readings were taken back, a row says that what was put together from them counts no longer.
 */
export async function keepNeedleReadingsIn(tx: ShopTx, shop: ShopHandle, job: JobOfBike): Promise<void> {
  const read = await readOnCard(tx, job);
  if (read === null) return;
  const [all, delivered] = await Promise.all([needlesOf(tx, job.bikeId), deliveredIn(tx, job.bikeId)]);
  for (const carburettor of new Set([...read, ...all].map((one) => one.carburettor))) {
    const here = all.filter((needle) => needle.carburettor === carburettor);
    const keep = async (state: State, record: NeedleRecord, onCard: "read" | "taken back") => {
      const { id: jobId, bikeId } = job;
      await keepNeedleIn(tx, shop, { bikeId, jobId, carburettor, state, record, onCard, how: "measured" });
    };
    let found = UNREAD_NEEDLE;
    for (const state of ["found", "made"] as const) {
      const before = beforeOf(here, job.id, state, found);
      const taken = read.filter(
        (one) => one.carburettor === carburettor && one.state === state && one.at >= before.since,
      );
      const kept = here.find((one) => one.jobId === job.id && one.state === state && one.onCard === "read");
      const record = taken.length === 0 ? before.record : recordWithReadings(before, taken, delivered);
      if (state === "found") found = record;
      if (taken.length > 0 && JSON.stringify(kept?.record) !== JSON.stringify(record))
        await keep(state, record, "read");
      if (taken.length === 0 && kept && kept.takenAt >= before.since)
        await keep(state, kept.record, "taken back");
    }
  }
}

/** The needle that readings of a card are put into, and since when it is known. */
function beforeOf(
  newestFirst: readonly KeptNeedle[],
  jobId: number,
  state: State,
  found: NeedleRecord,
): NeedleBefore & { readonly since: Date } {
  const last = newestFirst
    .filter((one) => one.jobId !== jobId || one.onCard !== "read")
    .find((one) =>
      state === "found"
        ? one.state !== "target" && (one.jobId !== jobId || one.state === "found")
        : one.jobId === jobId && one.state !== "found",
    );
  if (last) return { record: last.record, measured: last.how === "measured", since: last.takenAt };
  return { record: found, measured: true, since: new Date(0) };
}

/** The newest standing reading of each hold point that reads a needle, on each carburettor; null where the card has no such hold point. */
async function readOnCard(tx: ShopTx, job: JobOfBike): Promise<ReadOnCard[] | null> {
  const holds = await tx.holdPoint.findMany({
    where: { kind: "reading", measures: NEEDLE_READING, step: { jobId: job.id } },
    select: {
      increment: true,
      station: true,
      carburettor: true,
      takenBackTo: true,
      step: { select: { position: true } },
      readings: {
        where: { value: { not: null } },
        select: { id: true, value: true, at: true, carburettor: true },
        orderBy: { id: "desc" },
        take: 40,
      },
    },
    orderBy: [{ step: { position: "asc" } }, { position: "asc" }],
    take: 200,
  });
  if (holds.length === 0) return null;
  const [steps, positions] = await Promise.all([
    tx.step.findMany({
      where: { jobId: job.id, kind: "operation", state: { not: "skipped" } },
      select: { position: true, makes: true },
      orderBy: { position: "asc" },
      take: 500,
    }),
    tx.carburettor.findMany({
      where: { bikeId: job.bikeId },
      select: { position: true },
      orderBy: { position: "asc" },
      take: 10,
    }),
  ]);
  const makers = steps.filter((step) => (step.makes as string[]).includes(MAKES_NEEDLE));
  const only = positions.length === 1 ? positions[0]?.position : undefined;
  return holds.flatMap((hold) => {
    const made = makers.some((step) => step.position <= hold.step.position);
    const newest = Map.groupBy(standing(hold), (one) => hold.carburettor ?? one.carburettor ?? only);
    return [...newest].flatMap(([carburettor, [reading]]): ReadOnCard[] =>
      carburettor === undefined || !reading || reading.value === null
        ? []
        : [
            {
              state: made ? "made" : "found",
              carburettor,
              stationMm: hold.station,
              diameterMm: reading.value,
              stepMm: hold.increment,
              at: reading.at,
            },
          ],
    );
  });
}

async function deliveredIn(tx: ShopTx, bikeId: number): Promise<NeedleShape | undefined> {
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
  return modelCardFacts(modelCard).needle?.value;
}
