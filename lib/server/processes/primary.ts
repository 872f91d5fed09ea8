import cluster, { type Worker } from "node:cluster";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { shopFaults, tellFaultsBy } from "@/lib/db/shopFaults";
import { Refusal } from "@/lib/domain/refusal";
import { type ProcessReport, reportOf } from "@/lib/gate/processes";
import { log, writeLine } from "@/lib/log/log";
import { Paces } from "../bodyPace";
import { heedFault } from "./faults";
import { Homes } from "./homes";
import { Line } from "./line";
import { wholeLines } from "./lines";
import { nextStart } from "./restarts";
import type { OfPrimary, OfWorker, Up } from "./talk";

export interface WorkersToStart {
  readonly count: number;
  /** The script that a worker runs. */
  readonly script: string;
  /** What Node is told of each, besides what this process was told. */
  readonly execArgv?: readonly string[];
  /** Settings that are another in a worker than here. */
  readonly settings?: Readonly<Record<string, string>>;
  /** Whether there is a shop of this name. */
  readonly isShop: (slug: string) => Promise<boolean>;
  /** A worker of these shops has ended in the middle of its work. */
  readonly cutOff: (slugs: readonly string[]) => Promise<void>;
  /** Workers that once served cannot be kept up any more. */
  readonly failed: (cause: Refusal) => void;
}

export interface Workers {
  /** Ends all workers gently; resolves once they are gone. */
  stop(): Promise<void>;
}

/** One of the workers' places; who holds it changes when a worker dies. */
interface Seat {
  readonly worker: number;
  /** How often a worker of this seat died soon after its start, one after the other. */
  deaths: number;
  held: Held | null;
}

interface Held {
  readonly process: Worker;
  readonly line: Line<OfPrimary, OfWorker>;
  readonly socket: string;
  readonly since: number;
  serving: boolean;
}

/** A worker that stands still this long at a stop is ended. */
const PATIENCE_MS = 15_000;
const REPORT_MS = 2_000;

/**
 * Starts the workers, and one anew for each that dies. Resolves once all of them take requests, or some while others die at
 * their start again and again; throws a Refusal where all do.
 */
export async function startWorkerProcesses(wanted: WorkersToStart): Promise<Workers> {
  const folder = mkdtempSync(join(tmpdir(), "throttlewright-"));
  // Each worker takes connections itself. Handed out by this process, those given to a worker that is just dying would hang.
  cluster.schedulingPolicy = cluster.SCHED_NONE;
  cluster.setupPrimary({
    exec: wanted.script,
    args: [],
    execArgv: [...process.execArgv, ...(wanted.execArgv ?? [])],
    serialization: "advanced",
    // Whole lines of one log: two processes that write into one pipe cut each other's.
    stdio: ["ignore", "pipe", "inherit", "ipc"],
  });
  const seats = Array.from(
    { length: wanted.count },
    (_, n): Seat => ({ worker: n + 1, deaths: 0, held: null }),
  );
  const homes = new Homes(wanted.count);
  const paces = new Paces();
  let stopping = false;
  let begun = 0;

  const holders = () => seats.flatMap(({ held }) => held ?? []);
  const up = (): Up[] =>
    seats.flatMap(({ worker, held }) => (held?.serving ? [{ worker, socket: held.socket }] : []));
  const tellAll = <K extends "up" | "shut">(what: K, told: OfPrimary[K][0], but?: Held) => {
    for (const held of holders()) if (held !== but) held.line.ask(what, told).catch(unheard);
  };
  tellFaultsBy((fault) => tellAll("shut", fault));

  const allServing = Promise.withResolvers<void>();
  let started = false;

  const seat = (at: Seat): void => {
    const socket = join(folder, `${at.worker}.${++begun}`);
    const child = cluster.fork(wanted.settings);
    const line = new Line<OfPrimary, OfWorker>((note) => child.isConnected() && child.send(note as object), {
      hello: () => ({ worker: at.worker, socket, up: up(), faults: shopFaults() }),
      serving: () => {
        held.serving = true;
        tellAll("up", up());
        if (up().length === seats.length) allServing.resolve();
        return null;
      },
      home: async (shop) => homes.homeOf(shop) ?? ((await wanted.isShop(shop)) ? homes.settle(shop) : null),
      spend: ({ address, bytes }) => paces.spend(address, bytes, performance.now()),
      reports,
      shut: (fault) => {
        heedFault(fault);
        tellAll("shut", fault, held);
        return null;
      },
    });
    const held: Held = { process: child, line, socket, since: performance.now(), serving: false };
    at.held = held;
    if (child.process.stdout) wholeLines(child.process.stdout, writeLine);
    child.on("message", (note) => line.receive(note));
    child.once("exit", (code, signal) => died(at, held, signal ?? code));
  };

  const died = (at: Seat, held: Held, how: string | number): void => {
    held.line.close();
    at.held = null;
    if (stopping) return;
    if (held.serving) {
      tellAll("up", up());
      void wanted.cutOff(homes.at(at.worker));
    }
    const { deaths, pauseMs, hopeless } = nextStart(at.deaths, held.serving, performance.now() - held.since);
    at.deaths = deaths;
    log().error({ worker: at.worker, how, again: pauseMs }, "A worker has ended and is started anew.");
    if (hopeless && up().length === 0) return void giveUp(at.worker, how);
    // The others serve: the start need not wait for this one.
    if (hopeless) allServing.resolve();
    setTimeout(() => !stopping && seat(at), pauseMs);
  };

  const giveUp = (worker: number, how: string | number) => {
    const cause = new Refusal(
      `The web server's processes end as they start (worker ${worker} with ${how}); what they said stands above.`,
      "Mend that, then start again. WEB_PROCESSES=1 npm start serves without them. Data was not touched.",
    );
    stopping = true;
    void stopAll().then(() => (started ? wanted.failed(cause) : allServing.reject(cause)));
  };

  const reports = async (): Promise<ProcessReport[]> => {
    const workers = await Promise.all(
      seats.map(async ({ worker, held }) => {
        const silent = { process: `worker ${worker}`, eventLoop: null, rssMb: null, shopsOpen: null };
        return held?.serving ? inTime(held.line.ask("report", null), silent) : silent;
      }),
    );
    return [reportOf("primary"), ...workers];
  };

  const stopAll = async () => {
    stopping = true;
    await Promise.all(holders().map(({ process: child }) => ended(child)));
    rmSync(folder, { recursive: true, force: true });
  };

  for (const one of seats) seat(one);
  await allServing.promise;
  started = true;
  return { stop: stopAll };
}

function ended(child: Worker): Promise<void> {
  return new Promise((resolve) => {
    if (child.isDead()) return resolve();
    child.once("exit", () => resolve());
    child.process.kill("SIGTERM");
    setTimeout(() => child.process.kill("SIGKILL"), PATIENCE_MS).unref();
  });
}

async function inTime<T>(answer: Promise<T>, otherwise: T): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<T>((resolve) => {
    timer = setTimeout(() => resolve(otherwise), REPORT_MS);
  });
  try {
    return await Promise.race([answer.catch(() => otherwise), late]);
  } finally {
    clearTimeout(timer);
  }
}

/** A worker that is going hears nothing any more; its end is told of by itself. */
function unheard(cause: unknown): void {
  log().debug({ err: cause }, "A worker did not hear what it was told.");
}
