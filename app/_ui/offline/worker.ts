import { tooOld } from "@/lib/domain/offline/bounds";
import {
  ASSET_CACHE,
  answerBy,
  KEPT_AT,
  KEPT_CACHE,
  NO_CONNECTION,
  SEND_TAG,
} from "@/lib/domain/offline/requests";
import { forgetShop } from "./deviceStore";
import { isRemoved } from "./keepCards";
import { sendInBackground } from "./sendInBackground";

/** The name of the build that this script is of: a new build has another script, so that browsers take it up. */
declare const BUILD: string;

/** What a service worker's events have that this one uses: the project's types are those of pages. */
interface WorkerEvent extends Event {
  waitUntil(done: Promise<unknown>): void;
}
interface FetchEvent extends WorkerEvent {
  readonly request: Request;
  respondWith(response: Promise<Response>): void;
}
/** The connection is back: told to browsers that have Background Sync. */
interface SyncEvent extends WorkerEvent {
  readonly tag: string;
}
declare const self: {
  readonly location: Location;
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(type: "install" | "activate", run: (event: WorkerEvent) => void): void;
  addEventListener(type: "fetch", run: (event: FetchEvent) => void): void;
  addEventListener(type: "sync", run: (event: SyncEvent) => void): void;
  build?: string;
};

/** How long a live card may take before the kept one is shown: hands with a spanner do not wait. */
const PATIENCE_MS = 5_000;

self.build = BUILD;
self.addEventListener("install", (event) => event.waitUntil(self.skipWaiting()));
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("sync", (event) => {
  if (event.tag === SEND_TAG) event.waitUntil(sendInBackground());
});
self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (url.origin !== self.location.origin) return;
  const answer = answerBy({ method: request.method, mode: request.mode, path: url.pathname });
  if (answer?.by === "asset") event.respondWith(asset(request));
  if (answer?.by === "picture") event.respondWith(picture(request));
  if (answer?.by === "page") event.respondWith(page(event));
  if (answer?.by === "kept") event.respondWith(keptCard(event, answer.key));
  if (answer?.by === "card") event.respondWith(liveCard(event, answer.key, url.search));
});

/** What is kept under an address, unless it has lain there for more than a week. */
async function kept(key: string): Promise<Response | undefined> {
  const found = await caches.match(key, { cacheName: KEPT_CACHE });
  if (!found) return undefined;
  if (!tooOld(Number(found.headers.get(KEPT_AT)), Date.now())) return found;
  await caches.delete(KEPT_CACHE);
  return undefined;
}

async function asset(request: Request): Promise<Response> {
  return (await caches.match(request, { cacheName: ASSET_CACHE })) ?? fetch(request);
}

async function picture(request: Request): Promise<Response> {
  try {
    return await fetch(request);
  } catch (cause) {
    const found = await kept(new URL(request.url).pathname);
    if (found) return found;
    throw cause;
  }
}

/** The server's answer. Where it finds nothing, the person may have been removed from the shop: then its cards are let go of. */
async function live(event: FetchEvent): Promise<Response> {
  const answer = await fetch(event.request);
  if (answer.status === 404) event.waitUntil(demandMember(new URL(event.request.url).pathname));
  return answer;
}

async function demandMember(path: string): Promise<void> {
  const slug = path.split("/")[2] ?? "";
  if (await isRemoved(slug)) await forgetShop(slug);
}

async function page(event: FetchEvent): Promise<Response> {
  try {
    return await live(event);
  } catch {
    return (await kept(NO_CONNECTION)) ?? bare();
  }
}

async function keptCard(event: FetchEvent, key: string): Promise<Response> {
  return (await kept(key)) ?? page(event);
}

async function liveCard(event: FetchEvent, key: string, query: string): Promise<Response> {
  const isKept = (await kept(key)) !== undefined;
  if (!isKept) return page(event);
  const answer = live(event).catch(() => undefined);
  const late = new Promise<"late">((resolve) => setTimeout(() => resolve("late"), PATIENCE_MS));
  const first = await Promise.race([answer, late]);
  if (first instanceof Response) return first;
  const to = new URL(key + query, self.location.origin);
  if (first === "late") to.searchParams.set("slow", "1");
  return Response.redirect(to.href, 302);
}

/** Where nothing at all is kept: without a name in it. */
function bare(): Response {
  return new Response(
    "<!doctype html><html lang=en><meta charset=utf-8><meta name=viewport content='width=device-width'><title>No connection</title><h1>No connection</h1><p>No card is kept on this device. Open this page again where there is a connection.",
    {
      status: 503,
      headers: {
        "Content-Type": "text/html; charset=utf-8",
        "Content-Security-Policy": "default-src 'none'; base-uri 'none'; form-action 'none'",
      },
    },
  );
}
