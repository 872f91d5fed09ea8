import { execFile } from "node:child_process";
import { promisify } from "node:util";
import { nodeArgs } from "./compiled";

export interface Told {
  readonly code: number;
  readonly text: string;
}

/** A command as the server's owner runs it, in a process of its own: its exit code and all it said. */
export async function runCommand(
  script: string,
  args: readonly string[],
  env: Readonly<Record<string, string>> = {},
): Promise<Told> {
  try {
    const { stdout, stderr } = await promisify(execFile)(process.execPath, [...nodeArgs(script), ...args], {
      env: { ...process.env, ...env },
      maxBuffer: 16 * 1024 * 1024,
    });
    return { code: 0, text: `${stdout}${stderr}` };
  } catch (cause) {
    const ended = cause as { code?: number; stdout?: string; stderr?: string };
    return { code: ended.code ?? -1, text: `${ended.stdout}${ended.stderr}` };
  }
}
