"use server";
import { z } from "zod";
import { askForSample, removeSample } from "@/lib/data/people/sampleShop";
import { Refusal } from "@/lib/domain/refusal";
import { personAction } from "@/lib/gate/personAction";
import { sampleOffered } from "@/lib/gate/sample";

const NothingSchema = z.object({});

export const openSampleShop = personAction(NothingSchema, async (session) => {
  if (!sampleOffered())
    throw new Refusal("This server makes no sample shops.", "Ask whoever runs it.", {}, "missing");
  await askForSample(session.personId, new Date());
  return { to: "/account/sample" };
});

export const removeSampleShop = personAction(NothingSchema, async (session) => {
  await removeSample(session.personId, new Date());
  return { to: "/account", toast: "The sample shop is removed." };
});
