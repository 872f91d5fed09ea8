import type { ChildProcess } from "node:child_process";
import { statSync } from "node:fs";
import { environmentWith } from "@/lib/configuration/configuration";
import { log } from "@/lib/log/log";
import { appliedIfThere, stateOfFile } from "./applied";
import type { MigrationTarget } from "./engine";
import { projectRoot } from "./folders";
import { noteLevel } from "./levels";
import { migrationNames, refuseNewer } from "./migrations";
import { ownScript } from "./ownScript";
import { Remembered } from "./remembered";
import { serverFault } from "./serverFaults";
import { type ShopPlace, schemaSaid } from "./servers";
import { type ShopFault, ShopShut, sicknessOf } from "./shopFaults";

/** What the process that brings shops up to date is asked, and what it answers. */
export interface AskedApart {
  readonly id: number;
  readonly where: MigrationTarget;
  readonly slug: string;
}
export interface AnsweredApart {
  readonly id: number;
  readonly applied: readonly string[];
  readonly fault?: Pick<ShopFault, "reason" | "lasting">;
}

type Shut = (fault: Omit<ShopFault, "since">) => void;
interface Apart {
  readonly child: ChildProcess;
  readonly waiting: Map<number, (answer: AnsweredApart) => void>;
  rest?: NodeJS.Timeout | undefined;
}

/** Of so many shops, those opened last, it is remembered that they are up to date; another is looked at again, which takes one read. */
const MOST_REMEMBERED = 2_000;

// The server and the bundled pages hold a copy of this module each: a shop is brought up to date for both at once.
const kept = globalThis as unknown as {
  throttlewrightOpenings?: Map<string, Promise<void>>;
  throttlewrightUpToDate?: Remembered;
  throttlewrightApart?: Apart | undefined;
};
kept.throttlewrightOpenings ??= new Map();
kept.throttlewrightUpToDate ??= new Remembered(MOST_REMEMBERED);
const openings = kept.throttlewrightOpenings;
const current = kept.throttlewrightUpToDate;

/**
 * Waits until a shop's database is up to date, before it is first opened in this process: whoever asks meanwhile waits for the same.
 * One that cannot be brought up to date is shut, and ShopShut thrown.
 */
export async function upToDate(shop: ShopPlace, where: MigrationTarget, shut: Shut): Promise<void> {
  const key = keyOf(where);
  if (current.has(key)) return;
  const opening = openings.get(key) ?? demandUpToDate(shop, where, shut);
  openings.set(key, opening);
  try {
    await opening;
    current.add(key);
  } finally {
    openings.delete(key);
  }
}

/** A file that was put in the place of another is another one. */
function keyOf(where: MigrationTarget): string {
  if (where.provider === "postgresql") return `${where.url} ${where.schema}`;
  const found = statSync(where.file, { throwIfNoEntry: false });
  return `${where.file} ${found?.ino} ${found?.birthtimeMs}`;
}

async function demandUpToDate(shop: ShopPlace, where: MigrationTarget, shut: Shut): Promise<void> {
  const { slug, database, server } = shop;
  const place = where.provider === "sqlite" ? where.file : schemaSaid(shop);
  const refuse = (fault: Pick<ShopFault, "reason" | "lasting">): never => {
    shut({ slug, database, place, ...fault });
    throw new ShopShut();
  };
  const state = await stateOf(where).catch(async (cause: unknown) => {
    const sick = sicknessOf(cause) ?? (await serverFault(server, true));
    if (sick) return refuse(sick);
    throw cause;
  });
  if (state === "gone") return refuse({ reason: "Its schema is missing.", lasting: false });
  let migrated = false;
  if (state === "behind") {
    const { applied, fault } = await apart(where, shop.slug);
    // Where its server went meanwhile, that is what is wrong, and may pass.
    if (fault) refuse((await serverFault(server, true)) ?? fault);
    migrated = applied.length > 0;
    log().info({ shop: shop.slug, applied }, "A shop's database was brought up to date.");
  } else if (state !== "current") refuse({ reason: state.newer, lasting: true });
  await noteLevel(shop.database, migrated).catch((cause: unknown) =>
    log().warn({ err: cause, shop: shop.slug }, "The directory could not be told that a shop is up to date."),
  );
}

type State = "current" | "behind" | "gone" | { readonly newer: string };

async function stateOf(where: MigrationTarget): Promise<State> {
  let applied: readonly string[] | null;
  let ready = true;
  if (where.provider === "sqlite") {
    try {
      const found = stateOfFile(where.file, 0);
      applied = found.applied;
      ready = found.writeAheadLog;
    } catch (cause) {
      // Somebody has it for themselves: who brings it up to date, most likely. That is waited for there.
      if (/SQLITE_BUSY|SQLITE_LOCKED/.test(String((cause as { code?: unknown }).code))) return "behind";
      throw cause;
    }
  } else applied = await appliedIfThere(where.url, where.schema);
  if (applied === null) return "gone";
  try {
    refuseNewer("shop", where.provider, applied);
  } catch (cause) {
    return { newer: (cause as Error).message };
  }
  const known = migrationNames("shop", where.provider).length;
  return ready && applied.length === known ? "current" : "behind";
}

/** So long does the process stay for the next shop: after a new version's start they come one after the other. */
const REST_MS = 20_000;
let asked = 0;

/** Brings a shop up to date in a process of its own, one shop after the other: a table made anew takes seconds, and nobody else waits for it. */
async function apart(where: MigrationTarget, slug: string): Promise<AnsweredApart> {
  const at = kept.throttlewrightApart ?? started();
  kept.throttlewrightApart = at;
  clearTimeout(at.rest);
  at.child.ref();
  at.child.channel?.ref();
  const id = ++asked;
  const answer = await new Promise<AnsweredApart>((resolve) => {
    at.waiting.set(id, resolve);
    at.child.send({ id, where, slug } satisfies AskedApart, (cause) => {
      if (cause) resolve(endedEarly(id));
    });
  });
  at.waiting.delete(id);
  if (at.waiting.size === 0) {
    at.child.unref();
    at.child.channel?.unref();
    at.rest = setTimeout(() => leave(at), REST_MS).unref();
  }
  return answer;
}

const endedEarly = (id: number): AnsweredApart => ({
  id,
  applied: [],
  fault: {
    reason: "It could not be brought up to date: the process that does it has ended.",
    lasting: false,
  },
});

function leave(at: Apart): void {
  if (kept.throttlewrightApart === at) kept.throttlewrightApart = undefined;
  if (at.child.connected) at.child.disconnect();
}

function started(): Apart {
  // Asked for by name, or the bundler of the pages would look for the file that is started.
  const { spawn } = process.getBuiltinModule("node:child_process");
  const { file, execArgv } = ownScript("lib/db/cli/migrateApart.ts");
  const child = spawn(process.execPath, [...execArgv, file], {
    cwd: projectRoot,
    env: environmentWith({}),
    stdio: ["ignore", "ignore", "inherit", "ipc"],
  });
  const at: Apart = { child, waiting: new Map() };
  child.on("message", (answer: AnsweredApart) => at.waiting.get(answer.id)?.(answer));
  const ended = () => {
    leave(at);
    for (const [id, resolve] of at.waiting) resolve(endedEarly(id));
  };
  child.once("error", ended);
  child.once("close", ended);
  return at;
}
