import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { dayAfter, instantOf } from "@/lib/domain/schedule/localTime";

const CHANGED = new Refusal(
  "Somebody else changed this in the meantime.",
  "Load the page again.",
  {},
  "conflict",
);

/** Bays, people with their hours, absences still to come and closures: the shop's working time on one page. */
export async function workingTimes(shop: ShopHandle, today: string) {
  const [bays, staff, closures] = await Promise.all([
    shop.read.bay.findMany({
      select: { id: true, name: true, active: true, version: true },
      orderBy: { id: "asc" },
    }),
    shop.read.staff.findMany({
      where: { active: true },
      select: {
        id: true,
        name: true,
        hours: true,
        grades: true,
        version: true,
        absences: {
          where: { toDay: { gte: today } },
          orderBy: { fromDay: "asc" },
          select: { id: true, fromDay: true, toDay: true, why: true },
        },
      },
      orderBy: { id: "asc" },
    }),
    shop.read.closure.findMany({ where: { toDay: { gte: today } }, orderBy: { fromDay: "asc" } }),
  ]);
  return { bays, staff, closures };
}

export async function addBay(shop: ShopHandle, name: string): Promise<number> {
  return shop.write(async (tx) => {
    if (await tx.bay.findUnique({ where: { name }, select: { id: true } }))
      throw new Refusal(`There is a bay called ${name} already.`, "Give this one another name.", {
        name: "Taken.",
      });
    const bay = await tx.bay.create({ data: { name }, select: { id: true } });
    await audit(tx, shop, "added", "bay", bay.id, { name });
    return bay.id;
  });
}

/** Takes a bay out of use or back in. Its bookings stay. */
export async function setBayActive(
  shop: ShopHandle,
  input: { id: number; version: number; active: boolean },
): Promise<void> {
  await shop.write(async (tx) => {
    await demandOne(
      tx.bay.updateMany({
        where: { id: input.id, version: input.version },
        data: { active: input.active, version: { increment: 1 } },
      }),
      () => CHANGED,
    );
    await audit(tx, shop, input.active ? "took into use" : "took out of use", "bay", input.id);
  });
}

type Spans = { from: string; to: string }[];

/** Hours of a person, and the labour grades that they work at; none is every grade. */
export async function saveHours(
  shop: ShopHandle,
  input: { staffId: number; version: number; hours: Record<number, Spans>; grades: readonly string[] },
): Promise<void> {
  await shop.write(async (tx) => {
    await demandOne(
      tx.staff.updateMany({
        where: { id: input.staffId, version: input.version },
        data: { hours: input.hours, grades: [...input.grades], version: { increment: 1 } },
      }),
      () => CHANGED,
    );
    await audit(tx, shop, "changed hours", "person", input.staffId);
  });
}

/** Days off of one person, or of the whole shop when `staffId` is null. */
export async function addDaysOff(
  shop: ShopHandle,
  input: { staffId: number | null; fromDay: string; toDay: string; why: string },
): Promise<void> {
  const { staffId, ...days } = input;
  await shop.write(async (tx) => {
    const row =
      staffId === null
        ? await tx.closure.create({ data: days, select: { id: true } })
        : await tx.absence.create({ data: { ...days, staffId }, select: { id: true } });
    await audit(tx, shop, "added days off", staffId === null ? "closure" : "absence", row.id, { ...days });
  });
}

/**
 * Closes the shop on single days, leaving out those it is closed on already. Says how many bookings lie on them: they stay
 * as they are until somebody moves them.
 */
export async function closeOn(
  shop: ShopHandle,
  days: readonly { day: string; name: string }[],
  zone: string,
): Promise<{ closed: number; booked: number }> {
  return shop.write(async (tx) => {
    const standing = await tx.closure.findMany({
      where: { toDay: { gte: days[0]?.day ?? "" } },
      select: { fromDay: true, toDay: true },
      orderBy: { fromDay: "asc" },
    });
    const open = days.filter(({ day }) => !standing.some((c) => c.fromDay <= day && day <= c.toDay));
    let booked = 0;
    for (const { day, name } of open) {
      const made = await tx.closure.create({
        data: { fromDay: day, toDay: day, why: name },
        select: { id: true },
      });
      await audit(tx, shop, "added days off", "closure", made.id, { fromDay: day, toDay: day, why: name });
      booked += await tx.booking.count({
        where: {
          state: "held",
          startsAt: { lt: new Date(instantOf(dayAfter(day), "00:00", zone)) },
          endsAt: { gt: new Date(instantOf(day, "00:00", zone)) },
        },
      });
    }
    return { closed: open.length, booked };
  });
}

export async function removeDaysOff(
  shop: ShopHandle,
  input: { id: number; kind: "absence" | "closure" },
): Promise<void> {
  await shop.write(async (tx) => {
    const where = { id: input.id };
    await demandOne(
      input.kind === "closure" ? tx.closure.deleteMany({ where }) : tx.absence.deleteMany({ where }),
      () => CHANGED,
    );
    await audit(tx, shop, "removed days off", input.kind, input.id);
  });
}

/** The shop's labour grades by name, for saying who works at which. */
export async function gradeNames({
  read,
}: Pick<ShopHandle, "read">): Promise<{ code: string; name: string }[]> {
  return read.labourGrade.findMany({ select: { code: true, name: true }, orderBy: { id: "asc" }, take: 50 });
}
