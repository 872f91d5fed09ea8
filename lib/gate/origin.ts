import { configuration } from "@/lib/configuration/configuration";
import { Refusal } from "@/lib/domain/refusal";

/** The one address this server answers to: PUBLIC_URL, or localhost with PORT. */
export function publicUrl(): URL {
  const { PUBLIC_URL, PORT } = configuration();
  return new URL(PUBLIC_URL ?? `http://localhost:${PORT}`);
}

/** True where `origin` is ours. A server on localhost may also be called by its loopback addresses. */
export function isOurOrigin(origin: string | null): boolean {
  if (!origin || !URL.canParse(origin)) return false;
  const ours = publicUrl();
  const theirs = new URL(origin);
  if (theirs.origin === ours.origin) return true;
  const loopback = (host: string) => host === "localhost" || host === "127.0.0.1" || host === "[::1]";
  return (
    loopback(ours.hostname) &&
    loopback(theirs.hostname) &&
    theirs.port === ours.port &&
    theirs.protocol === ours.protocol
  );
}

/** Refuses a write that did not come from one of our own pages. */
export function demandOurOrigin(headers: Headers): void {
  const site = headers.get("sec-fetch-site");
  if (isOurOrigin(headers.get("origin")) && (site === null || site === "same-origin")) return;
  throw new Refusal(
    "This request did not come from this shop's own pages, so nothing was done.",
    `Open ${publicUrl().origin} and do it there.`,
    {},
    "forbidden",
  );
}

/** A path of our own to go to after signing in; anything else becomes `otherwise`. */
export function ownPath(path: string | null | undefined, otherwise: string): string {
  if (!path || !/^\/(?![/\\])/.test(path) || /[\r\n]/.test(path)) return otherwise;
  const url = new URL(path, "http://own.invalid");
  return url.host === "own.invalid" ? url.pathname + url.search : otherwise;
}
