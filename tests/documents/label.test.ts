import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import sharp from "sharp";
import { beforeAll, describe, expect, it } from "vitest";
import { prepareZXingModule, readBarcodes } from "zxing-wasm/reader";
import { labelsPdf } from "@/lib/documents/label";
import { symbolOf } from "@/lib/documents/labelSymbol";

const require = createRequire(import.meta.url);
const POPPLER = "/usr/bin/pdftoppm";
const ZBAR = "/usr/bin/zbarimg";
const shop = { name: "Saltpan Carburettor Works", locale: "en-AU", country: "AU" };

beforeAll(async () => {
  const wasm = readFileSync(require.resolve("zxing-wasm/reader/zxing_reader.wasm"));
  await prepareZXingModule({
    overrides: {
      wasmBinary: wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength) as ArrayBuffer,
    },
    fireImmediately: true,
  });
});

/** A symbol as a picture, as an independent reader (zxing-cpp) takes it. */
function picture(code: string) {
  const symbol = symbolOf(code);
  const scale = 4;
  const tall = symbol.kind === "QR" ? symbol.height * scale : 80;
  const width = symbol.width * scale;
  const data = new Uint8ClampedArray(width * tall * 4).fill(255);
  for (const bar of symbol.dark) {
    const top = symbol.kind === "QR" ? bar.y * scale : 0;
    const bottom = symbol.kind === "QR" ? top + bar.height * scale : tall;
    for (let y = top; y < bottom; y++)
      for (let x = bar.x * scale; x < (bar.x + bar.width) * scale; x++)
        data.fill(0, (y * width + x) * 4, (y * width + x) * 4 + 3);
  }
  return { data, width, height: tall, colorSpace: "srgb" } as ImageData;
}

const read = async (image: ImageData | Uint8Array, most = 1) =>
  (await readBarcodes(image, { formats: ["Code128", "QRCode"], maxNumberOfSymbols: most })).map(
    (found) => found.text,
  );

/** What ZBar reads in a picture, one code a line; it knows Code 128 and QR without being told which. */
const zbar = (file: string) =>
  execFileSync(ZBAR, ["--quiet", "--raw", "--nodbus", file], { stdio: "pipe" })
    .toString()
    .trimEnd()
    .split("\n");

describe("a label's code", () => {
  it("is read back as it was written: bars for short codes, a square for long ones and for letters beyond ASCII", async () => {
    for (const [code, kind] of [
      ["RM-122.5", "Code 128"],
      ["012345", "Code 128"],
      ["a^FNC1 ^065", "Code 128"],
      ["Nål-Ø 2.5", "QR"],
      ["NEEDLE-JET/SERIES-640-LONG-SHANK-0.5", "QR"],
    ] as const) {
      expect(symbolOf(code).kind).toBe(kind);
      expect(await read(picture(code)), code).toEqual([code]);
    }
  });

  it("is read back for any code a part can have", async () => {
    const letters = fc.string({
      unit: fc.constantFrom(..."ABCXYZabcxyz0123456789-/.#+_ ^"),
      minLength: 1,
      maxLength: 40,
    });
    const codes = letters.map((text) => text.trim()).filter((text) => text !== "");
    await fc.assert(
      fc.asyncProperty(codes, async (code) => {
        expect(await read(picture(code))).toEqual([code]);
      }),
      { numRuns: 60 },
    );
  }, 60_000);
});

describe("a label's code, by a second reader", () => {
  it.skipIf(!existsSync(ZBAR))(
    "is read by ZBar as by zxing (skipped: zbarimg absent, Debian's zbar-tools)",
    async () => {
      const work = mkdtempSync(join(tmpdir(), "throttlewright-zbar-"));
      try {
        const codes = [
          "RM-122.5",
          "MH-125",
          "012345",
          "a^FNC1 ^065",
          "Nål-Ø 2.5",
          "NEEDLE-JET/SERIES-640-LONG-0.5",
        ];
        for (const [at, code] of codes.entries()) {
          const { data, width, height } = picture(code);
          const file = join(work, `${at}.png`);
          await sharp(Buffer.from(data.buffer), { raw: { width, height, channels: 4 } })
            .removeAlpha()
            .png()
            .toFile(file);
          expect(zbar(file), code).toEqual([code]);
        }
      } finally {
        rmSync(work, { recursive: true, force: true });
      }
    },
    60_000,
  );
});

describe("labels on paper", () => {
  const labels = Array.from({ length: 26 }, (_, n) => ({
    code: `RM-${100 + n * 2.5}`,
    name: `Main jet, round, ${n}`,
    bin: "B2",
  }));

  it("come one to a page on a 62 mm roll, and twenty-four to an A4 sheet from the first free one", async () => {
    const pages = async (pdf: Uint8Array) => {
      const document = await getDocument({ data: pdf.slice(), verbosity: 0 }).promise;
      const page = await document.getPage(1);
      return {
        count: document.numPages,
        mm: [page.view[2], page.view[3]].map((points) => Math.round(((points ?? 0) * 25.4) / 72)),
      };
    };
    const day = "2026-11-25";
    expect(await pages(await labelsPdf({ labels, paper: "roll", shop, day }))).toEqual({
      count: 26,
      mm: [62, 29],
    });
    expect(await pages(await labelsPdf({ labels: labels.slice(0, 24), paper: "sheet", shop, day }))).toEqual({
      count: 1,
      mm: [210, 297],
    });
    expect(
      await pages(await labelsPdf({ labels: labels.slice(0, 24), paper: "sheet", start: 2, shop, day })),
    ).toMatchObject({ count: 2 });
  });

  it.skipIf(!existsSync(POPPLER))(
    "are read off the printed page (skipped: poppler absent)",
    async () => {
      const work = mkdtempSync(join(tmpdir(), "throttlewright-labels-"));
      try {
        const shot = async (pdf: Uint8Array, most: number) => {
          writeFileSync(join(work, "labels.pdf"), pdf);
          execFileSync(POPPLER, [
            "-r",
            "300",
            "-png",
            "-singlefile",
            join(work, "labels.pdf"),
            join(work, "page"),
          ]);
          const found = await read(new Uint8Array(readFileSync(join(work, "page.png"))), most);
          if (existsSync(ZBAR)) expect(zbar(join(work, "page.png")).toSorted()).toEqual(found.toSorted());
          return found;
        };
        const day = "2026-11-25";
        const long = { code: "NEEDLE-JET/SERIES-640-LONG-SHANK-0.5", name: "Needle jet", bin: "A1" };
        expect(
          await shot(await labelsPdf({ labels: [labels[9] ?? long], paper: "roll", shop, day }), 1),
        ).toEqual([labels[9]?.code]);
        expect(await shot(await labelsPdf({ labels: [long], paper: "roll", shop, day }), 1)).toEqual([
          long.code,
        ]);
        const sheet = await shot(
          await labelsPdf({ labels: labels.slice(0, 24), paper: "sheet", shop, day }),
          24,
        );
        expect(sheet.toSorted()).toEqual(
          labels
            .slice(0, 24)
            .map((one) => one.code)
            .toSorted(),
        );
      } finally {
        rmSync(work, { recursive: true, force: true });
      }
    },
    60_000,
  );
});
