import decode from "heic-decode";
import sharp from "sharp";
import { PHOTO } from "@/lib/domain/photos/limits";
import { brokenPhoto, demandPixels } from "@/lib/domain/photos/refused";

/** What the package gives and its types do not say: a picture's size before it is decoded, and the end of the decoder's memory. */
type Pictures = readonly {
  readonly width: number;
  readonly height: number;
  decode(): Promise<{ readonly width: number; readonly height: number; readonly data: Uint8ClampedArray }>;
}[] & { dispose(): void };

/**
 * A phone's HEIC picture as a JPEG no larger than a photo is kept, upright as the picture says. libheif decodes it, in WebAssembly; its
 * size is read before a pixel is.
 */
export async function jpegFromHeic(bytes: Uint8Array): Promise<Uint8Array> {
  const pictures = (await decode.all({ buffer: bytes }).catch(brokenPhoto)) as unknown as Pictures;
  try {
    const first = pictures[0] ?? brokenPhoto(new Error("no picture in it"));
    demandPixels(first.width, first.height);
    const { width, height, data } = await first.decode().catch(brokenPhoto);
    return await sharp(data, { raw: { width, height, channels: 4 } })
      .resize({ width: PHOTO.large, height: PHOTO.large, fit: "inside", withoutEnlargement: true })
      .flatten({ background: "#ffffff" })
      .jpeg({ quality: 92 })
      .toBuffer();
  } finally {
    // The thread lives on, and so would the decoder's memory.
    pictures.dispose();
  }
}
