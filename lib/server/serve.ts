import { randomBytes, randomUUID } from "node:crypto";
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import next from "next";
import { configuration } from "@/lib/configuration/configuration";
import { tellChanges } from "@/lib/db/changes";
import { closeDirectory } from "@/lib/db/directory";
import { projectRoot } from "@/lib/db/folders";
import { closePool } from "@/lib/db/pools";
import { closeShops } from "@/lib/db/shop";
import { answering } from "@/lib/gate/answerStatus";
import { clientAddress } from "@/lib/gate/clientAddress";
import { watchEventLoop } from "@/lib/gate/eventLoop";
import { isOtherLoopback, isOurOrigin, publicUrl } from "@/lib/gate/origin";
import { picturePolicy } from "@/lib/gate/picture";
import { log } from "@/lib/log/log";
import { inRequest } from "@/lib/log/request";
import { closeWorkers, startWorkers } from "@/lib/workers/pool";
import { refuse, takeBody } from "./body";
import { withRequestLine } from "./requestLine";

export interface ServeOptions {
  readonly port: number;
  readonly host: string;
  readonly dev: boolean;
}

/** The web server: Next.js behind our own headers. The configured address is the only truth about the host. */
export async function serve({ port, host, dev }: ServeOptions): Promise<Server> {
  const app = next({ dev, dir: projectRoot, hostname: host, port });
  await app.prepare();
  const handle = app.getRequestHandler();
  const server = createServer({ connectionsCheckingInterval: 5_000 }, (request, response) => {
    const id = dress(request, response, dev);
    withRequestLine(request, response, id, (about) => {
      if (elsewhere(request, response)) return;
      const answer = (whole: IncomingMessage) =>
        answering(response, () => handle(whole, response)).catch((cause: unknown) => {
          log().error({ err: cause }, "A request was not answered.");
          if (!response.headersSent) response.writeHead(500);
          response.end();
        });
      // What is known of a request is lost over the events of its body, and taken up again here.
      takeBody(request, response, (whole) => void inRequest(about, () => answer(whole)));
    });
  });
  // A head must come at once and a request within minutes, however slowly it is sent.
  server.headersTimeout = 30_000;
  server.requestTimeout = 330_000;
  // Longer than proxies and browsers keep a connection they do not use (60 s is usual): were the server first to close one,
  // a request just sent on it would be lost.
  server.keepAliveTimeout = 75_000;
  if (dev) server.on("upgrade", app.getUpgradeHandler());
  await new Promise<void>((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, host, resolve);
  });
  startWorkers();
  watchEventLoop();
  stopGently(server);
  return server;
}

/** Puts our headers on request and response; answers the request's id. */
function dress(request: IncomingMessage, response: ServerResponse, dev: boolean): string {
  const ours = publicUrl();
  const nonce = randomBytes(16).toString("base64");
  const policy = contentPolicy(nonce, ours.protocol === "https:", dev);
  const trusted = configuration().TRUST_PROXY;
  const forwarded = request.headers["x-forwarded-for"]?.toString();
  if (forwarded !== undefined && !trusted) tellOfProxy();
  for (const name of Object.keys(request.headers))
    if (name.startsWith("x-forwarded-") || name === "forwarded" || name === "x-client-address")
      delete request.headers[name];
  request.headers["x-client-address"] = clientAddress(request.socket.remoteAddress, forwarded, trusted);
  request.headers["x-forwarded-host"] = ours.host;
  request.headers["x-forwarded-proto"] = ours.protocol.replace(":", "");
  const id = randomUUID();
  request.headers["x-request-id"] = id;
  // Only this tells the frame of a page which page it is of.
  request.headers["x-page"] = (request.url ?? "").split("?")[0] ?? "";
  request.headers["x-query"] = (request.url ?? "").split("?")[1] ?? "";
  request.headers["content-security-policy"] = policy;
  response.setHeader("Content-Security-Policy", picturePolicy(request.url ?? "") ?? policy);
  response.setHeader("X-Content-Type-Options", "nosniff");
  response.setHeader("X-Frame-Options", "DENY");
  response.setHeader("Referrer-Policy", "same-origin");
  response.setHeader("Cross-Origin-Opener-Policy", "same-origin");
  response.setHeader(
    "Permissions-Policy",
    "camera=(self), microphone=(), geolocation=(), payment=(), usb=()",
  );
  response.setHeader("X-Request-Id", id);
  if (ours.protocol === "https:") response.setHeader("Strict-Transport-Security", "max-age=31536000");
  return id;
}

let told = false;

/** A proxy that nobody told of makes all people look like one: said once. */
function tellOfProxy(): void {
  if (told) return;
  told = true;
  log().warn(
    "Requests come with X-Forwarded-For, but TRUST_PROXY is not set: people behind that proxy cannot be told apart, so limits are coarse. If the proxy is yours, set TRUST_PROXY=on.",
  );
}

function contentPolicy(nonce: string, https: boolean, dev: boolean): string {
  const scripts = dev
    ? "'self' 'unsafe-inline' 'unsafe-eval'"
    : `'self' 'nonce-${nonce}' 'strict-dynamic' 'wasm-unsafe-eval'`;
  return [
    "default-src 'self'",
    `script-src ${scripts}`,
    // Style attributes carry computed sizes of drawings; style elements only come from our own files.
    dev ? "style-src 'self' 'unsafe-inline'" : `style-src 'self' 'nonce-${nonce}'`,
    "style-src-attr 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
    ...(https ? ["upgrade-insecure-requests"] : []),
  ].join("; ");
}

/**
 * People who come by another name of this machine are sent to the one address that links and the origin check know; a form
 * from another address is told of it in words, before Next.js refuses it without any. True where that was the answer.
 */
function elsewhere(request: IncomingMessage, response: ServerResponse): boolean {
  const ours = publicUrl();
  const path = request.url ?? "/";
  const { origin } = request.headers;
  if (request.method === "GET" || request.method === "HEAD") {
    if (path.startsWith("/api/") || !isOtherLoopback(request.headers.host ?? "")) return false;
    response.writeHead(307, {
      Location: ours.origin + (path.startsWith("/") ? path : "/"),
      "Cache-Control": "no-store",
    });
    response.end();
    return true;
  }
  if (origin === undefined || isOurOrigin(origin)) return false;
  refuse(
    request,
    response,
    403,
    `This came from another address than this server's own, so nothing was done.\nOpen ${ours.origin} and do it there.`,
  );
  return true;
}

/** On a stop signal: no new requests, running ones finish, databases close. */
function stopGently(server: Server): void {
  let stopping = false;
  const stop = () => {
    if (stopping) return;
    stopping = true;
    server.close(() => void leave());
    server.closeIdleConnections();
    setTimeout(() => server.closeAllConnections(), 5_000).unref();
  };
  process.once("SIGTERM", stop);
  process.once("SIGINT", stop);
}

async function leave(): Promise<void> {
  await closeWorkers();
  // What is not told is found by the daily look.
  await tellChanges().catch(() => undefined);
  await closeShops();
  await closeDirectory();
  await closePool();
  process.exit(0);
}
