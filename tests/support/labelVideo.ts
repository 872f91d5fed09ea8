import { writeFileSync } from "node:fs";
import sharp from "sharp";
import { symbolOf } from "@/lib/documents/labelSymbol";

const WIDTH = 640;
const HEIGHT = 480;
const PAPER = "#e9e6df";

/** One of our labels as a hand holds it before a camera: its bars as the label draws them, tilted, a little out of focus. */
async function grey(code: string): Promise<Buffer> {
  const symbol = symbolOf(code);
  const module = Math.min(3, 380 / symbol.width);
  const tall = symbol.kind === "QR" ? symbol.height * module : 120;
  const wide = symbol.width * module;
  const bars = symbol.dark
    .map(({ x, y, width, height }) =>
      symbol.kind === "QR"
        ? `<rect x="${x * module}" y="${y * module}" width="${width * module}" height="${height * module}"/>`
        : `<rect x="${x * module}" y="0" width="${width * module}" height="${tall}"/>`,
    )
    .join("");
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${HEIGHT}">
    <rect width="${WIDTH}" height="${HEIGHT}" fill="#5c5a55"/>
    <g transform="rotate(4 ${WIDTH / 2} ${HEIGHT / 2})">
      <rect x="${(WIDTH - wide) / 2 - 20}" y="${(HEIGHT - tall) / 2 - 40}" width="${wide + 40}" height="${tall + 80}" fill="${PAPER}"/>
      <g transform="translate(${(WIDTH - wide) / 2} ${(HEIGHT - tall) / 2})" fill="#161616" shape-rendering="crispEdges">${bars}</g>
    </g></svg>`;
  return sharp(Buffer.from(svg)).blur(0.6).greyscale().raw().toBuffer();
}

/** Writes a video that chromium plays as its camera (YUV4MPEG2, 4:2:0): an empty bench for a moment, then the label. */
export async function writeLabelVideo(path: string, code: string): Promise<void> {
  const size = WIDTH * HEIGHT;
  const chroma = Buffer.alloc(size / 2, 128);
  const frame = (luma: Buffer) => Buffer.concat([Buffer.from("FRAME\n"), luma, chroma]);
  const [bench, label] = [frame(Buffer.alloc(size, 92)), frame(await grey(code))];
  writeFileSync(
    path,
    Buffer.concat([
      Buffer.from(`YUV4MPEG2 W${WIDTH} H${HEIGHT} F10:1 Ip A1:1 C420jpeg\n`),
      ...Array.from({ length: 6 }, () => bench),
      ...Array.from({ length: 30 }, () => label),
    ]),
  );
}
