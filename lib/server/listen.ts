import {
  createServer,
  type IncomingMessage,
  type Server,
  type ServerOptions,
  type ServerResponse,
} from "node:http";
import { leave } from "./leave";
import { CAME_FROM } from "./processes/forward";
import type { Place } from "./processes/worker";

export interface ListenOptions {
  readonly port: number;
  readonly host: string;
  /** Where several processes serve together: this one's place among them. */
  readonly place?: Place | undefined;
}

/** Answers a request that came from the address `remote`. */
export type Answering = (
  request: IncomingMessage,
  response: ServerResponse,
  remote: string | undefined,
) => void;

/** Listens until a stop signal comes. Beside others it listens at a private socket too, for what they hand on to it. */
export async function listen({ port, host, place }: ListenOptions, answer: Answering): Promise<Server> {
  const server = webServer((request, response) => {
    const { remoteAddress } = request.socket;
    if (place) place.take(request, response, () => answer(request, response, remoteAddress));
    else answer(request, response, remoteAddress);
  });
  // Longer than proxies and browsers keep a connection they do not use (60 s is usual): were the server first to close one,
  // a request just sent on it would be lost.
  server.keepAliveTimeout = 75_000;
  const servers = [server];
  if (place) {
    // HTTP/1.0 has no Host, and is handed on as HTTP/1.1.
    const inner = webServer(
      (request, response) => answer(request, response, request.headers[CAME_FROM]?.toString()),
      { requireHostHeader: false },
    );
    inner.keepAliveTimeout = 0;
    await listening(inner, () => inner.listen(place.socket));
    servers.push(inner);
  }
  await listening(server, () => server.listen(port, host));
  stopGently(servers);
  return server;
}

function webServer(
  answer: (request: IncomingMessage, response: ServerResponse) => void,
  options: ServerOptions = {},
): Server {
  const server = createServer({ connectionsCheckingInterval: 5_000, ...options }, answer);
  // A head must come at once and a request within minutes, however slowly it is sent.
  server.headersTimeout = 30_000;
  server.requestTimeout = 330_000;
  return server;
}

function listening(server: Server, begin: () => void): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.once("listening", resolve);
    begin();
  });
}

/** On a stop signal: no new requests, running ones finish, databases close. */
function stopGently(servers: readonly Server[]): void {
  let stopping = false;
  const stop = () => {
    if (stopping) return;
    stopping = true;
    const closed = servers.map((server) => new Promise((resolve) => server.close(resolve)));
    void Promise.all(closed).then(leave);
    for (const server of servers) server.closeIdleConnections();
    setTimeout(() => {
      for (const server of servers) server.closeAllConnections();
    }, 5_000).unref();
  };
  process.once("SIGTERM", stop);
  process.once("SIGINT", stop);
}
