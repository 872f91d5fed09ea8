import { type ChildProcess, spawn } from "node:child_process";
import { fileURLToPath } from "node:url";
import { nodeArgs } from "./compiled";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** When a process did its work, in milliseconds. */
export interface Ran {
  began: number;
  ended: number;
}

/**
 * Runs scripts in processes of their own, all let go at one moment: each says "ready", waits for a line, and answers
 * one line of JSON.
 */
export async function atOnce<Answer>(scripts: readonly (readonly string[])[]): Promise<(Answer & Ran)[]> {
  const starts = await Promise.all(scripts.map((script) => begin<Answer>(script)));
  return Promise.all(starts.map((go) => go()));
}

async function begin<Answer>([source = "", ...words]: readonly string[]): Promise<
  () => Promise<Answer & Ran>
> {
  const child: ChildProcess = spawn(process.execPath, [...nodeArgs(source), ...words], {
    cwd: root,
    env: process.env,
    stdio: ["pipe", "pipe", "pipe"],
  });
  let said = "";
  let complained = "";
  child.stderr?.on("data", (chunk) => {
    complained += chunk;
  });
  const ended = new Promise<void>((done) => child.on("close", () => done()));
  await new Promise<void>((ready, failed) => {
    child.stdout?.on("data", (chunk) => {
      said += chunk;
      if (said.includes("ready")) ready();
    });
    child.on("close", () => failed(new Error(`${source} ended early: ${complained}`)));
  });
  return async () => {
    child.stdin?.write("go\n");
    await ended;
    const answer = said.split("\n").find((line) => line.startsWith("{"));
    if (!answer) throw new Error(`${source} said nothing: ${complained}`);
    return JSON.parse(answer) as Answer & Ran;
  };
}
