import decode from "heic-decode";
import sharp from "sharp";
import { PHOTO } from "@/lib/domain/photos/limits";
import { Refusal } from "@/lib/domain/refusal";

/** A picture before it is decoded: its size is there, which the package's types do not say. */
type Sized = Awaited<ReturnType<typeof decode.all>>[number] & {
  readonly width: number;
  readonly height: number;
};

/**
 * A phone's HEIC picture as a JPEG no larger than a photo is kept, upright as the picture says. libheif decodes it, in WebAssembly; its
 * size is read before a pixel is.
 */
export async function jpegFromHeic(bytes: Uint8Array): Promise<Uint8Array> {
  const pictures = await decode.all({ buffer: bytes }).catch(broken);
  const first = pictures[0] as Sized | undefined;
  if (!first) throw broken("no picture in it");
  if (first.width * first.height > PHOTO.mostPixels)
    throw new Refusal(
      `The photo has ${Math.round((first.width * first.height) / 1_000_000)} megapixels; ${PHOTO.mostPixels / 1_000_000} is the most.`,
      "Send a smaller copy.",
    );
  const { width, height, data } = await first.decode().catch(broken);
  return sharp(data, { raw: { width, height, channels: 4 } })
    .resize({ width: PHOTO.large, height: PHOTO.large, fit: "inside", withoutEnlargement: true })
    .flatten({ background: "#ffffff" })
    .jpeg({ quality: 92 })
    .toBuffer();
}

function broken(cause: unknown): never {
  throw new Refusal(
    "The photo cannot be read: it is damaged or arrived only in part.",
    `Take it again. (${cause instanceof Error ? cause.message.slice(0, 120) : String(cause)})`,
  );
}
