"use server";
import { recordEffect, withdrawEffect } from "@/lib/data/jobs/effects";
import { action } from "@/lib/gate/action";
import { EffectSchema, WithdrawEffectSchema } from "@/lib/schemas/effects";

export const readEffect = action("intake.write", EffectSchema, async (shop, input, call) => {
  await recordEffect(shop, { ...input, key: call.key });
  return { toast: "Kept." };
});

export const withdraw = action("intake.write", WithdrawEffectSchema, async (shop, input) => {
  await withdrawEffect(shop, input);
  return { toast: "Withdrawn: nothing counts with it any more." };
});
