import { readFileSync } from "node:fs";
import { join } from "node:path";
import sharp from "sharp";
import { afterAll, describe, expect, it } from "vitest";
import { Refusal } from "@/lib/domain/refusal";
import { preparePicture } from "@/lib/outside/pictures";
import { closeWorkers, inWorker, withDeadline } from "@/lib/workers/pool";

afterAll(closeWorkers);

/** 96 x 64, the left half #d01010 and the right one #1040c0, written by another encoder (libheif 1.15 with x265). */
const halves = new Uint8Array(readFileSync(join(import.meta.dirname, "../support/halves.heic")));
// Threads stand behind the other tests of the machine.
const prepared = (bytes: Uint8Array) =>
  withDeadline(60_000, () =>
    preparePicture(bytes, (heic) => inWorker({ slug: "saltpan" }, "jpegFromHeic", heic)),
  );
const refusal = (bytes: Uint8Array) => prepared(bytes).catch((cause: unknown) => cause as Refusal);

describe("a phone's HEIC picture", () => {
  it("is kept as a JPEG of the same size and colours", async () => {
    const kept = await prepared(halves);
    expect([kept.width, kept.height]).toEqual([96, 64]);
    expect((await sharp(kept.large).metadata()).format).toBe("jpeg");
    const at = async (left: number) => [
      ...(await sharp(kept.large).extract({ left, top: 32, width: 1, height: 1 }).raw().toBuffer()),
    ];
    for (const [left, wanted] of [
      [12, [208, 16, 16]],
      [84, [16, 64, 192]],
    ] as const)
      for (const [n, value] of (await at(left)).entries())
        expect(Math.abs(value - (wanted[n] as number)), `${left} ${n}`).toBeLessThan(12);
  });

  it("is refused kindly where it arrived in part, and before it is decoded where it is too large", async () => {
    const part = await refusal(halves.slice(0, 620));
    expect(part).toBeInstanceOf(Refusal);
    expect(part).toMatchObject({ message: expect.stringContaining("damaged") });
    // ISO/IEC 23008-12, 6.5.3: the box of the picture's extents has its width and height after version and flags.
    const vast = halves.slice();
    const box = Buffer.from(vast.buffer).indexOf("ispe", 0, "latin1");
    for (const side of [box + 8, box + 12]) new DataView(vast.buffer).setUint32(side, 20_000);
    expect(await refusal(vast)).toMatchObject({ message: expect.stringContaining("400 megapixels") });
  });
});
