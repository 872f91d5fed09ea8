import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopReader, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { NeedleRecord } from "@/lib/domain/tuning/needleRecord";
import type { HowKnown } from "@/lib/domain/tuning/settings";
import { type FittedNeedleInput, NeedleRecordSchema, recordOf } from "@/lib/schemas/needles";
import { howKnown } from "./delivered";
import { saveSheetIn } from "./sheets";

export type NeedleState = "found" | "target" | "made" | "left";

/** A needle of a bike as it was described once. */
export interface KeptNeedle {
  readonly id: number;
  readonly carburettor: number;
  readonly state: NeedleState;
  readonly record: NeedleRecord;
  readonly how: HowKnown;
  readonly jobId: number | null;
  readonly sheetId: number | null;
  /** "read": put together from readings of the job's card; "taken back": those readings count no longer. Empty: a person wrote it. */
  readonly onCard: "" | "read" | "taken back";
  readonly takenAt: Date;
}

export type NeedleReads = Pick<ShopReader, "fittedPart"> | Pick<ShopTx, "fittedPart">;

const SELECT = {
  id: true,
  carburettor: true,
  state: true,
  facts: true,
  how: true,
  jobId: true,
  sheetId: true,
  onCard: true,
  takenAt: true,
} as const satisfies Prisma.FittedPartSelect;
const MOST = 60;

/** What was written of a bike's needles and still counts, newest first. */
export async function needlesOf(
  reads: NeedleReads,
  bikeId: number,
  where: Prisma.FittedPartWhereInput = {},
): Promise<readonly KeptNeedle[]> {
  return (await needleHistory(reads, bikeId, where)).filter((needle) => !needle.takenBack);
}

/** A needle as it was written, and whether the readings that it was put together from were taken back. */
export interface WrittenNeedle extends KeptNeedle {
  readonly takenBack: boolean;
}

/** All that was written of a bike's needles, newest first. */
export async function needleHistory(
  reads: NeedleReads,
  bikeId: number,
  where: Prisma.FittedPartWhereInput = {},
): Promise<readonly WrittenNeedle[]> {
  const rows = await reads.fittedPart.findMany({
    where: { AND: [{ bikeId, kind: "needle" }, where] },
    select: SELECT,
    orderBy: { id: "desc" },
    take: MOST,
  });
  const takenBack = new Set<string>();
  return rows.flatMap(({ facts, how, state, onCard, ...row }) => {
    const place = `${row.jobId} ${row.carburettor} ${state}`;
    if (onCard === "taken back") takenBack.add(place);
    return onCard === "taken back"
      ? []
      : [
          {
            ...row,
            state: state as NeedleState,
            how: howKnown(how),
            record: NeedleRecordSchema.parse(facts),
            onCard: onCard as KeptNeedle["onCard"],
            takenBack: onCard === "read" && takenBack.has(place),
          },
        ];
  });
}

/** The needle in each carburettor, by position: the newest that is no target. */
export async function fittedNeedles(
  reads: NeedleReads,
  bikeId: number,
): Promise<ReadonlyMap<number, KeptNeedle>> {
  return newestByPlace(await needlesOf(reads, bikeId, { state: { not: "target" } }));
}

/** The first of each carburettor in a list, by position. */
function newestByPlace(newestFirst: readonly KeptNeedle[]): ReadonlyMap<number, KeptNeedle> {
  return new Map(newestFirst.toReversed().map((needle) => [needle.carburettor, needle]));
}

export interface NewNeedle {
  readonly bikeId: number;
  readonly carburettor: number;
  readonly state: NeedleState;
  readonly record: NeedleRecord;
  readonly how: HowKnown;
  readonly jobId?: number | null;
  readonly sheetId?: number | null;
  readonly onCard?: KeptNeedle["onCard"];
}

