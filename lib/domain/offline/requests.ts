/** How the service worker answers a request; null leaves it to the browser. */
export type Answer =
  /** A file whose name carries its content: from what is kept, else from the network. */
  | { readonly by: "asset" }
  /** A kept card: from what is kept, else from the network. */
  | { readonly by: "kept"; readonly key: string }
  /** A live card: from the network, else the kept one is gone to. */
  | { readonly by: "card"; readonly key: string }
  /** A small picture of a card: from the network, else from what is kept. */
  | { readonly by: "picture" }
  /** Any other page of a shop: from the network, else the plain page that names the kept cards. */
  | { readonly by: "page" };

const CARD = /^(\/s\/[^/]+\/jobs\/\d+\/card)(\/kept)?$/;

/** Where the page lies that is shown in place of another without a connection. No page of the app has this address. */
export const NO_CONNECTION = "/s/-/no-connection";

/** Names of the browser's caches: what belongs to a person, and files that are the same for everybody. */
export const KEPT_CACHE = "kept";
export const ASSET_CACHE = "assets";
/** One page, or the worker, sends at a time. */
export const SEND_LOCK = "throttlewright sends";
/** What the browser is asked to wake the worker for, once there is a connection. */
export const SEND_TAG = "send what waits";
/** Where the worker tells pages that it has sent something. */
export const SENT_CHANNEL = "throttlewright sent";
/** Told once by whoever finds it out: a page, or the worker. */
export const TAKEN_OUT = "You no longer belong to this shop: what waited here is cleared.";
/** Header of what is kept: when, in milliseconds. */
export const KEPT_AT = "x-kept-at";

/** Decides how a request of a page is answered. `path` is the address without its query; other origins are never asked about. */
export function answerBy(request: {
  readonly method: string;
  readonly mode: string;
  readonly path: string;
}): Answer | null {
  const { method, mode, path } = request;
  if (method !== "GET") return null;
  if (mode === "navigate") {
    const card = CARD.exec(path);
    if (card) return { by: card[2] ? "kept" : "card", key: `${card[1]}/kept` };
    return path === "/s" || path.startsWith("/s/") ? { by: "page" } : null;
  }
  if (path.startsWith("/_next/static/")) return { by: "asset" };
  return /^\/api\/s\/[^/]+\/photos\/\d+\/small$/.test(path) ? { by: "picture" } : null;
}

/** Addresses of what a kept card's page needs besides itself: its scripts, styles and fonts, and its small pictures. */
export function neededBy(html: string, mostPictures: number): { assets: string[]; pictures: string[] } {
  const all = (pattern: RegExp) => [...new Set([...html.matchAll(pattern)].map(([found]) => found))];
  return {
    assets: all(/\/_next\/static\/[\w./~%@-]+\.(?:js|css|woff2)/g),
    pictures: all(/\/api\/s\/[\w-]+\/photos\/\d+\/small/g).slice(0, mostPictures),
  };
}
