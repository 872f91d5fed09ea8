import { describe, expect, it } from "vitest";
import { nextCheck } from "@/lib/domain/tuning/nextCheck";
import { heardFrom } from "@/lib/domain/tuning/runAnswers";
import { sameThread } from "@/lib/domain/tuning/sameThread";
import { intervalFor } from "@/lib/domain/tuning/severity";
import { dueAgain } from "@/lib/domain/tuning/wear";

describe("a part that did not wear between its two readings", () => {
  it("is measured again at the service alone, and at no distance where there is none", () => {
    const readings = [10_000, 14_000].map((odometerKm) => ({ odometerKm, value: 2.6 }));
    const limit = { high: 2.7, from: "model card" };
    expect(nextCheck({ readings, limit, everyKm: 6000, severity: null })?.atKm).toBe(20_000);
    expect(nextCheck({ readings, limit, everyKm: null, severity: null })).toBeNull();
  });
});

describe("distances", () => {
  it("are told in kilometres", () => {
    const due = { what: "Guides", roadKm: 20_000, severity: null, odometerKm: 100, doneAtKm: null };
    expect(dueAgain(due)).toMatchObject({ unit: "km", limit: 20_000, measured: 100 });
    expect(() => intervalFor(0, null)).toThrow("interval on the dry road is 0 km, outside 1 to 200000 km.");
  });
});

describe("what an owner's answer counts as", () => {
  it("is an accepted setup where it runs well, and felt on the road where it does not", () => {
    expect(heardFrom("runsWell")).toEqual({ kind: "accepted", at: [{ throttle: 0.25 }, { throttle: 0.5 }] });
    for (const [answer, sign] of [
      ["tooHot", "lean"],
      ["muchFuel", "rich"],
    ] as const)
      expect(heardFrom(answer)).toEqual({
        kind: "felt",
        at: [
          { throttle: 0.25, sign },
          { throttle: 0.5, sign },
        ],
      });
  });
});

describe("jets of other drawers that flow alike", () => {
  it("stand in the order in which their parts were made", () => {
    const threads = new Map(["Round", "Hex", "Long"].map((family) => [family, "M5 x 0.75"]));
    const jet = (partId: number, family: string) => ({
      partId,
      family,
      code: `${partId}`,
      size: 120,
      convention: "bore" as const,
      freeMilli: 1000,
    });
    const wanted = { family: "Round", size: 120, convention: "bore" } as const;
    const found = sameThread(wanted, 1000, [jet(9, "Hex"), jet(4, "Long"), jet(7, "Hex")], threads);
    expect(found.map((one) => one.partId)).toEqual([4, 7, 9]);
  });

  it("are none where neither drawer has said its thread", () => {
    const jet = {
      partId: 1,
      code: "1",
      family: "Nowhere",
      size: 120,
      convention: "bore",
      freeMilli: 1000,
    } as const;
    expect(
      sameThread({ family: "Unheard of", size: 120, convention: "bore" }, 1000, [jet], new Map()),
    ).toEqual([]);
  });
});
