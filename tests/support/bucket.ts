import { createHash, createHmac } from "node:crypto";
import { createServer, type IncomingMessage } from "node:http";
import type { AddressInfo } from "node:net";
import { afterAll } from "vitest";
import type { Bucket } from "@/lib/outside/s3Client";

/**
 * A bucket of a store on this machine, as long as the test file runs. It speaks what Amazon S3's API reference says of PutObject,
 * GetObject, DeleteObject and ListObjectsV2, and holds every request to its signature (Signature Version 4, in the header).
 */
export async function ownBucket(): Promise<Bucket> {
  const key = { accessKey: "TESTKEY", secretKey: "a-secret/of+the-tests" };
  const objects = new Map<string, { bytes: Buffer; at: Date }>();
  const server = createServer(async (request, answer) => {
    const pieces: Buffer[] = [];
    for await (const piece of request) pieces.push(piece as Buffer);
    const body = Buffer.concat(pieces);
    const { pathname, searchParams } = new URL(request.url ?? "/", "http://store");
    const [, bucket, ...rest] = pathname.split("/").map(decodeURIComponent);
    const name = rest.join("/");
    const failed = (status: number, code: string) =>
      answer.writeHead(status, XML).end(`<Error><Code>${code}</Code><Message>${code}.</Message></Error>`);
    if (!isSigned(request, body, key)) return failed(403, "SignatureDoesNotMatch");
    if (bucket !== "photos") return failed(404, "NoSuchBucket");
    if (searchParams.get("list-type") === "2") return answer.writeHead(200, XML).end(listed(searchParams));
    const found = objects.get(name);
    if (request.method === "PUT") objects.set(name, { bytes: body, at: new Date() });
    if (request.method === "DELETE") objects.delete(name);
    if (request.method !== "GET") return answer.writeHead(request.method === "PUT" ? 200 : 204).end();
    return found ? answer.writeHead(200).end(found.bytes) : failed(404, "NoSuchKey");
  });
  const listed = (asked: URLSearchParams): string => {
    const all = [...objects.keys()].sort().filter((name) => name.startsWith(asked.get("prefix") ?? ""));
    const after = asked.get("continuation-token")?.replace(/^after /, "") ?? "";
    const rest = all.filter((name) => name > after);
    const some = rest.slice(0, Number(asked.get("max-keys") ?? 1000));
    const more = some.length < rest.length;
    const rows = some.map((name) => {
      const { bytes, at } = objects.get(name) as { bytes: Buffer; at: Date };
      return `<Contents><Key>${name}</Key><LastModified>${at.toISOString()}</LastModified><Size>${bytes.length}</Size></Contents>`;
    });
    const next = more ? `<NextContinuationToken>after ${some.at(-1)}</NextContinuationToken>` : "";
    return `<ListBucketResult><IsTruncated>${more}</IsTruncated>${next}${rows.join("")}</ListBucketResult>`;
  };
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  afterAll(() => {
    server.closeAllConnections();
    server.close();
  });
  const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  return { url, bucket: "photos", region: "eu-test-1", ...key };
}

const XML = { "Content-Type": "application/xml" };

const sha256 = (bytes: Buffer | string) => createHash("sha256").update(bytes).digest("hex");
const hmac = (by: Buffer | string, text: string) => createHmac("sha256", by).update(text).digest();

/** As Amazon's "Authenticating Requests: Using the Authorization Header" tells it. */
function isSigned(
  { headers, method, url = "" }: IncomingMessage,
  body: Buffer,
  { accessKey, secretKey }: { accessKey: string; secretKey: string },
): boolean {
  const [, who, scope = "", names = "", signature] =
    /^AWS4-HMAC-SHA256 Credential=(\w+)\/([^,]+), SignedHeaders=([^,]+), Signature=(\w+)$/.exec(
      headers.authorization ?? "",
    ) ?? [];
  if (who !== accessKey || headers["x-amz-content-sha256"] !== sha256(body)) return false;
  const [path, query = ""] = url.split("?");
  const canonical = [
    method,
    path,
    query.split("&").sort().join("&"),
    ...names.split(";").map((name) => `${name}:${String(headers[name]).trim()}`),
    "",
    names,
    sha256(body),
  ].join("\n");
  const text = `AWS4-HMAC-SHA256\n${headers["x-amz-date"]}\n${scope}\n${sha256(canonical)}`;
  const signing = scope.split("/").reduce<Buffer | string>(hmac, `AWS4${secretKey}`);
  return hmac(signing, text).toString("hex") === signature;
}

/** The settings that lead to a bucket. */
export function leadingTo(bucket: Bucket) {
  return {
    PHOTO_STORE_URL: bucket.url,
    PHOTO_STORE_BUCKET: bucket.bucket,
    PHOTO_STORE_REGION: bucket.region,
    PHOTO_STORE_ACCESS_KEY: bucket.accessKey,
    PHOTO_STORE_SECRET_KEY: bucket.secretKey,
  };
}
