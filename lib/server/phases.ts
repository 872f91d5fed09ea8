import { createHash, randomBytes } from "node:crypto";
import {
  accessSync,
  chmodSync,
  constants,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { configuration, reconfigure } from "@/lib/configuration/configuration";
import { LEAST_SECRET } from "@/lib/configuration/settings";
import { dataFolder, projectRoot } from "@/lib/db/folders";
import { Refusal } from "@/lib/domain/refusal";
import { say } from "@/lib/log/say";

/** Shows one phase of the start and how long it took. */
export async function phase<T>(name: string, run: () => Promise<T> | T): Promise<T> {
  const begun = performance.now();
  process.stdout.write(`  ${name} … `);
  const result = await run();
  const seconds = (performance.now() - begun) / 1000;
  say(typeof result === "string" ? `${result} (${seconds.toFixed(1)} s)` : `${seconds.toFixed(1)} s`);
  return result;
}

/** Makes the data folder and refuses one that cannot be written. */
export function demandDataFolder(): void {
  const folder = dataFolder();
  try {
    mkdirSync(join(folder, "shops"), { recursive: true });
    accessSync(folder, constants.W_OK);
    const probe = join(folder, ".probe");
    writeFileSync(probe, randomBytes(65_536));
    writeFileSync(probe, "");
  } catch (cause) {
    const code = (cause as NodeJS.ErrnoException).code ?? "";
    if (code === "ENOSPC" || code === "EDQUOT")
      throw new Refusal(
        `The disk that holds ${folder} is full.`,
        "Free some space, then start again. Nothing was changed.",
      );
    throw new Refusal(
      `The data folder ${folder} cannot be written (${code}).`,
      "Make it writable, or set DATA_DIR to a folder that is. Nothing was changed.",
    );
  }
}

/** The secret that signs sessions: NEXTAUTH_SECRET, or one made once and kept beside the data. */
export function takeSecret(): void {
  if (configuration().NEXTAUTH_SECRET) return;
  const file = join(dataFolder(), "secret");
  if (!existsSync(file)) {
    writeFileSync(file, randomBytes(48).toString("base64url"), { mode: 0o600 });
    chmodSync(file, 0o600);
  }
  const kept = readFileSync(file, "utf8").trim();
  demandLongSecret(kept, file);
  reconfigure({ NEXTAUTH_SECRET: kept });
}

/** A short secret can be guessed from any session's cookie; whoever knows it signs in as anybody. */
function demandLongSecret(secret: string, where: string): void {
  if (secret.length < LEAST_SECRET)
    throw new Refusal(
      `The secret in ${where} has ${secret.length} characters; at least ${LEAST_SECRET} keep sessions safe. The server was not started.`,
      "Put a long random text there (openssl rand -base64 48), or leave NEXTAUTH_SECRET unset and one is made. A new secret signs everybody out, and second factors are set up anew.",
    );
}

/** Refuses a port that something else holds, before any long work. */
export function demandPort(port: number, host: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once("error", (cause: NodeJS.ErrnoException) => {
      const taken = cause.code === "EADDRINUSE";
      reject(
        new Refusal(
          taken
            ? `Port ${port} is taken by another program.`
            : `Port ${port} cannot be opened on ${host} (${cause.code}).`,
          `Stop that program, or start with another port: PORT=${port + 1} npm start. Nothing was changed.`,
        ),
      );
    });
    probe.listen(port, host, () => probe.close(() => resolve()));
  });
}

const SOURCES = [
  "app",
  "lib",
  "demo",
  "prisma",
  "next.config.mjs",
  "package-lock.json",
  "package.json",
  "tsconfig.json",
  ".postcssrc.json",
];

/** A digest of all that a build is made from: the same digest means the build is current. */
export function sourceDigest(): string {
  const hash = createHash("sha256");
  const visit = (path: string) => {
    const full = join(projectRoot, path);
    if (!existsSync(full)) return;
    if (statSync(full).isDirectory()) for (const name of readdirSync(full).sort()) visit(join(path, name));
    else hash.update(path).update("\0").update(readFileSync(full)).update("\0");
  };
  for (const source of SOURCES) visit(source);
  return hash.digest("hex");
}
