import "fake-indexeddb/auto";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import {
  countWaiting,
  DeviceStore,
  forgetDevice,
  forgetOthers,
  forgetShop,
} from "@/app/_ui/offline/deviceStore";
import { keepCards } from "@/app/_ui/offline/keepCards";
import { sendKept } from "@/app/_ui/offline/sendKept";
import type { KeptAct } from "@/lib/domain/offline/acts";
import { KEPT } from "@/lib/domain/offline/bounds";
import { KEPT_CACHE, NO_CONNECTION } from "@/lib/domain/offline/requests";

const NOW = Date.UTC(2026, 10, 29, 9, 0);
const WHO = "shop1:anna";

/** The browser's caches, as far as they are used here. */
class Caches {
  readonly all = new Map<string, Map<string, Response>>();
  async open(name: string) {
    const kept = this.all.get(name) ?? new Map<string, Response>();
    this.all.set(name, kept);
    const key = (asked: string | { url: string }) =>
      new URL(typeof asked === "string" ? asked : asked.url, "http://localhost").pathname;
    return {
      match: async (asked: string) => kept.get(key(asked))?.clone(),
      put: async (asked: string, response: Response) => void kept.set(key(asked), response),
      add: async (asked: string) => void kept.set(key(asked), await fetch(asked)),
      keys: async () => [...kept.keys()].map((path) => ({ url: `http://localhost${path}` })),
      delete: async (asked: { url: string }) => kept.delete(key(asked)),
    };
  }
  has = async (name: string) => this.all.has(name);
  delete = async (name: string) => this.all.delete(name);
}

let boxes = new Caches();
let answers: (address: string, init?: RequestInit) => Response;

beforeEach(() => {
  boxes = new Caches();
  vi.stubGlobal("caches", boxes);
  vi.stubGlobal("window", { indexedDB, isSecureContext: true });
  vi.stubGlobal("location", { origin: "http://localhost" });
  vi.stubGlobal("fetch", async (address: string, init?: RequestInit) => answers(address, init));
});
afterEach(async () => {
  await forgetDevice();
  vi.unstubAllGlobals();
});

const act = (change: Partial<KeptAct> = {}): Omit<KeptAct, "seq"> => ({
  key: "key-of-an-act",
  who: WHO,
  slug: "saltpan",
  act: "noteStep",
  jobId: 7,
  stepId: 3,
  said: "Note: it drips",
  fields: [
    ["stepId", "3"],
    ["text", "it drips"],
  ],
  at: NOW,
  offMs: null,
  stops: false,
  bytes: 0,
  refused: null,
  ...change,
});

const keyIn = (init?: RequestInit) => (init?.body instanceof FormData ? String(init.body.get("_key")) : "");
const json = (what: object, status = 200) => Response.json(what, { status });
const done = json.bind(null, { is: "done", told: null });
const page = (who: string) =>
  new Response(
    `<div data-card-of="${who}" data-job="635" data-bike="Kestrel Trail"><img src="/api/s/saltpan/photos/4/small"><script src="/_next/static/chunks/a.js"></script>`,
    { headers: { "content-type": "text/html", "content-security-policy": "script-src 'nonce-x'" } },
  );

