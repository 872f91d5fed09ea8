import type { ShopHandle } from "@/lib/db/shop";
import { dayIn } from "@/lib/domain/schedule/days";
import { bikeName } from "../bikes/bikeName";
import { conditionsOf } from "../common/air";

/** A setting sheet with all that its paper says; null where there is none. */
export async function sheetForPaper(shop: ShopHandle, id: number) {
  const sheet = await shop.read.settingSheet.findUnique({
    where: { id },
    select: {
      kind: true,
      takenAt: true,
      staffId: true,
      odometerKm: true,
      conditions: true,
      note: true,
      job: { select: { number: true } },
      values: {
        select: { carburettor: true, setting: true, value: true, how: true },
        orderBy: { id: "asc" },
        take: 200,
      },
      bike: {
        select: {
          year: true,
          plate: true,
          customer: { select: { name: true } },
          modelCard: { select: { make: true, model: true } },
          carburettors: {
            select: { position: true, label: true, marking: true },
            orderBy: { position: "asc" },
          },
        },
      },
    },
  });
  if (!sheet) return null;
  const { zone } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const staff =
    sheet.staffId === null
      ? null
      : await shop.read.staff.findUnique({ where: { id: sheet.staffId }, select: { name: true } });
  const { bike, conditions, staffId: _, takenAt, job, ...rest } = sheet;
  return {
    ...rest,
    day: dayIn(zone, takenAt),
    takenBy: staff?.name ?? "",
    job: job?.number ?? null,
    customer: bike.customer.name,
    bike: bikeName(bike),
    plate: bike.plate,
    carburettors: bike.carburettors,
    conditions: conditionsOf(conditions),
  };
}
