import type { ShopFault } from "@/lib/db/shopFaults";
import type { ProcessReport } from "@/lib/gate/processes";

/** A worker that takes requests: its number, and the socket at which the others hand on to it. */
export interface Up {
  readonly worker: number;
  readonly socket: string;
}

/** What a worker has to know before it serves. */
export interface Welcome extends Up {
  readonly up: readonly Up[];
  readonly faults: readonly ShopFault[];
}

/** What a worker asks the primary, and is answered. */
export type OfWorker = {
  readonly hello: readonly [asked: null, answer: Welcome];
  /** It takes requests from now on. */
  readonly serving: readonly [asked: null, answer: null];
  /** The worker that a shop is at home with; null where there is no such shop. */
  readonly home: readonly [asked: string, answer: number | null];
  /** Bytes of a file that came from an address: milliseconds to wait before more are read. */
  readonly spend: readonly [asked: { readonly address: string; readonly bytes: number }, answer: number];
  readonly reports: readonly [asked: null, answer: readonly ProcessReport[]];
  /** A shop has shown itself damaged. */
  readonly shut: readonly [asked: ShopFault, answer: null];
};

/** What the primary asks a worker. */
export type OfPrimary = {
  readonly up: readonly [asked: readonly Up[], answer: null];
  readonly report: readonly [asked: null, answer: ProcessReport];
  readonly shut: readonly [asked: ShopFault, answer: null];
};
