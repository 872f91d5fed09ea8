import {
  Agent,
  request as ask,
  type ClientRequest,
  type IncomingMessage,
  type ServerResponse,
} from "node:http";
import { log } from "@/lib/log/log";

/** Between our own workers: where a request came from before it was handed on. Believed on a worker's private socket alone. */
export const CAME_FROM = "x-throttlewright-came-from";

/** What belongs to one connection (RFC 9110, 7.6.1) or is asked anew on the next one. */
const OF_THE_CONNECTION = new Set(["connection", "keep-alive", "proxy-connection", "expect", "upgrade"]);

const KEPT = new Agent({ keepAlive: true, maxFreeSockets: 64 });

/**
 * Hands a request on to the worker that listens at `socket`, body and answer as they come. Calls `otherwise` where that worker is
 * certain to have done nothing with it: it could not be reached, or it ended over a request that only reads.
 */
export function forward(
  request: IncomingMessage,
  response: ServerResponse,
  socket: string,
  otherwise: () => void,
): void {
  const onward = asked(request, socket);
  if (!onward) {
    otherwise();
    return;
  }
  let reached = false;
  let answered = false;
  onward.once("socket", (way) => {
    const go = () => {
      reached = true;
      onward.flushHeaders();
      request.pipe(onward);
    };
    if (way.connecting) way.once("connect", go);
    else go();
  });
  onward.once("response", (answer) => {
    answered = true;
    passBack(answer, response);
  });
  onward.on("error", (cause) => {
    if (answered || response.destroyed) return;
    request.unpipe(onward);
    if (!reached || onlyReads(request)) return otherwise();
    log().warn({ err: cause }, "A worker ended over a request.");
    lost(request, response);
  });
  // Whoever asked is gone: the worker need not go on.
  response.once("close", () => {
    if (!response.writableFinished) onward.destroy();
  });
}

/** Null where a client would not send what the server has let in: what strangers write must end no worker. */
function asked(request: IncomingMessage, socket: string): ClientRequest | null {
  const { method, url: path } = request;
  try {
    return ask({ socketPath: socket, agent: KEPT, method, path, headers: headersOnward(request) });
  } catch (cause) {
    log().warn({ err: cause }, "A request could not be handed on and is answered here.");
    return null;
  }
}

function headersOnward(request: IncomingMessage): string[] {
  const headers = kept(request.rawHeaders, (name) => !OF_THE_CONNECTION.has(name) && name !== CAME_FROM);
  const { "content-length": length, "transfer-encoding": encoding } = request.headers;
  // Else a POST without a body would be sent on with an empty one in chunks.
  if (request.method === "POST" && length === undefined && encoding === undefined)
    headers.push("Content-Length", "0");
  headers.push(CAME_FROM, request.socket.remoteAddress ?? "");
  return headers;
}

function passBack(answer: IncomingMessage, response: ServerResponse): void {
  const closes = answer.headers.connection === "close";
  const headers = kept(
    answer.rawHeaders,
    (name) => !OF_THE_CONNECTION.has(name) && name !== "transfer-encoding",
  );
  if (closes) headers.push("Connection", "close");
  response.writeHead(answer.statusCode ?? 502, answer.statusMessage, headers);
  answer.pipe(response);
  // Cut off in the middle: whoever asked must not take it for whole.
  answer.once("error", () => response.destroy());
}

function kept(raw: readonly string[], keep: (name: string) => boolean): string[] {
  const headers: string[] = [];
  for (let at = 0; at < raw.length; at += 2) {
    const [name = "", value = ""] = [raw[at], raw[at + 1]];
    if (keep(name.toLowerCase())) headers.push(name, value);
  }
  return headers;
}

function onlyReads({ method, headers }: IncomingMessage): boolean {
  return (
    (method === "GET" || method === "HEAD") &&
    headers["transfer-encoding"] === undefined &&
    !Number(headers["content-length"] ?? 0)
  );
}

const LOST =
  "The part of the server that had this in hand ended before it answered: it may be stored, or not.\nReload the page to see what is stored, then do it again if it is missing.";

/** As a connection that is cut: nobody knows whether it was done. Without a charset, like every refusal of the web server. */
function lost(request: IncomingMessage, response: ServerResponse): void {
  response.writeHead(502, {
    "Content-Type": "text/plain",
    "Content-Length": Buffer.byteLength(LOST),
    "Cache-Control": "no-store",
    Connection: "close",
  });
  response.end(LOST);
  request.resume();
}
