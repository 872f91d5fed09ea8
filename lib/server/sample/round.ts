import { randomUUID } from "node:crypto";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { noteSampleFailed, takeSampleToMake } from "@/lib/data/people/sampleShop";
import { projectRoot } from "@/lib/db/folders";
import { log } from "@/lib/log/log";
import { inProcess } from "../inProcess";

const HOLDER = randomUUID();
const LONGEST_MS = 5 * 60_000;
const FAILED = "It could not be made. Nothing of it is left.";

/**
 * Makes the sample shop that has waited longest, if any does: in a process of its own, behind the server's in priority, so that
 * no request waits for it. One at a time.
 */
export async function sampleRound(clock: () => Date): Promise<void> {
  if (!existsSync(join(projectRoot, "demo/sample.ts"))) return;
  const personId = await takeSampleToMake(HOLDER, clock());
  if (personId === null) return;
  const began = performance.now();
  const code = await inProcess("lib/server/sample/make.ts", [personId], LONGEST_MS);
  const ms = Math.round(performance.now() - began);
  if (code === 0) return void log().info({ ms }, "A sample shop was made.");
  log().error({ ms, code }, "A sample shop could not be made.");
  await noteSampleFailed(personId, FAILED);
}
