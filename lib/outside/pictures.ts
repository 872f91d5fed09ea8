import { createHash } from "node:crypto";
import { Mutex } from "async-mutex";
import sharp from "sharp";
import { type PictureKind, pictureKind } from "@/lib/domain/photos/kind";
import { PHOTO } from "@/lib/domain/photos/limits";
import { brokenPhoto, demandPixels } from "@/lib/domain/photos/refused";
import { Refusal } from "@/lib/domain/refusal";

/** A photo as it is kept: decoded and encoded anew, turned upright, with nothing of its metadata left. */
export interface Picture {
  readonly large: Uint8Array;
  readonly small: Uint8Array;
  readonly width: number;
  readonly height: number;
  /** SHA-256 of the large picture, in hexadecimal. */
  readonly hash: string;
}

// Each photo is seen once: nothing to gain from keeping what was decoded.
sharp.cache(false);

/** One at a time: fifty megapixels decoded are some hundred megabytes. */
const turn = new Mutex();

/**
 * What can be shown of the bytes that someone sent, or a Refusal that says why not. Papers print JPEG, so that is what is kept.
 * `fromHeic` makes a JPEG of a phone's HEIC picture, away from the event loop; without it such a picture is refused.
 */
export async function preparePicture(
  sent: Uint8Array,
  fromHeic: (bytes: Uint8Array) => Promise<Uint8Array> = refuseHeic,
): Promise<Picture> {
  const bytes = demandKind(sent) === "heic" ? await fromHeic(sent) : sent;
  return turn.runExclusive(async () => {
    await demandSize(bytes);
    const upright = await resized(bytes, PHOTO.large, 84);
    const small = await resized(upright.data, PHOTO.small, 78);
    return {
      large: upright.data,
      small: small.data,
      width: upright.info.width,
      height: upright.info.height,
      hash: createHash("sha256").update(upright.data).digest("hex"),
    };
  });
}

function demandKind(bytes: Uint8Array): PictureKind {
  if (bytes.length === 0) throw new Refusal("Nothing arrived.", "Choose the photo again.");
  if (bytes.length > PHOTO.mostBytes)
    throw new Refusal(
      `The photo is larger than ${PHOTO.mostBytes / 1024 / 1024} MB.`,
      "Take it at a lower quality, or send a smaller copy.",
    );
  const kind = pictureKind(bytes);
  if (kind === null)
    throw new Refusal(
      "This file is not a photo that can be shown.",
      "Send a JPEG, PNG, WebP or HEIC picture.",
    );
  return kind;
}

async function refuseHeic(): Promise<never> {
  throw new Refusal(
    "This photo is a HEIC picture, which not every browser can show.",
    "Take it with the button here, or let the phone save photos as JPEG, then send it again.",
  );
}

/** Dimensions are read off the header, before a pixel is decoded. */
async function demandSize(bytes: Uint8Array): Promise<void> {
  const { width = 0, height = 0 } = await sharp(bytes, { limitInputPixels: false })
    .metadata()
    .catch(brokenPhoto);
  demandPixels(width, height);
}

async function resized(bytes: Uint8Array, side: number, quality: number) {
  return sharp(bytes, { limitInputPixels: PHOTO.mostPixels, failOn: "error", sequentialRead: true })
    .autoOrient()
    .resize({ width: side, height: side, fit: "inside", withoutEnlargement: true })
    .flatten({ background: "#ffffff" })
    .toColourspace("srgb")
    .jpeg({ quality, progressive: true })
    .toBuffer({ resolveWithObject: true })
    .catch(brokenPhoto);
}
