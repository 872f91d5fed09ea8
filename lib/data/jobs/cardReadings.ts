import type { ShopReader } from "@/lib/db/shop";
import type { CardReading } from "@/lib/domain/sheets/handedOver";
import { standing } from "@/lib/domain/sheets/standing";

/** The newest reading of every hold point of a job's done work, on each carburettor, in the order of the card. */
export async function cardReadings(
  reads: Pick<ShopReader, "holdPoint">,
  jobId: number,
): Promise<CardReading[]> {
  const rows = await reads.holdPoint.findMany({
    where: { kind: "reading", step: { jobId, kind: "operation", state: "done" }, readings: { some: {} } },
    select: {
      name: true,
      unit: true,
      measures: true,
      station: true,
      carburettor: true,
      low: true,
      high: true,
      overrideReason: true,
      takenBackTo: true,
      readings: {
        select: { id: true, value: true, low: true, high: true, carburettor: true },
        orderBy: { id: "desc" },
        take: 20,
      },
    },
    orderBy: [{ step: { position: "asc" } }, { position: "asc" }, { id: "asc" }],
    take: 500,
  });
  return rows.flatMap(({ readings, takenBackTo, ...hold }) => {
    const newest = [
      ...Map.groupBy(standing({ readings, takenBackTo }), (one) => one.carburettor).values(),
    ].flatMap((own) => own[0] ?? []);
    return newest.flatMap(({ value, low, high, carburettor }) =>
      value === null
        ? []
        : [
            {
              ...hold,
              value,
              low: low ?? hold.low,
              high: high ?? hold.high,
              carburettor: hold.carburettor ?? carburettor,
            },
          ],
    );
  });
}
