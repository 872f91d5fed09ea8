import sharp from "sharp";
import { captionPhoto } from "@/lib/data/photos/change";
import { keepPhoto } from "@/lib/data/photos/keep";
import type { ShopHandle } from "@/lib/db/shop";
import type { PhotoNoun } from "@/lib/domain/photos/limits";
import { folderStore, newFileName } from "@/lib/outside/fileStore";
import { preparePicture } from "@/lib/outside/pictures";

const INK = "#1c2022";
const BRASS = "#c7973c";

/** Drawn, since an invented workshop has no camera: what would lie on the bench, seen from above. */
const DRAWINGS = {
  jet: `<g transform="rotate(-18 600 450)"><rect x="430" y="350" width="340" height="200" rx="14" fill="${BRASS}"/>
    <path d="M470 350v200M510 350v200M550 350v200M590 350v200" stroke="#8a5f12" stroke-width="9"/>
    <rect x="770" y="385" width="90" height="130" fill="#a97c2a"/><circle cx="860" cy="450" r="17" fill="${INK}"/>
    <rect x="425" y="436" width="42" height="28" fill="${INK}"/></g>`,
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
  const id = await keepPhoto(shop, folderStore(shop.files), prepared, { ...of, file: newFileName() });
  await captionPhoto(shop, { id, version: 1, caption });
}
