import { Refusal } from "../refusal";
import { PHOTO } from "./limits";

/** Refuses a picture of more pixels than are decoded. */
export function demandPixels(width: number, height: number): void {
  const pixels = width * height;
  if (pixels <= PHOTO.mostPixels) return;
  throw new Refusal(
    `The photo has ${Math.round(pixels / 1_000_000)} megapixels; ${PHOTO.mostPixels / 1_000_000} is the most.`,
    "Send a smaller copy.",
  );
}

/** Throws what is told of a photo that a decoder could not read, with the decoder's own words in short. */
export function brokenPhoto(cause: unknown): never {
  throw new Refusal(
    "The photo cannot be read: it is damaged or arrived only in part.",
    `Take it again. (${cause instanceof Error ? cause.message.slice(0, 120) : "unknown"})`,
  );
}