describe("what a device keeps", () => {
  it("stays for the same person, with its photos, and is cleared as another signs in", async () => {
    const store = await DeviceStore.open("anna", NOW);
    await store.add(act());
    await store.add(act({ key: "another-key", act: "photo", bytes: 3 }), new Blob(["jpg"]));
    await (await boxes.open(KEPT_CACHE)).put("/s/saltpan/jobs/7/card/kept", page(WHO));
    const again = await DeviceStore.open("anna", NOW);
    const [, photo] = await again.acts(WHO);
    expect(await (await again.photo(photo?.seq ?? 0))?.text()).toBe("jpg");
    expect(await again.acts("shop2:anna")).toEqual([]);
    await forgetOthers("anna");
    expect(await countWaiting()).toBe(2);
    const other = await DeviceStore.open("berit", NOW);
    expect([await countWaiting(), await other.photo(photo?.seq ?? 0)]).toEqual([0, undefined]);
    expect(await boxes.has(KEPT_CACHE)).toBe(false);
  });

  it("is cleared for somebody of whom nothing is kept, and by signing out", async () => {
    await (await DeviceStore.open("anna", NOW)).add(act());
    await forgetOthers("desk");
    expect(await countWaiting()).toBe(0);
    await (await DeviceStore.open("anna", NOW)).add(act());
    await forgetDevice();
    expect(await countWaiting()).toBe(0);
  });

  it("goes after a week, which is said", async () => {
    const store = await DeviceStore.open("anna", NOW);
    await store.add(act({ at: NOW - KEPT.ageMs - 1 }));
    await store.add(act({ key: "younger-key", said: "Note: newer" }));
    const later = await DeviceStore.open("anna", NOW);
    expect((await later.acts(WHO)).map((one) => one.said)).toEqual(["Note: newer"]);
    expect(await later.fact("told")).toContain("1 of what waited here was older than a week");
  });

  it("is refused kindly once it is full", async () => {
    const store = await DeviceStore.open("anna", NOW);
    for (let n = 0; n < KEPT.mostActs; n++) expect(await store.add(act())).toBeNull();
    expect((await store.add(act()))?.message).toContain("keeps no more");
    expect(await countWaiting()).toBe(KEPT.mostActs);
    const full = vi.spyOn(IDBObjectStore.prototype, "add").mockImplementation(() => {
      throw new DOMException("", "QuotaExceededError");
    });
    await forgetDevice();
    expect((await store.add(act()))?.message).toContain("no room left");
    full.mockRestore();
  });
});

describe("sending what waits", () => {
  const nothing = async () => undefined;

  it("goes in order, and a second round sends nothing again", async () => {
    const store = await DeviceStore.open("anna", NOW);
    for (const key of ["first-key", "second-key", "third-key"]) await store.add(act({ key }));
    const sent: string[] = [];
    answers = (_address, init) => {
      sent.push(keyIn(init));
      return done();
    };
    expect(await sendKept(store, WHO, nothing)).toEqual({ go: "on", count: 3, told: null });
    expect((await sendKept(store, WHO, nothing)).count).toBe(0);
    expect(sent).toEqual(["first-key", "second-key", "third-key"]);
  });

  it("keeps an act whose answer was lost, under its key, and goes on from it", async () => {
    const store = await DeviceStore.open("anna", NOW);
    await store.add(act({ key: "first-key" }));
    await store.add(act({ key: "second-key" }));
    const sent: string[] = [];
    answers = (_address, init) => {
      sent.push(keyIn(init));
      if (sent.length === 1) throw new TypeError("Failed to fetch");
      return done();
    };
    expect((await sendKept(store, WHO, nothing)).go).toBe("later");
    expect(await countWaiting()).toBe(2);
    expect((await sendKept(store, WHO, nothing)).count).toBe(2);
    expect(sent).toEqual(["first-key", "first-key", "second-key"]);
  });

  it("stops at a session that has ended, and holds a refused act with both versions while other jobs go on", async () => {
    const store = await DeviceStore.open("anna", NOW);
    await store.add(act({ key: "first-key" }));
    await store.add(act({ key: "second-key" }));
    await store.add(act({ key: "other-job", jobId: 8 }));
    answers = () => json({ is: "signedOut" }, 401);
    expect((await sendKept(store, WHO, nothing)).go).toBe("signIn");
    const refused = { message: "Passed by Berit.", remedy: "Look.", mine: ["a"], theirs: ["b"] };
    answers = (_address, init) => (keyIn(init) === "first-key" ? json({ is: "refused", refused }) : done());
    expect((await sendKept(store, WHO, nothing)).count).toBe(1);
    expect((await store.acts(WHO)).map((one) => [one.key, one.refused])).toEqual([
      ["first-key", refused],
      ["second-key", null],
    ]);
  });

  it("clears the queue of somebody who no longer belongs to the shop, and takes an error page for no answer", async () => {
    const store = await DeviceStore.open("anna", NOW);
    await store.add(act());
    answers = () => new Response("<h1>Bad gateway</h1>", { status: 502 });
    expect((await sendKept(store, WHO, nothing)).go).toBe("later");
    answers = () => json({ is: "removed" }, 404);
    expect((await sendKept(store, WHO, nothing)).go).toBe("clear");
    expect(await countWaiting()).toBe(0);
  });

  it("sends a photo where all photos go, with its key and times, and holds one that is refused", async () => {
    const store = await DeviceStore.open("anna", NOW);
    await store.add(act({ key: "photo-key", act: "photo", bytes: 3 }), new Blob(["jpg"]));
    let asked = "";
    answers = (address) => {
      asked = address;
      return new Response("Photos of this kind cannot be read.", { status: 422 });
    };
    expect((await sendKept(store, WHO, nothing)).count).toBe(0);
    expect(asked).toMatch(
      new RegExp(
        `^/api/s/saltpan/photos\\?noun=step&id=3&key=photo-key&who=shop1%3Aanna&at=${NOW}&sent=\\d+$`,
      ),
    );
    expect((await store.acts(WHO))[0]?.refused?.message).toBe("Photos of this kind cannot be read.");
  });
});

