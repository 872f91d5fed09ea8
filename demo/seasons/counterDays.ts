import { takeBack } from "@/lib/data/sales/takeBack";
import type { Stage } from "../stage";
import { chance as seeded } from "../work/chance";
import { sellOver } from "../work/counter";
import type { Course } from "../work/courses";
import type { Method } from "../work/money";

/** What people buy over the counter, and how many of it at most. */
export type Asked = readonly (readonly [code: string, most: number])[];

const TIMES = ["08:35", "09:50", "11:25", "13:05", "14:45", "16:10"];

/** Somebody walks in for a part or two on each of the days; every twentieth brings it back within the week. */
export async function* counterDays(
  stage: Stage,
  days: readonly number[],
  asked: Asked,
  seed: number,
): Course {
  const chance = seeded(seed);
  for (const [nth, day] of days.entries()) {
    const at = stage.calendar.at(day, TIMES[nth % TIMES.length] ?? "10:00");
    yield at;
    const shop = stage.shop.as(stage.hands.desk, at);
    const [first, most] = chance.pick(asked);
    const [second, many] = chance.pick(asked);
    const wanted = [[first, chance.between(1, most)] as const];
    if (second !== first && chance.share() < 0.4) wanted.push([second, chance.between(1, many)]);
    const there = await shop.read.part.findMany({
      where: { code: { in: wanted.map(([code]) => code) } },
      select: { code: true, onHandMilli: true, reservedMilli: true },
      orderBy: { id: "asc" },
    });
    const free = wanted.filter(([code, pieces]) =>
      there.some((part) => part.code === code && part.onHandMilli - part.reservedMilli >= pieces * 1000),
    );
    if (free.length === 0) continue;
    const saleId = await sellOver(stage, at, free, chance.pick<Method>(["cash", "card", "card"]));
    if (nth % 20 !== 7) continue;
    const back = stage.calendar.at(day + 1, "08:50");
    yield back;
    await takeBack(stage.shop.as(stage.hands.desk, back), {
      saleId,
      reason: stage.tongue === "nb" ? "Passet ikke." : "Did not fit.",
      method: "card",
      back: [],
    });
  }
}
