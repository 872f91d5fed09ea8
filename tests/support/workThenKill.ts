import { spawn } from "node:child_process";
import type Database from "better-sqlite3";
import { expect } from "vitest";
import { nodeArgs } from "./compiled";

/**
 * Lets a script of tests/support work on a database for `ms` after the first line that holds `begun`, then ends it with
 * SIGKILL. Answers the whole lines it said, one JSON each: what it was told is done.
 */
export function workThenKill<T>(
  script: string,
  args: readonly string[],
  { ms, begun }: { ms: number; begun: string },
): Promise<T[]> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [...nodeArgs(`tests/support/${script}`), ...args], {
      env: process.env,
      stdio: ["ignore", "pipe", "pipe"],
      detached: true,
    });
    let text = "";
    let complained = "";
    let counting = false;
    let killed = false;
    child.stderr.on("data", (chunk: Buffer) => {
      complained += chunk.toString();
    });
    child.stdout.on("data", (chunk: Buffer) => {
      text += chunk.toString();
      if (counting || !text.includes(begun)) return;
      counting = true;
      setTimeout(() => {
        killed = true;
        // The whole group: what it may have started too.
        process.kill(-(child.pid as number), "SIGKILL");
      }, ms);
    });
    child.once("error", reject);
    child.once("close", () => {
      const whole = text.split("\n").slice(0, -1);
      if (!killed) reject(new Error(`It stopped by itself: ${complained}`));
      else resolve(whole.map((line) => JSON.parse(line) as T));
    });
  });
}

/** A file that a crash could have torn is whole. */
export function demandWhole(raw: Database.Database): void {
  expect(raw.pragma("integrity_check", { simple: true })).toBe("ok");
  expect(raw.pragma("foreign_key_check")).toEqual([]);
  raw.close();
}
