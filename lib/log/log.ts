import pino from "pino";
import { configuration } from "../configuration/configuration";
import { aboutRequest } from "./request";
import { loggedError, scrubbed } from "./scrub";

// The server and the bundled pages hold a copy of this module each, and must write through one logger.
const kept = globalThis as unknown as {
  throttlewrightLog?: pino.Logger;
  throttlewrightLogOut?: pino.DestinationStream;
  throttlewrightWorker?: number;
};

/** More than this waiting for a reader that stands still is dropped rather than kept in memory. */
const MOST_WAITING = 8 * 1024 * 1024;

/** The log: a line of JSON each. What is said inside a request carries its id, shop and person. */
export function log(): pino.Logger {
  kept.throttlewrightLog ??= newLog(out());
  return kept.throttlewrightLog;
}

function out(): pino.DestinationStream {
  kept.throttlewrightLogOut ??= pino.destination({ dest: 1, sync: false, maxLength: MOST_WAITING });
  return kept.throttlewrightLogOut;
}

/** Puts a line that another process of this server has written into the same log. */
export function writeLine(line: string): void {
  out().write(`${line}\n`);
}

/** From now on each line says which worker wrote it. */
export function nameWorker(worker: number): void {
  kept.throttlewrightWorker = worker;
}

/** Takes another logger for this process: a readable one while developing. */
export function logTo(stream: pino.DestinationStream): void {
  kept.throttlewrightLog = newLog(stream);
}

/** Keys whose values are never written, whoever hands them over. */
const SECRET_KEYS = ["password", "passwordHash", "token", "tokenHash", "secret", "cookie", "authorization"];
const PRIVATE_KEYS = ["email", "phone", "address"];

function newLog(stream: pino.DestinationStream): pino.Logger {
  const hidden = [...SECRET_KEYS, ...PRIVATE_KEYS];
  return pino(
    {
      level: configuration().LOG_LEVEL,
      base: null,
      timestamp: pino.stdTimeFunctions.isoTime,
      formatters: { level: (label) => ({ level: label }) },
      serializers: { err: (cause: unknown) => loggedError(cause) },
      redact: { paths: [...hidden, ...hidden.map((key) => `*.${key}`)], censor: "[hidden]" },
      mixin: () => {
        const about = aboutRequest();
        const worker = kept.throttlewrightWorker;
        return {
          ...(worker ? { worker } : {}),
          ...(about ? { request: about.id } : {}),
          ...(about?.shop ? { shop: about.shop } : {}),
          ...(about?.person ? { person: about.person } : {}),
        };
      },
      // The last net: whatever a message or a library's words hold.
      hooks: { streamWrite: scrubbed },
    },
    stream,
  );
}

/** Runs a job of the server and writes one line of how it ended; throws what the job threw. */
export async function logged<T>(
  job: string,
  about: Record<string, unknown>,
  run: () => Promise<T>,
): Promise<T> {
  const began = performance.now();
  const ms = () => Math.round(performance.now() - began);
  try {
    const result = await run();
    log().info({ job, ...about, ms: ms(), ending: "done" }, "job");
    return result;
  } catch (cause) {
    const refused = cause instanceof Error && cause.name === "Refusal";
    log()[refused ? "warn" : "error"](
      { job, ...about, ms: ms(), ending: refused ? "refused" : "failed", err: cause },
      "job",
    );
    throw cause;
  }
}
