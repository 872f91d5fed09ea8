/** Kinds of picture a phone or a browser sends; `heic` is what phones keep by themselves. */
export type PictureKind = "jpeg" | "png" | "webp" | "heic";

const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
/** Brands of the High Efficiency Image File Format with HEVC pictures; ISO/IEC 23008-12, annex B. */
const HEIC = ["heic", "heix", "hevc", "hevx", "heim", "heis", "mif1", "msf1"];

/**
 * The kind of a picture by its first bytes, whatever its name or declared type says; null where it is none of ours.
 * JPEG: ISO/IEC 10918-1 (SOI, then a marker). PNG: W3C PNG, 5.2. WebP: RFC 9649, 2.4. HEIC: ISO/IEC 14496-12, 4.3 (ftyp).
 */
export function pictureKind(bytes: Uint8Array): PictureKind | null {
  const word = (at: number) => String.fromCharCode(...bytes.subarray(at, at + 4));
  if (bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff) return "jpeg";
  if (PNG.every((byte, at) => bytes[at] === byte)) return "png";
  if (word(0) === "RIFF" && word(8) === "WEBP") return "webp";
  if (word(4) === "ftyp" && HEIC.includes(word(8))) return "heic";
  return null;
}
