"use server";
import { captionPhoto, removePhoto, restorePhoto } from "@/lib/data/photos/change";
import { action } from "@/lib/gate/action";
import { CaptionSchema, PhotoVersionSchema } from "@/lib/schemas/photos";

export const caption = action("photo.write", CaptionSchema, async (shop, input) => {
  await captionPhoto(shop, input);
  return { toast: "The caption is kept." };
});

export const remove = action("photo.write", PhotoVersionSchema, async (shop, input) => {
  const version = await removePhoto(shop, input);
  return { toast: "Photo removed.", undo: { fields: { id: String(input.id), version: String(version) } } };
});

export const putBack = action("photo.write", PhotoVersionSchema, async (shop, input) => {
  await restorePhoto(shop, input);
  return { toast: "The photo is back." };
});
