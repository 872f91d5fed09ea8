import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopReader } from "@/lib/db/shop";
import { standing } from "@/lib/domain/sheets/standing";
import type { MeasuredOnce } from "@/lib/domain/sheets/trend";

/** Newest jobs that are looked back on. */
const JOBS = 200;

/** A reading of a job card that says what it measures, and of which bike. */
export interface BikeReading extends MeasuredOnce {
  readonly bikeId: number;
}

/** The readings of the newest jobs of these bikes that measure something, in the order in which they were taken. */
export async function readingsOn(
  reads: Pick<ShopReader, "job">,
  bikeIds: readonly number[],
  measures: Prisma.HoldPointWhereInput = { measures: { not: "" } },
): Promise<BikeReading[]> {
  const jobs = await reads.job.findMany({
    where: { bikeId: { in: [...bikeIds] } },
    select: {
      id: true,
      number: true,
      bikeId: true,
      odometerKm: true,
      steps: {
        where: { holdPoints: { some: measures } },
        select: {
          holdPoints: {
            where: measures,
            select: {
              measures: true,
              station: true,
              carburettor: true,
              takenBackTo: true,
              readings: {
                where: { value: { not: null } },
                select: { id: true, at: true, value: true, inside: true, carburettor: true },
                orderBy: { id: "asc" },
              },
            },
            orderBy: { id: "asc" },
          },
        },
        orderBy: { id: "asc" },
      },
    },
    orderBy: { id: "desc" },
    take: JOBS,
  });
  const found = jobs.flatMap(({ steps, ...job }) =>
    steps
      .flatMap((step) => step.holdPoints)
      .flatMap(({ readings, ...hold }) =>
        standing({ ...hold, readings }).flatMap(({ value, ...reading }): BikeReading[] =>
          value === null
            ? []
            : [
                {
                  ...reading,
                  value,
                  measures: hold.measures,
                  station: hold.station,
                  carburettor: hold.carburettor ?? reading.carburettor,
                  bikeId: job.bikeId,
                  odometerKm: job.odometerKm,
                  jobId: job.id,
                  jobNumber: job.number,
                },
              ],
        ),
      ),
  );
  return found.sort((a, b) => a.id - b.id);
}
