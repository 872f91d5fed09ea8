import { askS3, type Bucket, LIMITS } from "./s3Client";

const LONGEST_MS = 2_000;

/** Asks for the first name in a bucket, as its key may. Throws a Refusal where that is not answered within two seconds. */
export async function reachBucket(place: Bucket, longestMs = LONGEST_MS): Promise<void> {
  const limits = { ...LIMITS, wholeMs: longestMs };
  await askS3(place, limits, "nothing is known of its photos.", ({ s3, sdk, stop }) =>
    s3.send(new sdk.ListObjectsV2Command({ Bucket: place.bucket, MaxKeys: 1 }), stop),
  );
}
