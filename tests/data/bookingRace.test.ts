import { expect, it } from "vitest";
import { overlaps } from "@/lib/domain/schedule/intervals";
import { instantOf } from "@/lib/domain/schedule/localTime";
import { atOnce } from "../support/atOnce";
import { twoShops } from "../support/shops";

interface Booked {
  readonly booked: readonly number[];
  readonly refused: readonly string[];
}

it("two processes that book the same bay and person at the same times get each time once, and never two that overlap", async () => {
  const { a, b } = await twoShops();
  const { zone } = await a.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const bay = await a.read.bay.findFirstOrThrow({ select: { id: true }, orderBy: { id: "asc" } });
  const person = await a.read.staff.findFirstOrThrow({ select: { id: true }, orderBy: { id: "asc" } });
  // Every half hour of two mornings, each for three quarters of an hour: neighbours overlap.
  const times = ["2026-12-01", "2026-12-02"].flatMap((day) =>
    ["08:00", "08:30", "09:00", "09:30", "10:00", "10:30"].map((time) => instantOf(day, time, zone)),
  );
  const script = (order: readonly number[]) => [
    "tests/support/bookMany.ts",
    a.database,
    String(bay.id),
    String(person.id),
    String(a.now.getTime()),
    order.join(","),
  ];
  const answers = await atOnce<Booked>([script(times), script(times.toReversed())]);
  const rows = await a.read.booking.findMany({ where: { state: "held" }, orderBy: { startsAt: "asc" } });
  const stretches = rows.map(({ startsAt, endsAt }) => ({
    startsAt: startsAt.getTime(),
    endsAt: endsAt.getTime(),
  }));
  for (const [at, one] of stretches.entries())
    expect(stretches.some((two, other) => other !== at && overlaps(one, two))).toBe(false);
  const booked = answers.flatMap((one) => one.booked);
  expect(booked.toSorted((x, y) => x - y)).toEqual(stretches.map(({ startsAt }) => startsAt));
  expect(new Set(answers.flatMap((one) => one.refused))).toEqual(new Set(["conflict"]));
  expect(answers.flatMap((one) => [...one.booked, ...one.refused])).toHaveLength(times.length * 2);
  expect(await b.read.booking.count()).toBe(0);
}, 60_000);
