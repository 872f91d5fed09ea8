import type { ShopHandle } from "@/lib/db/shop";
import { bikeName } from "../bikes/bikeName";

export type JobProgress = NonNullable<Awaited<ReturnType<typeof jobProgress>>>;

/** How far a job is, as its customer may know it: no names of people, no minutes, no notes. Null where there is no such job. */
export async function jobProgress(shop: ShopHandle, jobId: number) {
  const job = await shop.read.job.findUnique({
    where: { id: jobId },
    select: {
      number: true,
      title: true,
      state: true,
      arrivedAt: true,
      finishedAt: true,
      bike: { select: { year: true, plate: true, modelCard: { select: { make: true, model: true } } } },
      steps: { select: { kind: true, name: true, state: true }, orderBy: { position: "asc" }, take: 500 },
      bookings: {
        where: { state: "held" },
        select: { id: true, startsAt: true, endsAt: true, dropOffAt: true, pickUpAt: true, version: true },
        orderBy: { startsAt: "asc" },
        take: 10,
      },
    },
  });
  if (!job) return null;
  const settings = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { name: true, phone: true, email: true, address: true, locale: true, zone: true },
  });
  const { steps, bike, ...rest } = job;
  return {
    ...rest,
    bike: bikeName(bike),
    done: steps.filter((step) => step.state !== "todo").length,
    steps: steps.length,
    work: steps.filter((step) => step.kind === "operation").map(({ name, state }) => ({ name, state })),
    shop: settings,
  };
}
