import { AsyncLocalStorage } from "node:async_hooks";

/** How a request or a job ended. "refused" is a Refusal or a 4xx: what was asked for was not done, and nothing failed. */
export type Ending = "done" | "refused" | "failed" | "cut off";

/** What is known of the request that is being answered; filled in as the gate finds it out. */
export interface AboutRequest {
  readonly id: string;
  shop?: string;
  person?: string;
  ending?: Ending;
  /** Statements that databases have been asked for it. */
  statements?: number;
}

// The server and the bundled pages hold a copy of this module each, and must find one store.
const kept = globalThis as unknown as { throttlewrightRequest?: AsyncLocalStorage<AboutRequest> };
kept.throttlewrightRequest ??= new AsyncLocalStorage();
const store = kept.throttlewrightRequest;

export function inRequest<T>(about: AboutRequest, run: () => T): T {
  return store.run(about, run);
}

export function aboutRequest(): AboutRequest | undefined {
  return store.getStore();
}

/** Adds what has become known of this request; nothing outside one. */
export function noteRequest(found: Omit<Partial<AboutRequest>, "id">): void {
  const about = store.getStore();
  if (about) Object.assign(about, found);
}

/** One more statement was asked of a database for this request. */
export function countStatement(): void {
  const about = store.getStore();
  if (about) about.statements = (about.statements ?? 0) + 1;
}
