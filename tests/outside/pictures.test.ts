import { crc32 } from "node:zlib";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { pictureKind } from "@/lib/domain/photos/kind";
import { PHOTO } from "@/lib/domain/photos/limits";
import { Refusal } from "@/lib/domain/refusal";
import { preparePicture } from "@/lib/outside/pictures";
import { phonePhoto } from "../support/pictures";

const refusal = (bytes: Uint8Array) => preparePicture(bytes).catch((cause: unknown) => cause as Refusal);

const plain = (width: number, height: number) =>
  sharp({ create: { width, height, channels: 4, background: { r: 200, g: 160, b: 40, alpha: 0.5 } } });

/** The head of a PNG that claims a size, and nothing after it; W3C PNG, 11.2.2. */
function pngHead(width: number, height: number): Buffer {
  const header = Buffer.alloc(17);
  header.write("IHDR", 0, "latin1");
  header.writeUInt32BE(width, 4);
  header.writeUInt32BE(height, 8);
  header.set([8, 2, 0, 0, 0], 12);
  const size = Buffer.alloc(4);
  size.writeUInt32BE(13);
  const sum = Buffer.alloc(4);
  sum.writeUInt32BE(crc32(header));
  const empty = Buffer.from([0, 0, 0, 0, 0x49, 0x44, 0x41, 0x54, 0x35, 0xaf, 0x06, 0x1e]);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    size,
    header,
    sum,
    empty,
  ]);
}

describe("a photo that was sent", () => {
  it("is turned upright, and nothing of where, when and by whom it was taken is left in it", async () => {
    const sent = await phonePhoto();
    const before = await sharp(sent).metadata();
    // The picture sent does hold them: orientation 6, and the EXIF block with its GPS part (CIPA DC-008, tag 0x8825).
    expect(before.orientation).toBe(6);
    expect(
      before.exif?.includes(Buffer.from([0x25, 0x88])) || before.exif?.includes(Buffer.from([0x88, 0x25])),
    ).toBe(true);
    expect(sent.includes("Oda Fenn")).toBe(true);
    const kept = await preparePicture(sent);
    for (const bytes of [kept.large, kept.small]) {
      const { exif, xmp, iptc, icc, orientation, format } = await sharp(bytes).metadata();
      expect({ exif, xmp, iptc, icc, orientation, format }).toEqual({ format: "jpeg" });
      expect(Buffer.from(bytes).includes("Exif")).toBe(false);
      expect(Buffer.from(bytes).includes("Oda Fenn")).toBe(false);
    }
    expect([kept.width, kept.height]).toEqual([200, 600]);
    // Orientation 6: what lay at the left stands at the top.
    const top = await sharp(kept.large).extract({ left: 90, top: 60, width: 1, height: 1 }).raw().toBuffer();
    expect((top[0] as number) - (top[2] as number)).toBeGreaterThan(100);
  });

  it("is brought down to its longest side and never up", async () => {
    const large = await preparePicture(await plain(4200, 1000).png().toBuffer());
    expect([large.width, large.height]).toEqual([PHOTO.large, 476]);
    expect((await sharp(large.small).metadata()).width).toBe(PHOTO.small);
    const little = await preparePicture(await plain(90, 60).webp().toBuffer());
    expect([little.width, little.height]).toEqual([90, 60]);
  });

  it("is known by its first bytes, whatever it is called", async () => {
    expect(pictureKind(await plain(4, 4).jpeg().toBuffer())).toBe("jpeg");
    expect(pictureKind(await plain(4, 4).png().toBuffer())).toBe("png");
    expect(pictureKind(await plain(4, 4).webp().toBuffer())).toBe("webp");
    expect(pictureKind(Buffer.from("\0\0\0\x18ftypheic", "latin1"))).toBe("heic");
    for (const other of [
      "",
      "GIF89a",
      "%PDF-1.7",
      "<svg xmlns='http://www.w3.org/2000/svg'/>",
      "RIFF....WAVE",
    ])
      expect(pictureKind(Buffer.from(other)), other).toBeNull();
  });

  it("is refused kindly where it is none, a HEIC, damaged, too large, or a bomb", async () => {
    const svg = await refusal(Buffer.from("<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>"));
    expect(svg).toBeInstanceOf(Refusal);
    expect(svg).toMatchObject({ message: "This file is not a photo that can be shown." });
    expect(await refusal(Buffer.from("\0\0\0\x18ftypheic\0\0\0\0mif1heic", "latin1"))).toMatchObject({
      message: expect.stringContaining("HEIC"),
      remedy: expect.stringContaining("JPEG"),
    });
    const whole = await phonePhoto();
    expect(await refusal(whole.subarray(0, whole.length / 2))).toMatchObject({
      message: expect.stringContaining("damaged"),
    });
    expect(await refusal(Buffer.from([0xff, 0xd8, 0xff, 0xe0]))).toMatchObject({
      message: expect.stringContaining("damaged"),
    });
    const padded = Buffer.concat([whole, Buffer.alloc(PHOTO.mostBytes)]);
    expect(await refusal(padded)).toMatchObject({ message: "The photo is larger than 12 MB." });
    // Sixty bytes that would be 2.7 GB when decoded: refused by what the head claims.
    expect(await refusal(pngHead(30_000, 30_000))).toMatchObject({
      message: expect.stringContaining("900 megapixels"),
    });
    expect(await refusal(Buffer.alloc(0))).toMatchObject({ message: "Nothing arrived." });
  });
});
