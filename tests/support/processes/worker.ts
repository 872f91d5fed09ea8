import type { IncomingMessage, ServerResponse } from "node:http";
import { configuration } from "@/lib/configuration/configuration";
import { shopFaults, shutShop } from "@/lib/db/shopFaults";
import { processReports } from "@/lib/gate/processes";
import { log, nameWorker } from "@/lib/log/log";
import { listen } from "@/lib/server/listen";
import { takePlace } from "@/lib/server/processes/worker";

/** A worker without pages, for tests: what a request asks for is the last part of its address. */
const place = await takePlace();
nameWorker(place.worker);
const { PORT: port, SHOPS_OPEN } = configuration();

async function bodyOf(request: IncomingMessage): Promise<string> {
  let body = "";
  for await (const part of request) body += String(part);
  return body;
}

const ACTS: Record<string, (request: IncomingMessage, remote: string | undefined) => unknown> = {
  who: () => ({ shopsOpen: SHOPS_OPEN }),
  echo: async (request, remote) => {
    const { method, url, headers } = request;
    return { method, url, mark: headers["x-mark"], remote, body: await bodyOf(request) };
  },
  spend: (request) => place.pacing.spend("192.0.2.1", Number(request.headers["x-mark"]), 0),
  shut: () => {
    shutShop({ slug: "ill", database: "ill", place: "ill.sqlite", reason: "Damaged.", lasting: true });
  },
  faults: () => shopFaults().map(({ database, since }) => [database, since instanceof Date]),
  reports: processReports,
  /** A line longer than a pipe takes at once. */
  log: () => void log().error({ long: "x".repeat(100_000) }, "long"),
  die: () => process.kill(process.pid, "SIGKILL"),
  /** Until the worker is killed, except for a second worker. */
  dieOnce: () => (place.worker === 1 ? process.kill(process.pid, "SIGKILL") : "answered"),
  wait: () => new Promise((resume) => setTimeout(resume, 300, "waited")),
};

async function answer(request: IncomingMessage, response: ServerResponse, remote: string | undefined) {
  const act = ACTS[request.url?.split(/[/?]/).at(-1) ?? ""];
  // The workers' own sockets have no address.
  const handedOn = request.socket.remoteAddress === undefined;
  const told = await act?.(request, remote);
  response.setHeader("Content-Type", "application/json");
  response.end(JSON.stringify({ worker: place.worker, pid: process.pid, handedOn, told }));
}

await listen({ port, host: "127.0.0.1", place }, (...about) => void answer(...about));
await place.serving();
