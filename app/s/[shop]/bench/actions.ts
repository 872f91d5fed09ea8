"use server";
import { jetFamilies, saveTripSheet, workTrip } from "@/lib/data/bench/trip";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { keepCalibration } from "@/lib/data/bikes/calibrations";
import { workLog } from "@/lib/data/bikes/workLog";
import { weatherSpot } from "@/lib/domain/air/places";
import { Refusal } from "@/lib/domain/refusal";
import { action } from "@/lib/gate/action";
import { AddressSchema, benchSchema, systemOf } from "@/lib/schemas/bench";
import { TRIP_FIELDS } from "@/lib/schemas/benchFields";
import { typedLog } from "@/lib/schemas/benchLogRead";
import { DynoSchema, LambdaSchema } from "@/lib/schemas/benchLogs";
import { inWorker } from "@/lib/workers/pool";
import { askedBike } from "./askedBike";

export const putTripOnSheet = action("sheet.write", AddressSchema, async (shop, { address }, call) => {
  const id = askedBike(address);
  const bike = id === null ? null : await benchBike(shop, id);
  if (!bike)
    throw new Refusal(
      "There is no such bike.",
      "Begin from a bike, calculate, then keep the answer.",
      {},
      "missing",
    );
  const values = benchSchema(TRIP_FIELDS, systemOf(shop.settings.units)).safeParse(address);
  if (!values.success)
    throw new Refusal("The inputs cannot be calculated with.", "Calculate again, then keep the answer.");
  const trip = workTrip(values.data, bike, await jetFamilies(shop), weatherSpot(shop.settings));
  const sheet = await saveTripSheet(shop, bike, values.data, trip, call.key);
  return { to: `/s/${shop.slug}/bikes/${bike.id}/sheets/${sheet}`, toast: "Put on the target sheet." };
});

export const readDynoFile = action(
  "bench.use",
  DynoSchema,
  async (shop, input) => {
    const answer = await inWorker(shop, "readDynoLog", input);
    return { shown: { answer: JSON.stringify(answer), typed: JSON.stringify(typedLog(input)) } };
  },
  "file",
);

export const readLambdaFile = action(
  "bench.use",
  LambdaSchema,
  async (shop, input, call) => {
    const bike = input.bike === undefined ? null : await benchBike(shop, input.bike);
    if (input.bike !== undefined && !bike)
      throw new Refusal(
        "There is no such bike.",
        "Choose one from the list.",
        { bike: "Choose a bike." },
        "missing",
      );
    const { answer, evidence } = workLog(
      input,
      await inWorker(shop, "readRiddenLog", input),
      bike,
      shop.settings,
    );
    const keep = input.act === "keep";
    if (keep) {
      if (!shop.can("card.write"))
        throw new Refusal(
          `Your role (${shop.role}) may not keep a calibration.`,
          "Ask a tuner or an owner.",
          {},
          "forbidden",
        );
      if (!bike || !evidence)
        throw new Refusal("A calibration belongs to a model card.", "Choose the bike that was ridden.", {
          bike: "Choose a bike.",
        });
      await keepCalibration(
        shop,
        { bikeId: bike.id, source: "log", evidence, samples: answer.steady, note: input.note },
        call.key,
      );
    }
    const told = {
      ...answer,
      bike: bike?.name ?? null,
      model: bike?.model ?? null,
      ventsUnknown: !bike?.card.ventedTo || bike.card.ventedTo.value === "unknown",
      kept: keep,
    };
    return {
      shown: { answer: JSON.stringify(told), typed: JSON.stringify(typedLog(input)) },
      ...(keep ? { toast: "Kept for the model card." } : {}),
    };
  },
  "file",
);
