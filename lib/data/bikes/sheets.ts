import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { checkSheet, type SheetKind, type SheetValue } from "@/lib/domain/sheets/check";
import { sheetConditions } from "../common/air";
import { keepOdometerIn } from "./odometer";

export interface NewSheet {
  readonly bikeId: number;
  readonly jobId?: number | null | undefined;
  readonly kind: SheetKind;
  readonly values: readonly SheetValue[];
  readonly odometerKm?: number | null | undefined;
  readonly odometerRight?: boolean | undefined;
  readonly conditions?: Prisma.InputJsonValue | undefined;
  /** What was measured of the air here and now; the rest is typical of the month. */
  readonly measuredAir?: MeasuredAir | undefined;
  readonly calculation?: Prisma.InputJsonValue | undefined;
  readonly note?: string | undefined;
  readonly key?: string | undefined;
}

/** Records a setting sheet, once per key; answers its id. */
export async function saveSheet(shop: ShopHandle, input: NewSheet): Promise<number> {
  return shop.write((tx) => once(tx, shop, "recorded a sheet", input, () => saveSheetIn(tx, shop, input)));
}

/** As saveSheet, inside a transaction of the caller's (which also sees to the idempotency key). Its odometer reading is the bike's. */
export async function saveSheetIn(
  tx: ShopTx,
  shop: ShopHandle,
  input: Omit<NewSheet, "key">,
): Promise<number> {
  const bike = await tx.bike.findUnique({
    where: { id: input.bikeId },
    select: {
      carburettors: { select: { position: true, label: true }, orderBy: { position: "asc" } },
    },
  });
  if (!bike) throw new Refusal("There is no such bike.", "Choose a bike from the list.", {}, "missing");
  const wrong = checkSheet(input.kind, input.values, bike.carburettors);
  const first = Object.values(wrong)[0];
  if (first) throw new Refusal(first, "Mend the marked values; nothing was saved.", wrong);
  if (input.values.length === 0) throw new Refusal("The sheet holds no setting.", "Enter at least one.");
  if (input.jobId) {
    const job = await tx.job.findUnique({
      where: { id: input.jobId },
      select: { bikeId: true, number: true },
    });
    if (!job) throw new Refusal("There is no such job.", "Choose a job of this bike.", {}, "missing");
    if (job.bikeId !== input.bikeId)
      throw new Refusal(`Job ${job.number} is on another bike.`, "Choose a job of this bike.");
  }
  const conditions = input.conditions ?? (await airNow(tx, shop, input.measuredAir));
  const { odometerKm = null, odometerRight } = input;
  if (input.kind !== "target") await keepOdometerIn(tx, shop, input.bikeId, { odometerKm, odometerRight });
  const sheet = await tx.settingSheet.create({
    data: {
      bikeId: input.bikeId,
      jobId: input.jobId ?? null,
      kind: input.kind,
      takenAt: shop.now,
      staffId: shop.by.staffId,
      odometerKm: input.odometerKm ?? null,
      conditions,
      ...(input.calculation === undefined ? {} : { calculation: input.calculation }),
      note: input.note ?? "",
      values: {
        create: input.values.map(({ carburettor, setting, value, how }) => ({
          carburettor,
          setting,
          value,
          how,
        })),
      },
    },
    select: { id: true },
  });
  await audit(tx, shop, "recorded", "sheet", sheet.id, {
    bikeId: input.bikeId,
    kind: input.kind,
    values: input.values.length,
  });
  return sheet.id;
}

export interface MeasuredAir {
  readonly temperatureC: number | null;
  readonly pressureHpa: number | null;
  readonly humidityPercent: number | null;
}

/** Every sheet says the air it was set in: typical for the month at the shop where nobody measured it. */
async function airNow(
  tx: ShopTx,
  shop: ShopHandle,
  measured: MeasuredAir | undefined,
): Promise<Prisma.InputJsonValue> {
  const home = await tx.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { altitudeM: true, latitude: true, longitude: true, latitudeSouth: true, zone: true },
  });
  return { ...sheetConditions(home, shop.now), ...measured };
}

const VIEW = {
  id: true,
  bikeId: true,
  jobId: true,
  job: { select: { number: true } },
  kind: true,
  takenAt: true,
  staffId: true,
  odometerKm: true,
  conditions: true,
  note: true,
  values: { select: { carburettor: true, setting: true, value: true, how: true }, orderBy: { id: "asc" } },
} as const satisfies Prisma.SettingSheetSelect;

export type SheetView = Prisma.SettingSheetGetPayload<{ select: typeof VIEW }>;

export interface LatestSheets {
  readonly asFound: SheetView | null;
  readonly target: SheetView | null;
  readonly asLeft: SheetView | null;
}

/** A bike's newest sheet of each kind. */
export async function latestSheets(shop: ShopHandle, bikeId: number): Promise<LatestSheets> {
  const newest = (kind: SheetKind) =>
    shop.read.settingSheet.findFirst({ where: { bikeId, kind }, select: VIEW, orderBy: { id: "desc" } });
  const [asFound, target, asLeft] = await Promise.all([
    newest("asFound"),
    newest("target"),
    newest("asLeft"),
  ]);
  return { asFound, target, asLeft };
}

/** One sheet with who took it and of which bike; null when there is none. */
export async function getSheet(shop: ShopHandle, bikeId: number, id: number) {
  const sheet = await shop.read.settingSheet.findFirst({
    where: { id, bikeId },
    select: {
      ...VIEW,
      calculation: true,
      bike: {
        select: {
          plate: true,
          year: true,
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
  const staff = sheet.staffId
    ? await shop.read.staff.findUnique({ where: { id: sheet.staffId }, select: { name: true } })
    : null;
  return { ...sheet, takenBy: staff?.name ?? "" };
}

const PAGE = 30;

/** A bike's sheets, newest first. */
export async function listSheets(shop: ShopHandle, bikeId: number, after?: number) {
  const rows = await shop.read.settingSheet.findMany({
    where: { bikeId },
    select: {
      id: true,
      kind: true,
      takenAt: true,
      odometerKm: true,
      note: true,
      job: { select: { id: true, number: true } },
    },
    orderBy: { id: "desc" },
    take: PAGE + 1,
    ...(after ? { cursor: { id: after }, skip: 1 } : {}),
  });
  const page = rows.slice(0, PAGE);
  return { rows: page, next: rows.length > PAGE ? (page.at(-1)?.id ?? null) : null };
}
