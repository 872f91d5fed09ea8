import { describe, expect, it } from "vitest";
import { gainTest } from "@/lib/domain/tuning/gainTest";
import { seeded } from "../support/seeded";

describe("a gain on the dyno", () => {
  const TRIALS = 4000;
  const draw = (random: () => number, n: number, mean: number, spread: number) =>
    Array.from({ length: n }, () => mean * (1 + spread * random()));
  const alarms = (n: number, before: number, after: number) => {
    const random = seeded(1000 * n + Math.round(1e5 * before + 1e3 * after));
    let found = 0;
    for (let i = 0; i < TRIALS; i++)
      if (gainTest(draw(random, n, 50, before), draw(random, n, 50, after))?.beyondNoise) found++;
    return (100 * found) / TRIALS;
  };
  it("is called beyond noise at most 5 times in 100 where nothing changed, with 2+2 to 10+10 pulls", () => {
    for (const [before, after] of [
      [0.01, 0.01],
      [0.01, 0.03],
    ] as const)
      for (const n of [2, 3, 4, 5, 7, 10]) {
        const found = alarms(n, before, after);
        if (process.env.TABLES)
          console.log(`| ${n}+${n} | ${100 * before} % / ${100 * after} % | ${found.toFixed(1)} % |`);
        expect(found, `${n}+${n}, spread ${before} and ${after}`).toBeLessThanOrEqual(5);
      }
  });
  it("has an interval that holds the truth about 95 times in 100", () => {
    const random = seeded(5);
    let held = 0;
    for (let i = 0; i < TRIALS; i++) {
      const test = gainTest(draw(random, 5, 50, 0.01), draw(random, 5, 53, 0.01));
      if (test && test.low <= 0.06 && test.high >= 0.06) held++;
    }
    expect((100 * held) / TRIALS).toBeGreaterThanOrEqual(94);
  });
});
