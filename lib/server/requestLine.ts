import type { IncomingMessage, ServerResponse } from "node:http";
import { log } from "@/lib/log/log";
import { type AboutRequest, type Ending, inRequest } from "@/lib/log/request";
import { loggedPath } from "@/lib/log/scrub";

/** Files of the app, what a browser fetches ahead, and the questions of whoever watches the server: many, seldom of interest. */
const QUIET = /^\/(_next\/|favicon\.ico|icon\.svg|api\/health)/;

/** Answers one request and writes one line of it when the answer has gone out, or the connection has. */
export function withRequestLine(
  request: IncomingMessage,
  response: ServerResponse,
  id: string,
  answer: (about: AboutRequest) => void,
): void {
  const about: AboutRequest = { id };
  const began = performance.now();
  const { method } = request;
  const path = loggedPath(request.url ?? "");
  response.once("close", () => {
    const status = response.statusCode;
    const ending = about.ending ?? endingOf(response);
    const quiet = QUIET.test(path) || request.headers["next-router-prefetch"] !== undefined;
    const level = status >= 500 ? "error" : quiet ? "debug" : "info";
    const { shop, person, statements } = about;
    const ms = Math.round(performance.now() - began);
    log()[level]({ request: id, method, path, status, ms, shop, person, ending, statements }, "request");
  });
  inRequest(about, () => answer(about));
}

function endingOf(response: ServerResponse): Ending {
  if (!response.writableFinished) return "cut off";
  if (response.statusCode >= 500) return "failed";
  return response.statusCode >= 400 ? "refused" : "done";
}
