import { type FileStore, isKeptName, type KeptFile, keptName } from "./fileStore";
import { askS3, type Bucket, isNoSuchKey, LIMITS } from "./s3Client";

/** Many times what a picture of ours has. */
const MOST_BYTES = 64 * 1024 * 1024;
const REMOVED_AT_ONCE = 16;

/**
 * A file store in an S3-compatible bucket. A shop's files lie under the name of its database, as they do in the folder `files`, so
 * that either can be copied to the other as it is.
 */
export function s3Store(place: Bucket, database: string, limits = LIMITS): FileStore {
  if (!/^[a-z0-9_]+$/.test(database)) throw new Error("Not a database name.");
  const Bucket = place.bucket;
  const Prefix = `${database}/`;
  const keyOf = (name: string) => `${Prefix}${keptName(name)}`;

  const page = (after: string | undefined) =>
    askS3(place, limits, "its photos were not looked through.", async ({ s3, sdk, stop }) => {
      const asked = { Bucket, Prefix, MaxKeys: limits.page, ContinuationToken: after };
      return s3.send(new sdk.ListObjectsV2Command(asked), stop);
    });

  async function* pages(): AsyncGenerator<readonly { readonly key: string; readonly file: KeptFile }[]> {
    let after: string | undefined;
    do {
      const { Contents = [], NextContinuationToken } = await page(after);
      yield Contents.map(({ Key = "", LastModified, Size = 0 }) => ({
        key: Key,
        // One without a day is taken for new: nothing is swept on a guess.
        file: { name: Key.slice(Prefix.length), writtenAt: LastModified ?? new Date(), bytes: Size },
      }));
      after = NextContinuationToken;
    } while (after);
  }

  const removeKey = (Key: string) =>
    askS3(place, limits, "the photo was not removed.", async ({ s3, sdk, stop }) => {
      await s3.send(new sdk.DeleteObjectCommand({ Bucket, Key }), stop);
    });

  return {
    put: async (name, bytes) => {
      const asked = { Bucket, Key: keyOf(name), Body: bytes, ContentType: "image/jpeg" };
      await askS3(place, limits, "the photo was not kept.", ({ s3, sdk, stop }) =>
        s3.send(new sdk.PutObjectCommand(asked), stop),
      );
    },
    get: async (name) => {
      const Key = keyOf(name);
      return askS3(place, limits, "the photo was not read.", async ({ s3, sdk, stop }) => {
        try {
          const { Body, ContentLength = 0 } = await s3.send(new sdk.GetObjectCommand({ Bucket, Key }), stop);
          if (!Body || ContentLength > MOST_BYTES) throw new Error(`${name} is no picture of ours.`);
          return Buffer.from(await Body.transformToByteArray());
        } catch (cause) {
          if (isNoSuchKey(cause)) return null;
          throw cause;
        }
      });
    },
    remove: async (name) => removeKey(keyOf(name)),
    list: async () => {
      const all: KeptFile[] = [];
      for await (const some of pages())
        for (const { file } of some) if (isKeptName(file.name)) all.push(file);
      return all;
    },
    clear: async () => {
      // One by one: to remove many in one request, stores ask for checksums of different kinds.
      for await (const some of pages())
        for (let at = 0; at < some.length; at += REMOVED_AT_ONCE)
          await Promise.all(some.slice(at, at + REMOVED_AT_ONCE).map(({ key }) => removeKey(key)));
    },
  };
}
