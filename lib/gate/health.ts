import { timingSafeEqual } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { configuration } from "@/lib/configuration/configuration";
import { backupRecord } from "@/lib/db/backupRecord";
import { directory } from "@/lib/db/directory";
import { projectRoot } from "@/lib/db/folders";
import { shopFaults } from "@/lib/db/shopFaults";
import { tokenHash } from "@/lib/db/token";
import { log } from "@/lib/log/log";
import type { EventLoopDelay } from "./eventLoop";
import { type PhotoStoreHealth, photoStoreHealth } from "./photoStoreHealth";
import { type ProcessReport, processReports } from "./processes";

export interface Readiness {
  /** The directory can be read, and takes a write. */
  readonly reads: boolean;
  readonly writes: boolean;
}

export interface Health extends Readiness {
  readonly well: boolean;
  readonly version: string;
  /** How late the event loop comes to its work, in the process that is the latest; null before it is measured. */
  readonly eventLoop: EventLoopDelay | null;
  readonly processes: readonly ProcessReport[];
  /** The last backup of this data folder; null where none is known of. */
  readonly backup: {
    readonly at: string;
    readonly bytes: number;
    readonly bad: number;
    readonly made: boolean;
  } | null;
  /** Whether the bucket of the photos answers; null where they lie in the data folder. */
  readonly photoStore: PhotoStoreHealth | null;
  readonly shopsShut: number;
  /** Names, places and reasons: only for who shows the token. */
  readonly shut?: readonly { slug: string; place: string; reason: string; since: Date }[];
  readonly withoutGoodCopy?: readonly { database: string; problems: readonly string[] }[];
}

let version: string | undefined;

export function versionHere(): string {
  version ??= (JSON.parse(readFileSync(join(projectRoot, "package.json"), "utf8")) as { version: string })
    .version;
  return version;
}

/** All that whoever watches the server wants to know. Strangers get numbers, no shop's name. */
export async function healthNow(authorization: string | null): Promise<Health> {
  const ready = await readiness();
  const record = backupRecord();
  const faults = shopFaults();
  const last = record?.last;
  const processes = await processReports();
  return {
    well: ready.reads && ready.writes,
    ...ready,
    version: versionHere(),
    eventLoop: latest(processes),
    processes,
    backup: last ? { at: last.beganAt, bytes: last.bytes, bad: last.bad, made: !last.failed } : null,
    photoStore: photoStoreHealth(),
    shopsShut: faults.length,
    ...(mayName(authorization)
      ? {
          shut: faults.map(({ slug, place, reason, since }) => ({ slug, place, reason, since })),
          withoutGoodCopy: Object.entries(record?.shops ?? {})
            .filter(([, copy]) => copy.problems.length > 0)
            .map(([database, { problems }]) => ({ database, problems })),
        }
      : {}),
  };
}

function latest(processes: readonly ProcessReport[]): EventLoopDelay | null {
  const known = processes.flatMap(({ eventLoop }) => eventLoop ?? []);
  return known.sort((x, y) => y.longestMs - x.longestMs)[0] ?? null;
}

/** HEALTH_TOKEN as a bearer token lets names be seen; without that variable nobody sees them here. */
function mayName(authorization: string | null): boolean {
  const wanted = configuration().HEALTH_TOKEN;
  if (!wanted || !authorization) return false;
  // Hashes have one length, so comparing takes one time.
  const [given, right] = [authorization, `Bearer ${wanted}`].map((text) => Buffer.from(tokenHash(text)));
  return timingSafeEqual(given as Buffer, right as Buffer);
}

const ASK_AGAIN_MS = 5_000;
const PATIENCE_MS = 5_000;

const kept = globalThis as unknown as { throttlewrightReady?: { at: number; answer: Promise<Readiness> } };

/** Whether the directory answers and takes a write. Asked of it once in five seconds, however many want to know. */
export function readiness(): Promise<Readiness> {
  const last = kept.throttlewrightReady;
  if (last && performance.now() - last.at < ASK_AGAIN_MS) return last.answer;
  const answer = asked();
  kept.throttlewrightReady = { at: performance.now(), answer };
  return answer;
}

async function asked(): Promise<Readiness> {
  const reads = await answers("The directory database does not answer.", () =>
    directory().read.shop.findFirst({ select: { id: true }, orderBy: { id: "asc" } }),
  );
  if (!reads) return { reads, writes: false };
  const at = new Date();
  const writes = await answers("The directory database takes no write.", () =>
    directory().write((tx) =>
      tx.probe.upsert({ where: { id: 1 }, create: { id: 1, at }, update: { at }, select: { id: true } }),
    ),
  );
  return { reads, writes };
}

async function answers(otherwise: string, ask: () => Promise<unknown>): Promise<boolean> {
  let timer: NodeJS.Timeout | undefined;
  const tooLate = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error("No answer in five seconds.")), PATIENCE_MS);
  });
  try {
    await Promise.race([ask(), tooLate]);
    return true;
  } catch (cause) {
    log().error({ err: cause }, otherwise);
    return false;
  } finally {
    clearTimeout(timer);
  }
}