describe("keeping cards", () => {
  const alive = () => true;
  const list = (ids: readonly number[]) => ({
    who: WHO,
    now: Date.now(),
    cards: ids.map((id) => ({ id, number: `63${id}`, bike: "Kestrel <Trail>" })),
  });
  const whose = { who: WHO, slug: "saltpan", alive };
  const kept = () => [...(boxes.all.get(KEPT_CACHE)?.keys() ?? [])];

  it("fetches the day's, with scripts and pictures, and lets go of what is not of the day, unless acts wait on it", async () => {
    const store = await DeviceStore.open("anna", NOW);
    let day = [5, 6];
    answers = (address) =>
      address.endsWith("/cards")
        ? json(list(day))
        : address.endsWith("/kept")
          ? page(WHO)
          : new Response("x");
    expect((await keepCards(store, whose, undefined, new Set())).is).toBe("kept");
    const card = (id: number) => `/s/saltpan/jobs/${id}/card/kept`;
    expect(kept()).toEqual(["/api/s/saltpan/photos/4/small", card(5), card(6), NO_CONNECTION]);
    expect([...(boxes.all.get("assets")?.keys() ?? [])]).toEqual(["/_next/static/chunks/a.js"]);
    const there = await (await boxes.open(KEPT_CACHE)).match(card(5));
    expect(there?.headers.get("content-security-policy")).toBe("script-src 'nonce-x'");
    const plain = await (await boxes.open(KEPT_CACHE)).match(NO_CONNECTION);
    expect(await plain?.text()).toContain(`<a href="${card(5)}">Job 635, Kestrel &#60;Trail&#62;</a>`);
    day = [8];
    await keepCards(store, whose, undefined, new Set([6]));
    expect(kept().filter((path) => path.endsWith("/kept"))).toEqual([card(6), card(8)]);
  });

  it("keeps no page that is another person's, and nothing once the person has gone to sign out", async () => {
    const store = await DeviceStore.open("anna", NOW);
    answers = (address) => (address.endsWith("/cards") ? json(list([5])) : page("shop1:berit"));
    await keepCards(store, whose, undefined, new Set());
    expect(kept()).toEqual([NO_CONNECTION]);
    boxes.all.clear();
    answers = (address) => (address.endsWith("/cards") ? json(list([5])) : page(WHO));
    await keepCards(store, { ...whose, alive: () => false }, undefined, new Set());
    expect(kept()).toEqual([]);
    answers = () => json({ ...list([5]), who: "shop1:berit" });
    expect((await keepCards(store, whose, undefined, new Set())).is).toBe("signedOut");
    // Nothing is found by whoever is signed out, either: they come back.
    answers = (address) =>
      address.endsWith("/acts")
        ? json({ is: "signedOut" }, 401)
        : new Response("Not found.", { status: 404 });
    expect((await keepCards(store, whose, undefined, new Set())).is).toBe("lost");
    answers = (address) =>
      address.endsWith("/acts") ? json({ is: "removed" }, 404) : new Response("Not found.", { status: 404 });
    expect((await keepCards(store, whose, undefined, new Set())).is).toBe("removed");
  });

  it("keeps what it has while the server does not answer, and lets go of one shop alone", async () => {
    const store = await DeviceStore.open("anna", NOW);
    answers = (address) => (address.endsWith("/cards") ? json(list([5])) : page(WHO));
    await keepCards(store, whose, undefined, new Set());
    answers = () => {
      throw new TypeError("Failed to fetch");
    };
    expect((await keepCards(store, whose, 5, new Set())).is).toBe("lost");
    expect(kept()).toContain("/s/saltpan/jobs/5/card/kept");
    await store.add(act({ who: "shop2:anna", slug: "fjellrev" }));
    await store.add(act());
    await forgetShop("saltpan");
    expect([await store.acts(WHO), kept()]).toEqual([[], [NO_CONNECTION]]);
    expect(await store.acts("shop2:anna")).toHaveLength(1);
  });
});
