import type { S3Client } from "@aws-sdk/client-s3";
import { Refusal } from "../domain/refusal";

/** A bucket and how it is reached. */
export interface Bucket {
  readonly url: string;
  readonly bucket: string;
  readonly region: string;
  readonly accessKey: string;
  readonly secretKey: string;
}

export interface Limits {
  readonly connectMs: number;
  /** For one try. */
  readonly requestMs: number;
  /** For an act with all its tries, its wait for a socket and its answer's body. */
  readonly wholeMs: number;
  /** Names in one page of a list: at most 1,000 in S3's protocol. */
  readonly page: number;
}

export const LIMITS: Limits = { connectMs: 3_000, requestMs: 15_000, wholeMs: 30_000, page: 1_000 };
const TRIES = 3;
const MOST_SOCKETS = 32;

type Sdk = typeof import("@aws-sdk/client-s3");

interface Asked {
  readonly s3: S3Client;
  readonly sdk: Sdk;
  readonly stop: { readonly abortSignal: AbortSignal };
}

/** Next.js bundles this file more than once; all copies share one client and its sockets. */
const kept = globalThis as unknown as {
  throttlewrightPhotoStore?: { readonly by: string; readonly s3: S3Client };
};

/**
 * Asks the store something within the limits. What fails outside of this server becomes a Refusal; `lost` is its sentence of what was
 * not done. Nothing of the SDK's own errors is carried on: some of them hold the request as it was signed.
 */
export async function askS3<T>(
  place: Bucket,
  limits: Limits,
  lost: string,
  ask: (asked: Asked) => Promise<T>,
): Promise<T> {
  // It is slow to load and takes some megabytes: only a server with a bucket pays for it.
  const sdk = await import("@aws-sdk/client-s3");
  const abortSignal = AbortSignal.timeout(limits.wholeMs);
  const late = new Promise<never>((_, reject) =>
    abortSignal.addEventListener("abort", () => reject(abortSignal.reason), { once: true }),
  );
  try {
    return await Promise.race([ask({ s3: clientOf(sdk, place, limits), sdk, stop: { abortSignal } }), late]);
  } catch (cause) {
    throw failureOf(cause, lost);
  }
}

function clientOf({ S3Client }: Sdk, place: Bucket, limits: Limits): S3Client {
  const by = JSON.stringify([place, limits.connectMs, limits.requestMs]);
  if (kept.throttlewrightPhotoStore?.by === by) return kept.throttlewrightPhotoStore.s3;
  const agent = { keepAlive: true, maxSockets: MOST_SOCKETS };
  const s3 = new S3Client({
    endpoint: place.url,
    region: place.region,
    credentials: { accessKeyId: place.accessKey, secretAccessKey: place.secretKey },
    // A host name for each bucket is what few stores but the largest have.
    forcePathStyle: true,
    maxAttempts: TRIES,
    // Checksums in trailers are unknown to many stores.
    requestChecksumCalculation: "WHEN_REQUIRED",
    responseChecksumValidation: "WHEN_REQUIRED",
    requestHandler: {
      connectionTimeout: limits.connectMs,
      requestTimeout: limits.requestMs,
      socketTimeout: limits.requestMs,
      throwOnRequestTimeout: true,
      httpAgent: agent,
      httpsAgent: agent,
    },
  });
  kept.throttlewrightPhotoStore = { by, s3 };
  return s3;
}

interface SdkError {
  readonly name?: string;
  readonly code?: unknown;
  readonly $metadata?: { readonly httpStatusCode?: number };
}

const statusOf = (cause: unknown) => (cause as SdkError | null)?.$metadata?.httpStatusCode ?? 0;

/** True where the bucket answered that it holds nothing of that name. */
export function isNoSuchKey(cause: unknown): boolean {
  return statusOf(cause) === 404 && (cause as SdkError).name !== "NoSuchBucket";
}

function failureOf(cause: unknown, lost: string): unknown {
  const { name = "", code } = (cause ?? {}) as SdkError;
  const status = statusOf(cause);
  if (status === 507 || /StorageFull|QuotaExceeded/.test(name))
    return refusal(`The photo store is full: ${lost}`, "Make room in the bucket, then try once more.");
  if (status >= 500 || status === 408 || status === 429)
    return refusal(`The photo store answers ${status}: ${lost}`, LATER);
  if (status)
    return refusal(
      `The photo store does not do what it was asked (${name.slice(0, 60)}, ${status}): ${lost}`,
      "Whoever runs the server looks at the settings that begin with PHOTO_STORE, and at what their key may do.",
    );
  if (name === "TimeoutError" || name === "AbortError")
    return refusal(`The photo store does not answer in time: ${lost}`, LATER);
  if (typeof code === "string") return refusal(`The photo store cannot be reached (${code}): ${lost}`, LATER);
  return cause;
}

const LATER =
  "Try again in some minutes. If it stays so, whoever runs the server looks after the store and PHOTO_STORE_URL.";

/** A photo that waits in a browser is kept there, and sent again, as long as the server is busy. */
const refusal = (message: string, remedy: string) => new Refusal(message, remedy, {}, "busy");
