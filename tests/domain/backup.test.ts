import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { backupsToKeep, type Kept } from "@/lib/domain/backup/keep";
import { isDue, isLate } from "@/lib/domain/backup/schedule";

const at = (text: string) => Date.parse(text);
const HOUR = 3_600_000;

describe("the daily backup", () => {
  const due = (last: string | null, now: string, zone = "Australia/Adelaide") =>
    isDue(last === null ? null : at(last), at(now), "03:30", zone);

  it("is due once its hour has come round, on the clock of the server's zone, and not again that day", () => {
    // Adelaide in summer time: UTC+10:30.
    expect(due("2026-11-26T17:01:00Z", "2026-11-27T16:59:00Z")).toBe(false);
    expect(due("2026-11-26T17:01:00Z", "2026-11-27T17:00:00Z")).toBe(true);
    expect(due("2026-11-27T17:00:00Z", "2026-11-28T16:00:00Z")).toBe(false);
  });

  it("is due at once where there was none, and where the server slept through its hour", () => {
    expect(due(null, "2026-11-28T00:00:00Z")).toBe(true);
    expect(due("2026-11-20T17:00:00Z", "2026-11-28T02:00:00Z")).toBe(true);
  });

  it("is due where the last was begun by a clock that has been set back since", () => {
    expect(due("2031-01-01T00:00:00Z", "2026-11-28T02:00:00Z")).toBe(true);
  });

  it("comes once on a day whose hour the clock skips or has twice", () => {
    // Oslo 2026: 02:00 to 03:00 is skipped on 29 March, and comes twice on 25 October. Source: EU directive 2000/84/EC.
    for (const [day, next] of [
      ["2026-03-28T22:00:00Z", "2026-03-29T22:00:00Z"],
      ["2026-10-24T22:00:00Z", "2026-10-25T23:00:00Z"],
    ] as const) {
      let last = at(day) - 12 * HOUR;
      let runs = 0;
      for (let now = at(day); now < at(next); now += HOUR / 12)
        if (isDue(last, now, "02:30", "Europe/Oslo")) {
          runs++;
          last = now;
        }
      expect(runs, day).toBe(1);
    }
  });
});

describe("a late backup", () => {
  const now = at("2026-11-28T12:00:00Z");
  const since = at("2026-01-01T00:00:00Z");

  it("is one older than two days", () => {
    expect(isLate(now - 48 * HOUR, since, now)).toBe(false);
    expect(isLate(now - 48 * HOUR - 1, since, now)).toBe(true);
  });

  it("is counted from when backups began where there is no good one, or only one of a later clock", () => {
    expect(isLate(null, now - 47 * HOUR, now)).toBe(false);
    expect(isLate(null, since, now)).toBe(true);
    expect(isLate(now + HOUR, since, now)).toBe(true);
  });
});

describe("the backups that stay", () => {
  const daily = (days: number, good: readonly string[] = ["a", "b"]): Kept[] =>
    Array.from({ length: days }, (_, n) => ({
      at: new Date(at("2026-11-28T03:30:00Z") - n * 24 * HOUR).toISOString(),
      good,
    }));

  it("are the newest of 14 days, and before them of 8 weeks", () => {
    const stays = [...backupsToKeep(daily(200), 14, 8)].sort().reverse();
    expect(stays.slice(0, 14)).toEqual(daily(14).map((one) => one.at));
    // The last days of their weeks, Sundays: 2026-11-14 is a Saturday. Source: ISO 8601-1:2019, 3.1.1.23.
    expect(stays.slice(14).map((one) => one.slice(0, 10))).toEqual([
      "2026-11-14",
      "2026-11-08",
      "2026-11-01",
      "2026-10-25",
      "2026-10-18",
      "2026-10-11",
      "2026-10-04",
      "2026-09-27",
    ]);
  });

  it("are the newest of each day where there are several", () => {
    const twice = [
      { at: "2026-11-28T03:30:00.000Z", good: ["a"] },
      { at: "2026-11-28T15:00:00.000Z", good: ["a"] },
    ];
    expect([...backupsToKeep(twice, 14, 8)]).toEqual(["2026-11-28T15:00:00.000Z"]);
  });

  it("hold for each shop its newest good copy, however old", () => {
    const recent = daily(100, ["a"]);
    const old = { at: "2025-02-02T03:30:00.000Z", good: ["a", "b"] };
    const older = { at: "2025-02-01T03:30:00.000Z", good: ["a", "b"] };
    const stays = backupsToKeep([older, ...recent, old], 14, 8);
    expect(stays.has(old.at)).toBe(true);
    expect(stays.has(older.at)).toBe(false);
  });

  it("are never none, never more than asked for and each shop's last, and do not depend on the order given", () => {
    const backup = fc.record({
      at: fc
        .integer({ min: at("2025-01-01T00:00:00Z"), max: at("2026-12-31T00:00:00Z") })
        .map((ms) => new Date(ms).toISOString()),
      good: fc.subarray(["a", "b", "c"]),
    });
    fc.assert(
      fc.property(
        fc.uniqueArray(backup, { minLength: 1, maxLength: 60, selector: (one) => one.at }),
        fc.integer({ min: 1, max: 20 }),
        fc.integer({ min: 1, max: 10 }),
        (all, days, weeks) => {
          const stays = backupsToKeep(all, days, weeks);
          expect(stays.size).toBeGreaterThan(0);
          expect(stays.size).toBeLessThanOrEqual(days + weeks + 3);
          expect(backupsToKeep([...all].reverse(), days, weeks)).toEqual(stays);
          for (const shop of ["a", "b", "c"]) {
            const newest = all
              .filter((one) => one.good.includes(shop))
              .map((one) => one.at)
              .sort()
              .at(-1);
            if (newest) expect(stays.has(newest)).toBe(true);
          }
        },
      ),
    );
  });
});
