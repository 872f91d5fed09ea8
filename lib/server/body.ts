import { IncomingMessage, type ServerResponse } from "node:http";
import { type BodyLimit, bodyLimit } from "./bodyLimits";
import { Paces, type Pacing } from "./bodyPace";

/** A body that stands still for so long is given up. */
const IDLE_MS = 15_000;
/** What still comes is thrown away for a moment, so that the answer is heard before the connection ends. */
const LINGER_MS = 1_000;

const PACES = new Paces();

/**
 * Lets a request through to `pass` with no more of a body than its address may take: its declared length is looked at first,
 * and what comes is counted, since a length is only a claim and a chunked body has none. Refuses with 413 or 408. Files are read at
 * the pace of the address that sends them.
 */
export function takeBody(
  request: IncomingMessage,
  response: ServerResponse,
  pass: (request: IncomingMessage) => void,
  limitOf: (method: string, address: string) => BodyLimit = bodyLimit,
  paces: Pacing = PACES,
): void {
  const declared = Number(request.headers["content-length"] ?? 0);
  const limit = limitOf(request.method ?? "", request.url ?? "");
  if (declared === 0 && request.headers["transfer-encoding"] === undefined) pass(request);
  else if (declared > limit.most) refuse(request, response, 413, tooLarge(limit));
  else receive(request, response, limit, pass, paces);
}

function receive(
  request: IncomingMessage,
  response: ServerResponse,
  limit: BodyLimit,
  pass: (request: IncomingMessage) => void,
  paces: Pacing,
): void {
  const address = String(request.headers["x-client-address"] ?? "");
  const copy = copyOf(request);
  let size = 0;
  let open = true;
  let waiting = false;
  const timers = [setTimeout(() => stop(408, SLOW), limit.withinMs)];
  let idle = setTimeout(() => stop(408, SLOW), IDLE_MS);
  const close = () => {
    open = false;
    for (const timer of [...timers, idle]) clearTimeout(timer);
  };
  const stop = (status: number, text: string) => {
    if (!open) return;
    close();
    refuse(request, response, status, text, () => copy.destroy());
  };
  request.on("data", (part: Buffer) => {
    if (!open) return;
    size += part.length;
    if (size > limit.most) {
      stop(413, tooLarge(limit));
      return;
    }
    clearTimeout(idle);
    const full = !copy.push(part);
    if (full && limit.streamed) request.pause();
    const waitMs = limit.streamed ? paces.spend(address, part.length, performance.now()) : 0;
    if (typeof waitMs === "number") settle(waitMs);
    else hold(waitMs);
  });
  const settle = (waitMs: number) => {
    if (waitMs > 0) wait(waitMs);
    else idle = setTimeout(() => stop(408, SLOW), IDLE_MS);
  };
  /** Another process counts: nothing is read until it has answered, and it is not waited for where it is gone. */
  const hold = (answer: Promise<number>) => {
    waiting = true;
    request.pause();
    void answer
      .catch(() => 0)
      .then((waitMs) => {
        if (open) wait(waitMs);
      });
  };
  const wait = (ms: number) => {
    waiting = true;
    request.pause();
    idle = setTimeout(() => {
      waiting = false;
      idle = setTimeout(() => stop(408, SLOW), IDLE_MS);
      request.resume();
    }, ms);
  };
  copy._read = () => {
    if (open && !waiting) request.resume();
  };
  request.once("end", () => {
    if (!open) return;
    close();
    copy.complete = true;
    copy.push(null);
    if (!limit.streamed) pass(copy);
  });
  request.once("close", () => {
    if (!open) return;
    close();
    copy.destroy();
  });
  if (limit.streamed) pass(copy);
}

/** The same request with a body that we fill. */
function copyOf(request: IncomingMessage): IncomingMessage {
  const { method, url, headers, rawHeaders, httpVersion, httpVersionMajor, httpVersionMinor } = request;
  return Object.assign(new IncomingMessage(request.socket), {
    method,
    url,
    headers,
    rawHeaders,
    httpVersion,
    httpVersionMajor,
    httpVersionMinor,
  });
}

const SLOW =
  "This came too slowly and was given up: nothing was changed.\nCheck the connection, then send it again.";

function tooLarge({ most }: BodyLimit): string {
  const size = most < 1024 * 1024 ? `${most / 1024} KB` : `${Math.floor(most / 1024 / 1024)} MB`;
  return `This is larger than the ${size} that may be sent here: nothing was changed.\nSend less at once.`;
}

/** A plain answer in two lines: what happened, what to do. Ends the connection, since the rest of the body is not read. */
export function refuse(
  request: IncomingMessage,
  response: ServerResponse,
  status: number,
  text: string,
  after: () => void = () => undefined,
): void {
  if (!response.headersSent) {
    response.writeHead(status, {
      // Without a charset: Next.js shows the words of an answer only where its type is exactly this. They are plain ASCII.
      "Content-Type": "text/plain",
      "Content-Length": Buffer.byteLength(text),
      "Cache-Control": "no-store",
      Connection: "close",
    });
    response.write(text);
  }
  const leave = () => {
    clearTimeout(timer);
    response.end();
    after();
  };
  const timer = setTimeout(leave, LINGER_MS);
  if (request.complete) leave();
  else request.once("end", leave).resume();
}
