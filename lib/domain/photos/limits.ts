/** What a photo may be, and what is made of it. Judgement: a phone's camera at its best fits, a decompression bomb does not. */
export const PHOTO = {
  /** As sent, in bytes. */
  mostBytes: 12 * 1024 * 1024,
  /** Width times height, before anything is decoded. */
  mostPixels: 50_000_000,
  /** Longest side of the large picture, in pixels: a scratch on a needle is still seen. */
  large: 2000,
  /** Longest side of the small one, in pixels. */
  small: 480,
  /** Of one part, bike, step, finding, damage or side of a pair. */
  mostOfOne: 40,
  captionLength: 200,
  /** Days for which a photo that was taken off can be put back. */
  keptDays: 30,
} as const;

/** The sides of a pair of photos, before a change and after it. */
export const PAIR_NOUNS = ["pairBefore", "pairAfter"] as const;
export const PHOTO_NOUNS = ["part", "bike", "step", "finding", "damage", ...PAIR_NOUNS] as const;
export type PhotoNoun = (typeof PHOTO_NOUNS)[number];

/** Names in the file store of a photo's two pictures. */
export function photoFiles(file: string): { large: string; small: string } {
  return { large: `${file}.jpg`, small: `${file}-small.jpg` };
}
