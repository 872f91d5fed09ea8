import { AsyncLocalStorage } from "node:async_hooks";
import type { ServerResponse } from "node:http";

interface Marked {
  tooOftenS?: number;
}

// One for the web server and for the pages it runs, which are bundled apart from it.
const kept = globalThis as unknown as { throttlewrightAnswer?: AsyncLocalStorage<Marked> };
kept.throttlewrightAnswer ??= new AsyncLocalStorage();

/** Says that this request came too often: whatever page or form state is answered goes out with 429 and Retry-After. */
export function markTooOften(waitMs: number): void {
  const marked = kept.throttlewrightAnswer?.getStore();
  if (marked) marked.tooOftenS = Math.max(1, Math.ceil(waitMs / 1000));
}

/**
 * Runs a request whose answer may be marked. Pages and server actions of Next.js have no way to say 429 themselves:
 * the status is put in as the head is written.
 */
export function answering<T>(response: ServerResponse, run: () => T): T {
  const marked: Marked = {};
  const writeHead = response.writeHead.bind(response) as (...args: unknown[]) => ServerResponse;
  response.writeHead = ((status: number, ...rest: unknown[]) => {
    if (marked.tooOftenS === undefined) return writeHead(status, ...rest);
    response.setHeader("Retry-After", String(marked.tooOftenS));
    return writeHead(429, ...rest.filter((part) => typeof part !== "string"));
  }) as ServerResponse["writeHead"];
  return (kept.throttlewrightAnswer as AsyncLocalStorage<Marked>).run(marked, run);
}
