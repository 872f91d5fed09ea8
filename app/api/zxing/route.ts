import { readFile } from "node:fs/promises";
import { join } from "node:path";

let reader: Promise<Buffer<ArrayBuffer>> | undefined;

/** The code reader of zxing-wasm, for browsers that have none of their own. Its address carries its version, so it may be kept for good. */
export async function GET(): Promise<Response> {
  reader ??= readFile(join(process.cwd(), "node_modules/zxing-wasm/dist/reader/zxing_reader.wasm"));
  return new Response(await reader, {
    headers: {
      "Content-Type": "application/wasm",
      "Cache-Control": "public, max-age=31536000, immutable",
      "X-Content-Type-Options": "nosniff",
    },
  });
}
