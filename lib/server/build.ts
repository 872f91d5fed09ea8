import { spawn } from "node:child_process";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { constants, setPriority } from "node:os";
import { join } from "node:path";
import { configuration, environmentWith } from "@/lib/configuration/configuration";
import { projectRoot } from "@/lib/db/folders";
import { Refusal } from "@/lib/domain/refusal";
import { complain } from "@/lib/log/say";
import { keptWorkerScript, makeWorkerScript } from "@/lib/outside/workerScript";
import { compiledFolder, compileServer } from "./compile";
import { sourceDigest } from "./phases";
import { shareSameChunks } from "./sameChunks";

/**
 * Makes the production build when none is current. Answers what it did. It is begun before this returns, with `mask` on what it
 * writes: a web server beside this one may have to read it.
 */
export async function ensureBuild(mask: number): Promise<string> {
  const folder = join(projectRoot, configuration().NEXT_DIST);
  const stamp = join(folder, "throttlewright-source.txt");
  const digest = sourceDigest();
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === digest) return "current";
  await withMask(mask, () => run([join(projectRoot, "node_modules/next/dist/bin/next"), "build"], digest));
  shareSameChunks(folder);
  const compiled = compiledFolder(folder);
  await withMask(mask, () => compileServer(compiled));
  const offline = await makeWorkerScript();
  withMask(mask, () => writeFileSync(keptWorkerScript(), offline));
  withMask(mask, () => writeFileSync(stamp, digest));
  return "built";
}

/** A process takes the mask of the moment it is begun in. */
function withMask<T>(mask: number, begin: () => T): T {
  const usual = process.umask(mask);
  try {
    return begin();
  } finally {
    process.umask(usual);
  }
}

function run(args: string[], digest: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, args, {
      cwd: projectRoot,
      env: environmentWith({ NODE_ENV: "production", NEXT_TELEMETRY_DISABLED: "1", BUILT_FROM: digest }),
      stdio: ["ignore", "pipe", "pipe"],
    });
    // It uses all processors there are; the demo shops, made meanwhile in one thread, would come last.
    if (child.pid) setPriority(child.pid, constants.priority.PRIORITY_LOW);
    // Should the start fail meanwhile, nothing goes on without it.
    const stop = () => child.kill();
    process.once("exit", stop);
    let said = "";
    const keep = (chunk: Buffer) => {
      said = (said + chunk.toString()).slice(-20_000);
    };
    child.stdout.on("data", keep);
    child.stderr.on("data", keep);
    child.once("error", reject);
    child.once("exit", (code) => {
      process.off("exit", stop);
      if (code === 0) return resolve();
      const full = /ENOSPC|no space left/i.test(said);
      complain(`\n${said}`);
      reject(
        full
          ? new Refusal(
              "The disk is full: the build could not be written.",
              "Free some space, then start again.",
            )
          : new Refusal(
              "The build failed; what it said stands above.",
              "Mend that, then start again. Data was not touched.",
            ),
      );
    });
  });
}
