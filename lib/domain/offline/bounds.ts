import type { KeptAct } from "./acts";

/** What one device keeps (judgement): a long day's work on several jobs fits, a phone's storage is not eaten up. */
export const KEPT = {
  mostActs: 300,
  mostPhotos: 30,
  mostPhotoBytes: 80 * 1024 * 1024,
  /** Cards of a person's day. */
  mostCards: 8,
  /** Small pictures of one card. */
  mostPictures: 60,
  /** Steps of one card, from the next one on. */
  mostSteps: 120,
  /** A week: after it what is kept is cleared, read or not. */
  ageMs: 7 * 86_400_000,
} as const;

/** Why another act finds no room, in a sentence with a remedy; null where it does. `bytes` are those of its photo. */
export function noRoom(
  acts: readonly Pick<KeptAct, "bytes">[],
  bytes: number,
): { readonly message: string; readonly remedy: string } | null {
  if (acts.length >= KEPT.mostActs)
    return {
      message: `${KEPT.mostActs} acts wait on this device: it keeps no more.`,
      remedy: "Go where there is a connection; they are sent by themselves. Then do this again.",
    };
  if (bytes === 0) return null;
  const photos = acts.filter((act) => act.bytes > 0);
  const total = photos.reduce((sum, act) => sum + act.bytes, bytes);
  if (photos.length < KEPT.mostPhotos && total <= KEPT.mostPhotoBytes) return null;
  return {
    message: "This device keeps no more photos until those that wait are sent.",
    remedy: "Take it with the phone's own camera, and add it once there is a connection.",
  };
}

/** True for what was kept longer than a week ago; a clock that went backwards makes nothing old. */
export const tooOld = (keptAtMs: number, nowMs: number): boolean => nowMs - keptAtMs > KEPT.ageMs;
