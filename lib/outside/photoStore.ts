import { configuration } from "../configuration/configuration";
import { type FileStore, folderStore } from "./fileStore";
import type { Bucket } from "./s3Client";
import { s3Store } from "./s3Store";

/** Where a shop's pictures are kept: in the bucket that the settings name, else in its folder. The one place that chooses. */
export function photoStore(shop: { readonly database: string; readonly files: string }): FileStore {
  const bucket = photoBucket();
  return bucket ? s3Store(bucket, shop.database) : folderStore(shop.files);
}

/** The bucket that photos are kept in; null where they lie in the data folder. */
export function photoBucket(): Bucket | null {
  const {
    PHOTO_STORE_URL: url,
    PHOTO_STORE_BUCKET: bucket,
    PHOTO_STORE_REGION: region,
    PHOTO_STORE_ACCESS_KEY: accessKey,
    PHOTO_STORE_SECRET_KEY: secretKey,
  } = configuration();
  return url && bucket && region && accessKey && secretKey
    ? { url, bucket, region, accessKey, secretKey }
    : null;
}
