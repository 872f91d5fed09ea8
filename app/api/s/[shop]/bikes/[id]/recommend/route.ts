import { recommendReasons } from "@/app/_documents/recommendReasons";
import { workRecommendation } from "@/lib/data/bench/recommend";
import { jetFamilies } from "@/lib/data/bench/trip";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { shimsInDrawer } from "@/lib/data/jobs/stepTargets";
import { weatherSpot } from "@/lib/domain/air/places";
import { shopFile } from "@/lib/gate/route";
import { benchQuery, benchSchema, systemOf } from "@/lib/schemas/bench";
import { RECOMMEND_FIELDS } from "@/lib/schemas/recommendFields";
import { idOf, missing } from "../../../paper";

/** What a figure of a bike's recommended setting rests on: the page's own address, and `&of=` what is asked of. */
export const GET = shopFile("bench.use", async (shop, params, request) => {
  const { of = "", ...query } = benchQuery(Object.fromEntries(request.nextUrl.searchParams));
  const [bike, families, shims] = await Promise.all([
    benchBike(shop, idOf(params)),
    jetFamilies(shop),
    shimsInDrawer(shop.read),
  ]);
  const { settings } = shop;
  const values = benchSchema(RECOMMEND_FIELDS, systemOf(settings.units)).safeParse(query);
  if (!bike || !values.success) throw missing();
  const answer = workRecommendation(values.data, bike, families, weatherSpot(settings), shims);
  const because = recommendReasons(answer, of, settings.locale);
  if (!because) throw missing();
  return Response.json(because);
});
