import { randomBytes, randomUUID } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";
import {
  type ExportToMake,
  exportsToKeep,
  noteExportFailed,
  noteExportReady,
  takeExportToMake,
} from "@/lib/data/people/exports";
import { exportsFolder } from "@/lib/db/folders";
import { log } from "@/lib/log/log";
import { inProcess } from "../inProcess";

const HOLDER = randomUUID();
const LONGEST_MS = 2 * 3_600_000;
const FAILED = "It could not be made. Whoever runs the server finds the reason in its log.";

/** Makes the export that has waited longest, if any does: in a process of its own, behind the server's in priority. One at a time. */
export async function exportRound(clock: () => Date): Promise<void> {
  const next = await takeExportToMake(HOLDER, clock());
  if (next) await make(next, clock);
}

async function make({ shopId, slug }: ExportToMake, clock: () => Date): Promise<void> {
  const began = performance.now();
  mkdirSync(exportsFolder(), { recursive: true, mode: 0o700 });
  const file = `${randomBytes(16).toString("hex")}.zip`;
  const place = join(exportsFolder(), file);
  const code = await inProcess("lib/server/moving/makeExport.ts", [shopId, HOLDER, place], LONGEST_MS);
  const ms = Math.round(performance.now() - began);
  if (code !== 0) {
    log().error({ shop: slug, ms, code }, "A shop could not be exported.");
    return noteExportFailed(shopId, HOLDER, FAILED);
  }
  const { size: bytes } = statSync(place);
  await noteExportReady(shopId, HOLDER, { file, bytes }, clock());
  log().info({ shop: slug, ms, bytes }, "A shop was exported.");
}

/** A file may be in the making without a row that names it. */
const YOUNG_MS = LONGEST_MS + 3_600_000;

/** Removes exports whose day is over, and what a stop left of one in the making. Answers how many files. */
export async function sweepExports(now: Date): Promise<number> {
  const stays = await exportsToKeep(now);
  if (!existsSync(exportsFolder())) return 0;
  const gone = readdirSync(exportsFolder()).filter((name) => {
    if (stays.has(name)) return false;
    const found = statSync(join(exportsFolder(), name), { throwIfNoEntry: false });
    const ours = /^[0-9a-f]{32}\.zip(\.(in-the-making|sqlite(-wal|-shm)?))?$/.test(name);
    return ours && found !== undefined && now.getTime() - found.mtimeMs > YOUNG_MS;
  });
  for (const name of gone) rmSync(join(exportsFolder(), name), { force: true });
  return gone.length;
}
