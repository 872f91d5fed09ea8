import { configuration } from "@/lib/configuration/configuration";
import { Refusal } from "@/lib/domain/refusal";

/** The one address this server answers to: PUBLIC_URL, or localhost with PORT. */
export function publicUrl(): URL {
  const { PUBLIC_URL, PORT } = configuration();
  return new URL(PUBLIC_URL ?? `http://localhost:${PORT}`);
}

/** True where `origin` is ours. */
export function isOurOrigin(origin: string | null): boolean {
  return origin !== null && URL.canParse(origin) && new URL(origin).origin === publicUrl().origin;
}

const LOOPBACK = /^(?:localhost|127\.0\.0\.1|\[::1\])$/;

/**
 * True where `host` (name and port, as a request says it) is this machine by another of its names than ours. Behind a proxy
 * or with a public address nothing is: a proxy may well call us by such a name.
 */
export function isOtherLoopback(host: string): boolean {
  const ours = publicUrl();
  if (!LOOPBACK.test(ours.hostname) || !URL.canParse(`${ours.protocol}//${host}`)) return false;
  const theirs = new URL(`${ours.protocol}//${host}`);
  return theirs.port === ours.port && theirs.hostname !== ours.hostname && LOOPBACK.test(theirs.hostname);
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

/**
 * A path of our own to go to after signing in, as a browser would read it; anything else becomes `otherwise`.
 * The path is read again once it is made plain: "/.//host" is ours at first sight and "//host" after.
 */
export function ownPath(path: string | null | undefined, otherwise: string): string {
  const once = plainPath(path ?? "");
  return once !== null && plainPath(once) === once ? once : otherwise;
}

function plainPath(path: string): string | null {
  if (!/^\/(?![/\\])[^\p{Cc}\\]*$/u.test(path) || path.length > 2000) return null;
  const { origin } = publicUrl();
  if (!URL.canParse(path, origin)) return null;
  const url = new URL(path, origin);
  return url.origin === origin ? url.pathname + url.search + url.hash : null;
}