/** Writes a needle down inside a transaction of the caller's; earlier descriptions stay. */
export async function keepNeedleIn(tx: ShopTx, shop: ShopHandle, needle: NewNeedle): Promise<number> {
  const { record, jobId = null, sheetId = null, ...same } = needle;
  const { id } = await tx.fittedPart.create({
    data: {
      ...same,
      kind: "needle",
      facts: NeedleRecordSchema.parse(record),
      jobId,
      sheetId,
      takenAt: shop.now,
      staffId: shop.by.staffId,
    },
    select: { id: true },
  });
  const what = needle.onCard === "taken back" ? "took a needle's readings back" : "recorded a needle";
  await audit(tx, shop, what, "bike", needle.bikeId, {
    fittedPartId: id,
    state: needle.state,
    carburettor: needle.carburettor,
    stations: record.stations.length,
  });
  return id;
}

const HEIGHTS = ["clipPosition", "needleSeatMm", "needleShimBelowMm", "needleShimAboveMm"] as const;

/**
 * Records a needle as a person measured it, once per key: as found with a sheet of where it sits, or as made on a job. Refuses a
 * clip on a needle without grooves, and a needle of which nothing is said.
 */
export async function recordNeedle(
  shop: ShopHandle,
  input: FittedNeedleInput & { readonly key?: string | undefined },
): Promise<number> {
  const record = recordOf(input);
  demandSomething(input, record);
  return shop.write((tx) =>
    once(tx, shop, "recorded a needle", input, async () => {
      await demandPlaceIn(tx, input);
      const values = HEIGHTS.flatMap((setting) => {
        const value = input[setting];
        return value === null
          ? []
          : [
              {
                carburettor: input.carburettor,
                setting,
                value,
                how: setting === "clipPosition" ? "read" : "measured",
              },
            ];
      });
      const jobId = input.jobId ?? null;
      const sheetId =
        input.state === "found" && values.length > 0
          ? await saveSheetIn(tx, shop, {
              bikeId: input.bikeId,
              jobId,
              kind: "asFound",
              values,
              note: "Where the needle sits, measured with the needle.",
            })
          : null;
      return keepNeedleIn(tx, shop, {
        bikeId: input.bikeId,
        carburettor: input.carburettor,
        state: input.state,
        record,
        how: "measured",
        jobId,
        sheetId,
      });
    }),
  );
}

function demandSomething(input: FittedNeedleInput, record: NeedleRecord): void {
  if (record.stations.length === 0 && record.grooves === null && record.marks === "")
    throw new Refusal(
      "Nothing is said of the needle.",
      "Measure it at two stations or more, count its grooves, or read its marks.",
      {
        "stations.1.at": "Enter the first station.",
      },
    );
  if (record.grooves === 0 && input.clipPosition !== null)
    throw new Refusal(
      "A needle without grooves has no clip.",
      "Empty the clip's groove, or count the grooves again.",
      {
        clipPosition: "This needle has no grooves.",
      },
    );
  if (record.grooves !== null && (input.clipPosition ?? 0) > record.grooves)
    throw new Refusal(`The needle has ${record.grooves} grooves.`, "Count them from the top again.", {
      clipPosition: `1 to ${record.grooves}.`,
    });
  if (input.state === "made" && input.jobId === undefined)
    throw new Refusal("A needle is made on a job.", "Record it from the job, or as found.");
}

async function demandPlaceIn(tx: ShopTx, { bikeId, carburettor, jobId }: FittedNeedleInput): Promise<void> {
  const place = await tx.carburettor.findFirst({
    where: { bikeId, position: carburettor },
    select: { id: true },
    orderBy: { id: "asc" },
  });
  if (!place)
    throw new Refusal("The bike has no such carburettor.", "Choose a bike from the list.", {}, "missing");
  if (jobId === undefined) return;
  const job = await tx.job.findFirst({
    where: { id: jobId, bikeId },
    select: { id: true },
    orderBy: { id: "asc" },
  });
  if (!job) throw new Refusal("There is no such job on this bike.", "Open it from the list.", {}, "missing");
}
