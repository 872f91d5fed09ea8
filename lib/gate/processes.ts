import { openShopCount } from "@/lib/db/shop";
import { type EventLoopDelay, eventLoopDelay } from "./eventLoop";

/** How one process of this server is. */
export interface ProcessReport {
  /** "worker 1", "worker 2"...; "primary" beside them; "all" where one process does everything. */
  readonly process: string;
  /** How late its event loop comes to its work; null before it is measured, or where it did not answer in time. */
  readonly eventLoop: EventLoopDelay | null;
  readonly rssMb: number | null;
  readonly shopsOpen: number | null;
}

/** Kept once a process: the server's own code and Next.js's bundles each have a copy of this module. */
const kept = globalThis as unknown as { throttlewrightReports?: () => Promise<readonly ProcessReport[]> };

export function reportOf(process: string): ProcessReport {
  return { process, eventLoop: eventLoopDelay(), rssMb: rssMb(), shopsOpen: openShopCount() };
}

function rssMb(): number {
  return Math.round(process.memoryUsage.rss() / 1e6);
}

/** How every process of this server is. */
export function processReports(): Promise<readonly ProcessReport[]> {
  return kept.throttlewrightReports?.() ?? Promise.resolve([reportOf("all")]);
}

/** Where several processes serve, one of them knows all. */
export function reportBy(ask: () => Promise<readonly ProcessReport[]>): void {
  kept.throttlewrightReports = ask;
}
