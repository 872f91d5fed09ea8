"use server";
import { beginPair, removePair } from "@/lib/data/photos/pairs";
import { action } from "@/lib/gate/action";
import { PairSchema, RemovePairSchema } from "@/lib/schemas/photoPairs";

export const begin = action("photo.write", PairSchema, async (shop, input, call) => {
  await beginPair(shop, { ...input, key: call.key });
  return { toast: "Begun: take the photo before." };
});

export const removeEmpty = action("photo.write", RemovePairSchema, async (shop, input) => {
  await removePair(shop, input);
  return { toast: "Removed." };
});
