import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import { dayIn } from "@/lib/domain/schedule/days";
import type { FollowUpQueryInput } from "@/lib/schemas/followUps";
import { bikeName } from "../bikes/bikeName";

const LINE = {
  id: true,
  what: true,
  dueOn: true,
  dueKm: true,
  kmWhy: true,
  state: true,
  outcome: true,
  doneAt: true,
  jobId: true,
  version: true,
  bike: {
    select: {
      id: true,
      year: true,
      plate: true,
      odometerKm: true,
      modelCard: { select: { make: true, model: true } },
      customer: { select: { id: true, name: true, phone: true, email: true } },
    },
  },
} satisfies Prisma.FollowUpSelect;

export type FollowUpLine = ReturnType<typeof lineOf>;

const TAKE = 50;

/** Follow-ups by the day they are due; each says whether its day or its distance has come. */
export async function listFollowUps(
  shop: ShopHandle,
  query: FollowUpQueryInput,
): Promise<{ rows: FollowUpLine[]; next: number | null }> {
  const { zone } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const last = query.after
    ? await shop.read.followUp.findUnique({ where: { id: query.after }, select: { id: true, dueOn: true } })
    : null;
  const rows = await shop.read.followUp.findMany({
    where: {
      state: query.state,
      ...(last ? { OR: [{ dueOn: { gt: last.dueOn } }, { dueOn: last.dueOn, id: { gt: last.id } }] } : {}),
    },
    select: LINE,
    orderBy: [{ dueOn: "asc" }, { id: "asc" }],
    take: TAKE + 1,
  });
  const page = rows.slice(0, TAKE).map((row) => lineOf(row, dayIn(zone, shop.now)));
  return { rows: page, next: rows.length > TAKE ? (page.at(-1)?.id ?? null) : null };
}

/** A bike's follow-ups, the next due first. */
export async function listFollowUpsOfBike(shop: ShopHandle, bikeId: number): Promise<FollowUpLine[]> {
  const { zone } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const rows = await shop.read.followUp.findMany({
    where: { bikeId },
    select: LINE,
    orderBy: { id: "desc" },
    take: 50,
  });
  return rows
    .map((row) => lineOf(row, dayIn(zone, shop.now)))
    .sort((a, b) => Number(b.state === "due") - Number(a.state === "due"));
}

function lineOf(row: Prisma.FollowUpGetPayload<{ select: typeof LINE }>, today: string) {
  const { bike, ...rest } = row;
  const byKm = row.dueKm !== null && bike.odometerKm !== null && bike.odometerKm >= row.dueKm;
  return {
    ...rest,
    bike: { id: bike.id, name: bikeName(bike), plate: bike.plate, odometerKm: bike.odometerKm },
    customer: bike.customer,
    dueNow: row.state === "due" && (byKm || row.dueOn <= today),
    why: byKm ? ("distance" as const) : row.dueOn <= today ? ("day" as const) : null,
  };
}
