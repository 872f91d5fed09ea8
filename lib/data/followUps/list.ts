import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import { dayIn } from "@/lib/domain/schedule/days";
import type { OdometerRead } from "@/lib/domain/sheets/odometerRate";
import type { FollowUpQueryInput } from "@/lib/schemas/followUps";
import { bikeName } from "../bikes/bikeName";
import { odometerReads } from "../bikes/odometerReads";
import { type DueByDistance, dueByDistance, dueWhy } from "./due";

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
  const page = await linesOf(shop, rows.slice(0, TAKE), zone);
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
  return (await linesOf(shop, rows, zone)).sort(
    (a, b) => Number(b.state === "due") - Number(a.state === "due"),
  );
}

type Row = Prisma.FollowUpGetPayload<{ select: typeof LINE }>;

/** Rows with what the bikes' own readings say of their distances: asked only for bikes of which something is due by distance. */
async function linesOf(shop: ShopHandle, rows: readonly Row[], zone: string) {
  const byDistance = rows.filter((row) => row.state === "due" && row.dueKm !== null);
  const reads =
    byDistance.length === 0
      ? new Map<number, OdometerRead[]>()
      : await odometerReads(shop.read, [...new Set(byDistance.map((row) => row.bike.id))]);
  const today = dayIn(zone, shop.now);
  return rows.map((row) =>
    lineOf(
      row,
      today,
      row.state === "due" ? dueByDistance(reads.get(row.bike.id) ?? [], row.dueKm, zone, shop) : null,
    ),
  );
}

function lineOf(row: Row, today: string, estimate: DueByDistance | null) {
  const { bike, ...rest } = row;
  const why = row.state === "due" ? dueWhy(row, bike.odometerKm, estimate, today) : null;
  return {
    ...rest,
    bike: { id: bike.id, name: bikeName(bike), plate: bike.plate, odometerKm: bike.odometerKm },
    customer: bike.customer,
    estimate,
    dueNow: why !== null,
    why,
  };
}
