import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { loadEnvFile } from "node:process";
import { Refusal } from "../domain/refusal";
import { type Configuration, type SettingName, SettingsSchema } from "./settings";

/** Next.js bundles this file more than once; all copies share one reading. */
const kept = globalThis as unknown as { throttlewrightConfiguration?: Configuration | undefined };

type Environment = Readonly<Record<string, string | undefined>>;

/** The settings of this process, read once. Refuses what cannot be used, every fault by its name. */
export function configuration(): Configuration {
  kept.throttlewrightConfiguration ??= configurationOf(process.env);
  return kept.throttlewrightConfiguration;
}

/** Settings out of an environment, checked. */
export function configurationOf(environment: Environment): Configuration {
  const read = SettingsSchema.safeParse(environment);
  if (read.success) return read.data;
  const faults = new Map<PropertyKey, string>();
  for (const { path, message } of read.error.issues) {
    const name = path[0] ?? "";
    if (!faults.has(name)) faults.set(name, `  ${String(name)} ${message}`);
  }
  throw new Refusal(
    `These settings cannot be used:\n${[...faults.values()].join("\n")}`,
    "Mend or remove them, then start again (README.md lists every setting). Nothing was changed.",
  );
}

/** What a command does first: takes up the settings' file beside what the environment says, and refuses faults. */
export function readSettingsFile(root: string): Configuration {
  const { ENV_FILE = ".env" } = process.env;
  const file = resolve(root, ENV_FILE);
  if (ENV_FILE !== "off" && existsSync(file)) loadEnvFile(file);
  delete kept.throttlewrightConfiguration;
  return configuration();
}

/** Changes settings of this process and of those it starts, and reads all anew. */
export function reconfigure(changes: Partial<Record<SettingName, string | undefined>>): void {
  const changed = { ...process.env, ...changes };
  // A fault is told before anything is changed.
  kept.throttlewrightConfiguration = configurationOf(changed);
  for (const [name, value] of Object.entries(changes))
    if (value === undefined) delete process.env[name];
    else process.env[name] = value;
}

/** The environment of a program that is started, with what that program is told besides. */
export function environmentWith(more: Readonly<Record<string, string>>): NodeJS.ProcessEnv {
  return { ...process.env, ...more };
}

/** Tells the libraries in this process what they read by themselves from the environment. */
export function tellLibraries(more: Readonly<Record<string, string>>): void {
  Object.assign(process.env, more);
}
