import { randomBytes, randomUUID } from "node:crypto";
import type { IncomingMessage, ServerResponse } from "node:http";
import next from "next";
import { configuration } from "@/lib/configuration/configuration";
import { readyStrength } from "@/lib/data/people/strength";
import { projectRoot } from "@/lib/db/folders";
import { isSmall } from "@/lib/db/memory";
import { answering } from "@/lib/gate/answerStatus";
import { clientAddress } from "@/lib/gate/clientAddress";
import { keepWatchingEventLoop } from "@/lib/gate/eventLoop";
import { isOtherLoopback, isOurOrigin, publicUrl } from "@/lib/gate/origin";
import { picturePolicy } from "@/lib/gate/picture";
import { log } from "@/lib/log/log";
import { inRequest } from "@/lib/log/request";
import { startWorkers } from "@/lib/workers/pool";
import { refuse, takeBody } from "./body";
import { bodyLimit } from "./bodyLimits";
import { type Answering, type ListenOptions, listen } from "./listen";
import { CAME_FROM } from "./processes/forward";
import { withRequestLine } from "./requestLine";

export interface ServeOptions extends ListenOptions {
  readonly dev: boolean;
}

/** The web server: Next.js behind our own headers. The configured address is the only truth about the host. */
export async function serve({ port, host, dev, place }: ServeOptions): Promise<void> {
  const app = next({ dev, dir: projectRoot, hostname: host, port });
  await app.prepare();
  const handle = app.getRequestHandler();
  const answer: Answering = (request, response, remote) => {
    const id = dress(request, response, remote, dev);
    withRequestLine(request, response, id, (about) => {
      if (elsewhere(request, response)) return;
      const byNext = (whole: IncomingMessage) =>
        answering(response, () => handle(whole, response)).catch((cause: unknown) => {
          log().error({ err: cause }, "A request was not answered.");
          if (!response.headersSent) response.writeHead(500);
          response.end();
        });
      // What is known of a request is lost over the events of its body, and taken up again here.
      const pass = (whole: IncomingMessage) => void inRequest(about, () => byNext(whole));
      takeBody(request, response, pass, bodyLimit, place?.pacing);
    });
  };
  const server = await listen({ port, host, place }, answer);
  if (dev) server.on("upgrade", app.getUpgradeHandler());
  startWorkers();
  // Its dictionaries take 15 MB: on a small machine the first new password waits for them.
  if (!isSmall()) readyStrength();
  keepWatchingEventLoop();
}

/** Puts our headers on request and response; answers the request's id. */
function dress(
  request: IncomingMessage,
  response: ServerResponse,
  remote: string | undefined,
  dev: boolean,
): string {
  const ours = publicUrl();
  const nonce = randomBytes(16).toString("base64");
  const policy = contentPolicy(nonce, ours.protocol === "https:", dev);
  const trusted = configuration().TRUST_PROXY;
  const forwarded = request.headers["x-forwarded-for"]?.toString();
  if (forwarded !== undefined && !trusted) tellOfProxy();
  for (const name of Object.keys(request.headers))
    if (
      name.startsWith("x-forwarded-") ||
      name === "forwarded" ||
      name === "x-client-address" ||
      name === CAME_FROM
    )
      delete request.headers[name];
  request.headers["x-client-address"] = clientAddress(remote, forwarded, trusted);
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
