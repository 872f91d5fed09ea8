"use server";
import { recordIntake, withdrawIntake } from "@/lib/data/intakes/record";
import { keptKm } from "@/lib/domain/units/distance";
import { action } from "@/lib/gate/action";
import { IntakeSchema, WithdrawIntakeSchema } from "@/lib/schemas/intakes";

export const takeIn = action("intake.write", IntakeSchema, async (shop, input, call) => {
  const odometerKm = keptKm(input.odometerKm, shop.settings.units);
  const id = await recordIntake(shop, { ...input, odometerKm, key: call.key });
  return { to: `/s/${shop.slug}/bikes/${input.bikeId}/intakes/${id}`, toast: "Intake recorded." };
});

export const withdraw = action("intake.write", WithdrawIntakeSchema, async (shop, input) => {
  const bikeId = await withdrawIntake(shop, input);
  return {
    to: `/s/${shop.slug}/bikes/${bikeId}/intakes/${input.intakeId}`,
    toast: "Withdrawn: nothing counts with it any more.",
  };
});
