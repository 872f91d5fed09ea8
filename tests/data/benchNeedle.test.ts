import { expect, it } from "vitest";
import { needleExample, pairOf } from "@/app/s/[shop]/bench/needles/pair";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { recordNeedle } from "@/lib/data/bikes/needles";
import { needlesAt } from "@/lib/domain/bench/needlePair";
import { benchSchema } from "@/lib/schemas/bench";
import { NEEDLE_FIELDS } from "@/lib/schemas/benchPartFields";
import { FittedNeedleSchema } from "@/lib/schemas/needles";
import { makeBike } from "../support/quotes";
import { twoShops } from "../support/shops";

it("the bench begins with the needle that is recorded on the bike, worn as it is, against the delivered one", async () => {
  const { a, b } = await twoShops();
  const { bikeId } = await makeBike(a, "Ines Valdborg");
  await makeBike(b, "Ines Valdborg");
  const { modelCardId } = await a.read.bike.findUniqueOrThrow({ where: { id: bikeId } });
  const facts = {
    needleStraightMm: 2.5,
    needleStraightLiftMm: 6,
    needleStraightLengthMm: 26,
    needleTaper1LengthMm: 30,
    needleTaper1Deg: 1.72,
  };
  await a.write(async (tx) => {
    for (const [key, value] of Object.entries(facts))
      await tx.modelFact.upsert({
        where: { modelCardId_key: { modelCardId, key } },
        create: { modelCardId, key, value, how: "read" },
        update: { value, how: "read" },
      });
  });
  // Worn where it rests in the jet: thinner at 24 mm than just below.
  const stations = {
    "1": { at: "10", diameter: "2.50" },
    "2": { at: "24", diameter: "2.44" },
    "3": { at: "26", diameter: "2.49" },
    "4": { at: "36", diameter: "2.17" },
    "5": { at: "56", diameter: "1.60" },
  };
  await recordNeedle(
    a,
    FittedNeedleSchema.parse({
      bikeId: String(bikeId),
      carburettor: "1",
      state: "found",
      origin: "delivered",
      planeMm: "20",
      micrometerMm: "0.01",
      stations,
    }),
  );
  const inJet = async (shop: typeof a, lift: number) => {
    const query = needleExample(await benchBike(shop, bikeId), "metric");
    return needlesAt(pairOf(benchSchema(NEEDLE_FIELDS, "metric").parse(query)), lift);
  };
  // Lift is the distance below the shoulder less the jet's 20 mm.
  expect((await inJet(a, 4)).a).toBeCloseTo(2.44, 6);
  expect((await inJet(a, 16)).a).toBeCloseTo(2.17, 6);
  expect((await inJet(a, 4)).b).toBeCloseTo(2.5, 6);
  expect((await inJet(a, 16)).b).toBeCloseTo(2.5 - 2 * 10 * Math.tan((0.86 * Math.PI) / 180), 3);
  expect((await inJet(b, 4)).a).not.toBeCloseTo(2.44, 3);
});
