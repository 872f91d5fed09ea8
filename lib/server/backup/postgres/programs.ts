import { type ChildProcess, spawn } from "node:child_process";
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { environmentWith } from "@/lib/configuration/configuration";
import { Refusal } from "@/lib/domain/refusal";

type Program = "pg_dump" | "pg_restore" | "psql";

/** Debian keeps the programs by version, others on the path. The newest reads every older server. */
function placeOf(program: Program): string {
  const debian = "/usr/lib/postgresql";
  const versions = existsSync(debian) ? readdirSync(debian).sort((a, b) => Number(b) - Number(a)) : [];
  const { PATH = "" } = environmentWith({});
  const folders = [...versions.map((version) => join(debian, version, "bin")), ...PATH.split(":")];
  const found = folders
    .filter((folder) => folder !== "")
    .map((folder) => join(folder, program))
    .find((path) => existsSync(path));
  if (found) return found;
  throw new Refusal(
    `Copies of PostgreSQL need the program ${program}, which is not on this machine.`,
    "Install PostgreSQL's client programs, as new as the server at least (Debian: apt-get install postgresql-client). Nothing was changed.",
  );
}

/** Refuses a machine that cannot copy or restore, before anything is begun. */
export function demandPrograms(...programs: Program[]): void {
  for (const program of programs) placeOf(program);
}

/** What libpq takes from an address; all else that stands there is of other libraries, and libpq refuses it. */
const TAKEN = ["host", "port", "sslmode", "sslrootcert", "sslcert", "sslkey", "connect_timeout", "options"];

/** Starts one of PostgreSQL's programs, on a database where it is to ask one. */
export function startProgram(program: Program, args: readonly string[], url?: string): ChildProcess {
  const [asked, env] = url === undefined ? [[], {}] : addressed(url);
  return spawn(placeOf(program), [...asked, ...args], {
    env: environmentWith({ ...env, LC_ALL: "C", PGCLIENTENCODING: "UTF8" }),
    stdio: ["pipe", "pipe", "pipe"],
  });
}

/** The password goes by the environment: arguments are read by everybody on the machine. */
function addressed(url: string): [args: string[], env: Record<string, string>] {
  const address = new URL(url);
  const password = decodeURIComponent(address.password);
  address.password = "";
  for (const name of [...address.searchParams.keys()])
    if (!TAKEN.includes(name)) address.searchParams.delete(name);
  return [[`--dbname=${address.href}`], password ? { PGPASSWORD: password } : {}];
}

/** Resolves once a program has ended well; else throws what it said last. */
export function ended(child: ChildProcess, program: Program): Promise<void> {
  let said = "";
  child.stderr?.on("data", (chunk: Buffer) => {
    said = (said + chunk.toString()).slice(-4_000);
  });
  return new Promise((resolve, reject) => {
    child.once("error", reject);
    child.once("close", (code, signal) => {
      if (code === 0) resolve();
      else reject(failure(program, said, String(signal ?? code)));
    });
  });
}

function failure(program: Program, said: string, ending: string): Error {
  if (/No space left on device|disk full/i.test(said))
    return new Refusal("The disk is full.", "Free some space, then do it again. Nothing was changed.");
  if (/server version mismatch/.test(said))
    return new Refusal(
      `The program ${program} here is older than the server.`,
      "Install PostgreSQL's client programs of the server's version. Nothing was changed.",
    );
  const line =
    said.split("\n").find((text) => /error|fatal/i.test(text)) ?? said.trim().split("\n").at(-1) ?? "";
  return new Error(`${program} ended with ${ending}: ${line.slice(0, 300)}`);
}
