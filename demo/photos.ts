import sharp from "sharp";
import { captionPhoto } from "@/lib/data/photos/change";
import { keepPhoto } from "@/lib/data/photos/keep";
import type { ShopHandle } from "@/lib/db/shop";
import type { PhotoNoun } from "@/lib/domain/photos/limits";
import { newFileName } from "@/lib/outside/fileStore";
import { photoStore } from "@/lib/outside/photoStore";
import { preparePicture } from "@/lib/outside/pictures";

const INK = "#1c2022";

/** Drawn, since an invented workshop has no camera: what would lie on the bench, seen from above. */
const DRAWINGS = {
  needle: `<g transform="rotate(-14 600 450)"><path d="M170 420h470l390 24v12l-390 24H170z" fill="#a9aca4"/>
    <path d="M170 434h860" stroke="#f6f2e8" stroke-width="8"/>
    <path d="M215 412v76M255 412v76M295 412v76M335 412v76M375 412v76" stroke="#5a5f5e" stroke-width="12"/>
    <path d="M295 380c34 0 34 140 0 140" fill="none" stroke="${INK}" stroke-width="16"/></g>`,
  rings: `<circle cx="360" cy="450" r="170" fill="none" stroke="#33383a" stroke-width="44"/>
    <path d="M840 280c130-10 200 100 170 200s-150 180-250 130-120-170-60-250 90-76 140-80z" fill="none" stroke="#4b5254"
      stroke-width="34"/><path d="M1000 470l40 14M728 350l-34-22" stroke="#f6f2e8" stroke-width="9"/>`,
  hose: `<path d="M190 640C420 610 420 300 640 300s200 250 420 240" fill="none" stroke="#33383a" stroke-width="96"/>
    <path d="M190 640C420 610 420 300 640 300s200 250 420 240" fill="none" stroke="#4b5254" stroke-width="30"/>
    <path d="M560 262c40 22 62 64 52 100" fill="none" stroke="#f6f2e8" stroke-width="11"/>
    <path d="M604 258c28 24 40 50 36 88" fill="none" stroke="#f6f2e8" stroke-width="6"/>
    <circle cx="594" cy="312" r="118" fill="none" stroke="#9a2e1e" stroke-width="9" stroke-dasharray="26 16"/>`,
  tank: `<path d="M230 520C250 330 480 280 700 300c190 20 270 120 280 230-230 60-520 60-750-10z" fill="#26594a"/>
    <path d="M300 470c60-90 220-120 380-110" fill="none" stroke="#dce9e2" stroke-width="16"/>
    <ellipse cx="690" cy="345" rx="62" ry="26" fill="#5a5f5e"/><path d="M820 500l60-40" stroke="#f5ddd6" stroke-width="9"/>`,
} as const;

async function picture(drawing: keyof typeof DRAWINGS) {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="1200" height="900"><rect width="1200" height="900" fill="#d8cfbd"/>
    <path d="M0 210h1200M0 470h1200M0 720h1200" stroke="#c9bda6" stroke-width="5"/>${DRAWINGS[drawing]}</svg>`;
  return preparePicture(await sharp(Buffer.from(svg)).png().toBuffer());
}

/** Keeps a picture as a photo of something, with its caption. */
export async function photograph(
  shop: ShopHandle,
  of: { noun: PhotoNoun; nounId: number },
  drawing: keyof typeof DRAWINGS,
  caption: string,
): Promise<void> {
  const prepared = await picture(drawing);
  const id = await keepPhoto(shop, photoStore(shop), prepared, { ...of, file: newFileName() });
  await captionPhoto(shop, { id, version: 1, caption });
}
