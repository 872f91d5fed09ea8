"use client";
import { KEPT } from "@/lib/domain/offline/bounds";
import { ASSET_CACHE, KEPT_AT, KEPT_CACHE, NO_CONNECTION, neededBy } from "@/lib/domain/offline/requests";
import type { DeviceStore } from "./deviceStore";
import type { KeptCards } from "./keptCards";

/** A card that was fetched so lately is not fetched again, unless it is the one that is looked at. */
const FRESH_MS = 10 * 60_000;
const PATIENCE_MS = 20_000;
/** Files of builds past are let go of once there are so many. */
const MOST_ASSETS = 400;

export interface KeptNow {
  readonly is: "kept" | "lost" | "removed" | "signedOut" | "full";
  /** What the device's clock lacks, where the server was met. */
  readonly offMs?: number;
}

export const cardAddress = (slug: string, jobId: number) => `/s/${slug}/jobs/${jobId}/card/kept`;

interface Whose {
  readonly who: string;
  readonly slug: string;
  /** False once the person has left the shop's pages, to sign out say: nothing is kept any more then. */
  readonly alive: () => boolean;
}

/** Fetches the day's cards of a person, with all that their pages need, and lets go of those that are no longer theirs. */
export async function keepCards(
  store: DeviceStore,
  { who, slug, alive }: Whose,
  always: number | undefined,
  waiting: ReadonlySet<number>,
): Promise<KeptNow> {
  const before = Date.now();
  const asked = await get(`/api/s/${slug}/cards`);
  if (!asked) return { is: "lost" };
  if (asked.status === 404 && (await isRemoved(slug))) return { is: "removed" };
  if (!asked.ok) return { is: "lost" };
  const list = (await asked.json()) as KeptCards & { who: string; now: number };
  const offMs = list.now - Math.round((before + Date.now()) / 2);
  // Somebody else is signed in by now: their own page clears the device.
  if (list.who !== who) return { is: "signedOut", offMs };
  const known = (await store.cards()).get(slug)?.cards ?? [];
  const cards = [...list.cards];
  const other =
    known.find((one) => one.id === always) ?? (always ? { id: always, number: "", bike: "" } : null);
  if (other && !cards.some((one) => one.id === other.id)) cards.unshift(other);
  for (const one of known) if (waiting.has(one.id) && !cards.some(({ id }) => id === one.id)) cards.push(one);
  try {
    const there: (typeof cards)[number][] = [];
    for (const card of cards) {
      const found = await keepCard({ who, slug, alive }, card.id, card.id === always);
      if (found) there.push({ ...card, number: card.number || found.number, bike: card.bike || found.bike });
    }
    if (!alive()) return { is: "lost", offMs };
    await store.putCards(slug, { at: Date.now(), cards: there });
    await letGo(slug, new Set(there.map((card) => cardAddress(slug, card.id))));
    await keepPlainPage(await store.cards());
  } catch (cause) {
    if (cause instanceof DOMException && cause.name === "QuotaExceededError") return { is: "full", offMs };
    throw cause;
  }
  return { is: "kept", offMs };
}

/**
 * Whether the person no longer belongs to the shop. Files answer "not found" to whoever is signed out as well: the door for acts
 * tells the two apart.
 */
export async function isRemoved(slug: string): Promise<boolean> {
  try {
    const answer = await fetch(`/api/s/${slug}/acts`, { method: "POST", body: new FormData() });
    if (answer.status !== 404 || !answer.headers.get("Content-Type")?.startsWith("application/json"))
      return false;
    return ((await answer.json()) as { is?: unknown }).is === "removed";
  } catch {
    return false;
  }
}

async function get(address: string): Promise<Response | undefined> {
  try {
    return await fetch(address, { signal: AbortSignal.timeout(PATIENCE_MS), cache: "no-store" });
  } catch {
    return undefined;
  }
}

