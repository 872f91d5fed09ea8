import { log } from "@/lib/log/log";
import { photoBucket } from "@/lib/outside/photoStore";
import { reachBucket } from "@/lib/outside/reachBucket";

/** How the bucket of the photos was when it was last asked. */
export interface PhotoStoreHealth {
  /** Null before the first answer. */
  readonly reached: boolean | null;
  readonly at: string | null;
}

const ASK_AGAIN_MS = 60_000;
const UNKNOWN: PhotoStoreHealth = { reached: null, at: null };

/** Kept once a process: the server's own code and Next.js's bundles each have a copy of this module. */
const kept = globalThis as unknown as {
  throttlewrightPhotoStoreHealth?: { readonly begun: number; last: PhotoStoreHealth };
};

/**
 * What is known of the bucket; null where photos lie in the data folder. Nobody waits for the store: it is asked beside, at most once
 * a minute, and the answer is there for the next who want to know.
 */
export function photoStoreHealth(): PhotoStoreHealth | null {
  const bucket = photoBucket();
  if (!bucket) return null;
  const known = kept.throttlewrightPhotoStoreHealth;
  if (known && performance.now() - known.begun < ASK_AGAIN_MS) return known.last;
  const asked = { begun: performance.now(), last: known?.last ?? UNKNOWN };
  kept.throttlewrightPhotoStoreHealth = asked;
  const told = (reached: boolean) => {
    asked.last = { reached, at: new Date().toISOString() };
  };
  reachBucket(bucket).then(
    () => told(true),
    (cause: unknown) => {
      if (asked.last.reached !== false)
        log().error({ err: cause }, "The bucket of the photos does not answer as it should.");
      told(false);
    },
  );
  return asked.last;
}
