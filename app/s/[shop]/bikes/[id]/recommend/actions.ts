"use server";
import { saveRecommendation, workRecommendation } from "@/lib/data/bench/recommend";
import { jetFamilies } from "@/lib/data/bench/trip";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { shimsInDrawer } from "@/lib/data/jobs/stepTargets";
import { weatherSpot } from "@/lib/domain/air/places";
import { Refusal } from "@/lib/domain/refusal";
import { action } from "@/lib/gate/action";
import { AddressSchema, benchSchema, systemOf } from "@/lib/schemas/bench";
import { recordId } from "@/lib/schemas/ids";
import { RECOMMEND_FIELDS } from "@/lib/schemas/recommendFields";

const PutSchema = AddressSchema.extend({ bikeId: recordId });

export const putRecommendation = action("sheet.write", PutSchema, async (shop, { address, bikeId }, call) => {
  const bike = await benchBike(shop, bikeId);
  if (!bike) throw new Refusal("There is no such bike.", "Choose one from the list.", {}, "missing");
  const values = benchSchema(RECOMMEND_FIELDS, systemOf(shop.settings.units)).safeParse(address);
  if (!values.success)
    throw new Refusal("The inputs cannot be calculated with.", "Calculate again, then keep the answer.");
  const answer = workRecommendation(
    values.data,
    bike,
    await jetFamilies(shop),
    weatherSpot(shop.settings),
    await shimsInDrawer(shop.read),
  );
  const sheet = await saveRecommendation(shop, bike, values.data, answer, call.key);
  return { to: `/s/${shop.slug}/bikes/${bike.id}/sheets/${sheet}`, toast: "Put on the target sheet." };
});
