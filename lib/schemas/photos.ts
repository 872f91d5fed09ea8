import { z } from "zod";
import { PHOTO, PHOTO_NOUNS } from "@/lib/domain/photos/limits";
import { formId } from "./ids";
import { oneLine } from "./oneLine";

/** What a photo that is being sent shows; carried in the address, since the body is the picture. */
export const PhotoOfSchema = z.object({
  noun: z.enum(PHOTO_NOUNS, "Say what the photo shows."),
  id: formId(),
  key: z
    .string()
    .regex(/^[\w-]{8,80}$/)
    .optional(),
});

/** When a photo was taken that had to wait on a device: by its clock, like when it was sent. */
export const PhotoWaitedSchema = z.object({
  at: z.string(),
  sent: z.string(),
  off: z.string().optional(),
  who: z.string().optional(),
});

export const PhotoVersionSchema = z.object({ id: formId(), version: formId() });

export const CaptionSchema = PhotoVersionSchema.extend({
  caption: oneLine(PHOTO.captionLength, `Keep this under ${PHOTO.captionLength} characters.`),
});
