import { spawn } from "node:child_process";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { configuration, environmentWith } from "@/lib/configuration/configuration";
import { projectRoot } from "@/lib/db/folders";
import { Refusal } from "@/lib/domain/refusal";
import { complain } from "@/lib/log/say";
import { sourceDigest } from "./phases";

/** Makes the production build when none is current. Answers what it did. */
export async function ensureBuild(): Promise<string> {
  const folder = join(projectRoot, configuration().NEXT_DIST);
  const stamp = join(folder, "throttlewright-source.txt");
  const digest = sourceDigest();
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === digest) return "current";
  await run([join(projectRoot, "node_modules/next/dist/bin/next"), "build"]);
  writeFileSync(stamp, digest);
  return "built";
}

function run(args: string[]): Promise<void> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, args, {
      cwd: projectRoot,
      env: environmentWith({ NODE_ENV: "production", NEXT_TELEMETRY_DISABLED: "1" }),
      stdio: ["ignore", "pipe", "pipe"],
    });
    let said = "";
    const keep = (chunk: Buffer) => {
      said = (said + chunk.toString()).slice(-20_000);
    };
    child.stdout.on("data", keep);
    child.stderr.on("data", keep);
    child.once("error", reject);
    child.once("exit", (code) => {
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
