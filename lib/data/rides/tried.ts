import type { ShopReader, ShopTx } from "@/lib/db/shop";
import { settingDef } from "@/lib/domain/tuning/settings";

/** A change that was made after a ride, and what the next ride said of it. */
export interface TriedChange {
  readonly id: number;
  readonly setting: string;
  readonly from: number;
  readonly to: number;
  readonly at: Date;
  readonly jobId: number;
  readonly jobNumber: string;
  /** False where a later sheet of the job says another value. */
  readonly kept: boolean;
  /** What it did, in words. */
  readonly result: string;
  /** The whole in a sentence. */
  readonly words: string;
}

type Reads = Pick<ShopReader, "correction" | "settingSheet"> | Pick<ShopTx, "correction" | "settingSheet">;
const MOST = 40;
const PLACE: Readonly<Record<string, string>> = {
  closed: "closed throttle",
  eighth: "an eighth",
  quarter: "a quarter",
  half: "half",
  threeQuarter: "three quarters",
  full: "full throttle",
};

/** What was tried on a bike after its rides, newest first: what was kept and what was taken back, each with what it did. */
export async function triedOn(reads: Reads, bikeId: number): Promise<readonly TriedChange[]> {
  const rows = await reads.correction.findMany({
    where: { acceptedAt: { not: null }, ride: { job: { bikeId } } },
    select: {
      id: true,
      setting: true,
      fromValue: true,
      toValue: true,
      acceptedAt: true,
      rideId: true,
      ride: {
        select: {
          job: {
            select: {
              id: true,
              number: true,
              rides: {
                select: {
                  id: true,
                  good: true,
                  observations: { select: { throttle: true, sign: true }, orderBy: { id: "asc" }, take: 12 },
                },
                orderBy: { id: "asc" },
                take: 30,
              },
            },
          },
        },
      },
    },
    orderBy: { id: "desc" },
    take: MOST,
  });
  if (rows.length === 0) return [];
  const sheets = await reads.settingSheet.findMany({
    where: { bikeId, kind: { in: ["target", "asLeft"] }, jobId: { not: null } },
    select: {
      jobId: true,
      values: { select: { setting: true, value: true }, orderBy: { carburettor: "asc" } },
    },
    orderBy: { id: "desc" },
    take: 200,
  });
  return rows.map(({ ride, rideId, fromValue, toValue, acceptedAt, ...row }) => {
    const { job } = ride;
    const next = job.rides.find((one) => one.id > rideId);
    const last = sheets
      .find((sheet) => sheet.jobId === job.id && sheet.values.some((v) => v.setting === row.setting))
      ?.values.find((v) => v.setting === row.setting)?.value;
    const kept = last === undefined || Math.abs(last - toValue) < 1e-9;
    const result = next === undefined ? "not ridden yet" : next.good ? "good" : felt(next.observations);
    const def = settingDef(row.setting);
    const at = acceptedAt ?? new Date(0);
    const unit = def?.unit ? ` ${def.unit}` : "";
    return {
      ...row,
      from: fromValue,
      to: toValue,
      at,
      jobId: job.id,
      jobNumber: job.number,
      kept,
      result,
      words: `${def?.name ?? row.setting} ${fromValue} to ${toValue}${unit} on job ${job.number}: ${result}${kept ? "" : "; taken back"}`,
    };
  });
}

function felt(observations: readonly { throttle: string; sign: string }[]): string {
  const off = observations.filter((one) => one.sign !== "good");
  return off.map((one) => `${one.sign} at ${PLACE[one.throttle] ?? one.throttle}`).join(", ") || "not good";
}
