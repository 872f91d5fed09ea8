import { describe, expect, it } from "vitest";
import { findScrews, measureScrew, screwOfPart } from "@/lib/data/parts/screws";
import type { Screw } from "@/lib/domain/stock/screws";
import { partToSell } from "../support/sales";
import { twoShops } from "../support/shops";

const M4: Screw = { diameterMm: 4, pitchMm: 0.7, lengthMm: 12, head: "pan", drive: "cross, JIS" };

describe("screws of stock", () => {
  it("are found from a worn one once they are described, in this shop alone; no other part is a screw", async () => {
    const { a, b } = await twoShops();
    const same = await partToSell(a, { name: "Screw M4 x 12", kind: "screw", opening: "11" });
    const long = await partToSell(a, { name: "Screw M4 x 16", kind: "screw" });
    const seal = await partToSell(a, { name: "Bowl seal", kind: "seal" });
    await partToSell(b, { name: "Screw M4 x 12", kind: "screw" });
    expect(await findScrews(a, M4)).toEqual([]);
    await measureScrew(a, { partId: same, screw: M4 });
    await measureScrew(a, { partId: long, screw: { ...M4, lengthMm: 16 } });
    expect(await screwOfPart(a, same)).toEqual(M4);
    const found = await findScrews(a, M4);
    expect(found.map(({ id, fit, freeMilli }) => [id, fit, freeMilli])).toEqual([
      [same, "same", 11_000],
      [long, "fits", 10_000],
    ]);
    await expect(measureScrew(a, { partId: seal, screw: M4 })).rejects.toThrow("no screw");
    await expect(measureScrew(b, { partId: 999, screw: M4 })).rejects.toThrow("no screw");
    expect(await findScrews(b, M4)).toEqual([]);
  });
});