/** Keeps one card; false where it could not be had and none is there. What is there stays until a newer one has arrived whole. */
async function keepCard(
  { who, slug, alive }: Whose,
  id: number,
  anew: boolean,
): Promise<{ number: string; bike: string } | null> {
  const cache = await caches.open(KEPT_CACHE);
  const key = cardAddress(slug, id);
  const before = await cache.match(key);
  const named = (text: string) => ({
    number: /data-job="([^"]*)"/.exec(text)?.[1] ?? "",
    bike: /data-bike="([^"]*)"/.exec(text)?.[1] ?? "",
  });
  if (before && !anew && Date.now() - Number(before.headers.get(KEPT_AT)) < FRESH_MS)
    return named(await before.text());
  const answer = await get(key);
  const text = answer?.ok && !answer.redirected ? await answer.text() : "";
  // The page says whose it is: a sign-in in another tab may have come between.
  if (!answer || !text.includes(`data-card-of="${who}"`)) return before ? named(await before.text()) : null;
  const { assets, pictures } = neededBy(text, KEPT.mostPictures);
  await keepAssets([...assets, ...loaded()]);
  for (const picture of pictures)
    if (!(await cache.match(picture))) {
      const seen = await get(picture);
      if (seen?.ok && alive()) await cache.put(picture, await stamped(seen));
    }
  if (!alive()) return null;
  await cache.put(key, await stamped(answer, text));
  return named(text);
}

/** A response to be kept: what it says, with the headers that count, and when. */
async function stamped(answer: Response, text?: string): Promise<Response> {
  const headers = new Headers({ [KEPT_AT]: String(Date.now()) });
  for (const name of [
    "content-type",
    "content-security-policy",
    "x-content-type-options",
    "x-frame-options",
    "referrer-policy",
    "permissions-policy",
    "cross-origin-opener-policy",
  ]) {
    const value = answer.headers.get(name);
    if (value !== null) headers.set(name, value);
  }
  return new Response(text ?? (await answer.blob()), { status: 200, headers });
}

/** Scripts, styles and fonts that this page has loaded: a part that is fetched late is in no page's text. */
function loaded(): string[] {
  return performance
    .getEntriesByType("resource")
    .map((one) => new URL(one.name))
    .filter((url) => url.origin === location.origin && url.pathname.startsWith("/_next/static/"))
    .map((url) => url.pathname);
}

async function keepAssets(paths: readonly string[]): Promise<void> {
  const cache = await caches.open(ASSET_CACHE);
  const wanted = new Set(paths);
  for (const path of wanted) if (!(await cache.match(path))) await cache.add(path).catch(onlyQuota);
  const all = await cache.keys();
  if (all.length <= MOST_ASSETS) return;
  for (const one of all) if (!wanted.has(new URL(one.url).pathname)) await cache.delete(one);
}

/** A file that cannot be had now is fetched with the next card; a full device is told of. */
function onlyQuota(cause: unknown): void {
  if (cause instanceof DOMException && cause.name === "QuotaExceededError") throw cause;
}

/** Lets go of a shop's cards that are not among `there`. */
async function letGo(slug: string, there: ReadonlySet<string>): Promise<void> {
  const cache = await caches.open(KEPT_CACHE);
  for (const one of await cache.keys()) {
    const { pathname } = new URL(one.url);
    const ofShop = pathname.startsWith(`/s/${slug}/jobs/`);
    const picture = there.size === 0 && pathname.startsWith(`/api/s/${slug}/`);
    if (picture || (ofShop && !there.has(pathname))) await cache.delete(one);
  }
}

const plain = (text: string) => text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);

/** Lets go of all cards of a shop: the person no longer belongs to it. */
export async function forgetCards(slug: string, others: ReadonlyMap<string, KeptCards>): Promise<void> {
  if (!(await caches.has(KEPT_CACHE))) return;
  await letGo(slug, new Set());
  await keepPlainPage(others);
}

/** The page that stands in for every other one: it names the cards that open. */
async function keepPlainPage(shops: ReadonlyMap<string, KeptCards>): Promise<void> {
  const links = [...shops].flatMap(([slug, { cards }]) =>
    cards.map(
      (card) =>
        `<li><a href="${plain(cardAddress(slug, card.id))}">Job ${plain(card.number)}, ${plain(card.bike)}</a>`,
    ),
  );
  const html = `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>No connection</title><style>:root{color-scheme:light dark;font:17px/1.5 system-ui,sans-serif}body{margin:1rem auto;max-width:36rem;padding:0 1rem}a{display:block;padding:.75rem 0}</style><main><h1>No connection</h1>${
    links.length > 0
      ? `<p>This page needs one. Your cards:</p><ul>${links.join("")}</ul>`
      : "<p>This page needs one, and no card of yours is kept on this device.</p>"
  }</main>`;
  const cache = await caches.open(KEPT_CACHE);
  await cache.put(
    NO_CONNECTION,
    new Response(html, {
      status: 200,
      headers: {
        "Content-Type": "text/html; charset=utf-8",
        "Content-Security-Policy":
          "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
        [KEPT_AT]: String(Date.now()),
      },
    }),
  );
}
