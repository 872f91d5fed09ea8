"use client";
import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import type { KeptAct } from "@/lib/domain/offline/acts";
import { noRoom, tooOld } from "@/lib/domain/offline/bounds";
import { KEPT_CACHE } from "@/lib/domain/offline/requests";
import { forgetCards } from "./keepCards";
import type { KeptCards } from "./keptCards";

interface Facts {
  /** Whose the device is now: an id, never a name. */
  person: string;
  offMs: number;
  told: string;
}

interface Schema extends DBSchema {
  acts: { key: number; value: KeptAct };
  photos: { key: number; value: Blob };
  facts: { key: keyof Facts; value: string | number };
  cards: { key: string; value: KeptCards };
  /** Steps that were over when a live card was seen last, by job. */
  over: { key: string; value: readonly number[] };
}

const STORES = ["acts", "photos", "facts", "cards", "over"] as const;
const NAME = "throttlewright";

const FULL = {
  message: "This device has no room left, so this was not kept.",
  remedy: "Free some of its storage, or do this again where there is a connection.",
};

/** What a device keeps between visits, for one person at a time. */
export class DeviceStore {
  private constructor(private readonly db: IDBPDatabase<Schema>) {}

  /** Opens it for a person. What another person left is cleared first, and so is what is older than a week. */
  static async open(person: string, now: number): Promise<DeviceStore> {
    const db = await openDB<Schema>(NAME, 1, {
      upgrade(made) {
        made.createObjectStore("acts", { keyPath: "seq", autoIncrement: true });
        for (const name of STORES.slice(1)) made.createObjectStore(name);
      },
    });
    const store = new DeviceStore(db);
    const before = await store.fact("person");
    if (before !== undefined && before !== person) await store.clear();
    await store.put("person", person);
    const old = (await db.getAll("acts")).filter((act) => tooOld(act.at, now));
    if (old.length > 0) {
      await store.remove(old.map((act) => act.seq));
      await store.put(
        "told",
        `${old.length} of what waited here was older than a week and is gone: ${old
          .map((act) => act.said)
          .join("; ")
          .slice(0, 500)}.`,
      );
    }
    return store;
  }

  async fact<N extends keyof Facts>(name: N): Promise<Facts[N] | undefined> {
    return (await this.db.get("facts", name)) as Facts[N] | undefined;
  }

  async put<N extends keyof Facts>(name: N, value: Facts[N] | null): Promise<void> {
    if (value === null) await this.db.delete("facts", name);
    else await this.db.put("facts", value, name);
  }

  /** All that waits, whichever shop's. */
  async allActs(): Promise<KeptAct[]> {
    return this.db.getAll("acts");
  }

  close(): void {
    this.db.close();
  }

  /** What waits for one person in one shop, oldest first. */
  async acts(who: string): Promise<KeptAct[]> {
    return (await this.db.getAll("acts")).filter((act) => act.who === who);
  }

  /** Keeps another act, with its photo, both or neither; why not, where it does not fit. */
  async add(act: Omit<KeptAct, "seq">, photo?: Blob): Promise<{ message: string; remedy: string } | null> {
    try {
      const tx = this.db.transaction(["acts", "photos"], "readwrite");
      const full = noRoom(await tx.objectStore("acts").getAll(), act.bytes);
      if (full) return full;
      const seq = await tx.objectStore("acts").add(act as KeptAct);
      if (photo) await tx.objectStore("photos").put(photo, seq);
      await tx.done;
      return null;
    } catch (cause) {
      if (cause instanceof DOMException && cause.name === "QuotaExceededError") return FULL;
      throw cause;
    }
  }

  async photo(seq: number): Promise<Blob | undefined> {
    return this.db.get("photos", seq);
  }

  /** Turns the queue of one person into what it became, in one transaction. */
  async replace(before: readonly KeptAct[], after: readonly KeptAct[]): Promise<void> {
    const left = new Map(after.map((act) => [act.seq, act]));
    const tx = this.db.transaction(["acts", "photos"], "readwrite");
    for (const act of before) {
      const now = left.get(act.seq);
      if (now === act) continue;
      if (now) await tx.objectStore("acts").put(now);
      else await tx.objectStore("acts").delete(act.seq);
      if (!now || now.bytes === 0) await tx.objectStore("photos").delete(act.seq);
    }
    await tx.done;
  }

  private async remove(seqs: readonly number[]): Promise<void> {
    const tx = this.db.transaction(["acts", "photos"], "readwrite");
    for (const seq of seqs) {
      await tx.objectStore("acts").delete(seq);
      await tx.objectStore("photos").delete(seq);
    }
    await tx.done;
  }

  async cards(): Promise<Map<string, KeptCards>> {
    const [slugs, cards] = await Promise.all([this.db.getAllKeys("cards"), this.db.getAll("cards")]);
    return new Map(slugs.map((slug, at) => [slug, cards[at] as KeptCards]));
  }

  async putCards(slug: string, cards: KeptCards): Promise<void> {
    await this.db.put("cards", cards, slug);
  }

  async over(job: string): Promise<readonly number[]> {
    return (await this.db.get("over", job)) ?? [];
  }

  async putOver(job: string, steps: readonly number[]): Promise<void> {
    await this.db.put("over", steps, job);
  }

  /** Forgets everything, cards and acts, sent or not. */
  async clear(): Promise<void> {
    const tx = this.db.transaction(STORES, "readwrite");
    for (const name of STORES) await tx.objectStore(name).clear();
    await tx.done;
    await caches.delete(KEPT_CACHE);
  }
}

/** How many acts wait on this device, whoever's and whichever shop's. */
export async function countWaiting(): Promise<number> {
  const db = await existing();
  if (!db) return 0;
  const count = await db.count("acts");
  db.close();
  return count;
}

/** Whose the device is; undefined where it keeps nothing. */
export async function whoseDevice(): Promise<string | undefined> {
  const db = await existing();
  const whose = await db?.get("facts", "person");
  db?.close();
  return typeof whose === "string" ? whose : undefined;
}

/** Clears the device where it keeps something of somebody else. */
export async function forgetOthers(person: string): Promise<void> {
  const whose = await whoseDevice();
  if (whose !== undefined && whose !== person) await forgetDevice();
}

/** Clears what is kept of one shop, whoever looks: the person no longer belongs to it, so none of its pages opens. */
export async function forgetShop(slug: string): Promise<void> {
  const db = await existing();
  if (!db) return;
  const tx = db.transaction(["acts", "photos", "cards", "over"], "readwrite");
  for (const job of await tx.objectStore("over").getAllKeys())
    if (job.startsWith(`${slug} `)) await tx.objectStore("over").delete(job);
  for (const act of await tx.objectStore("acts").getAll()) {
    if (act.slug !== slug) continue;
    await tx.objectStore("acts").delete(act.seq);
    await tx.objectStore("photos").delete(act.seq);
  }
  await tx.objectStore("cards").delete(slug);
  await tx.done;
  const [slugs, cards] = await Promise.all([db.getAllKeys("cards"), db.getAll("cards")]);
  db.close();
  await forgetCards(slug, new Map(slugs.map((one, at) => [one, cards[at] as KeptCards])));
}

/** Clears all that is kept on this device: somebody signs out. */
export async function forgetDevice(): Promise<void> {
  const db = await existing();
  if (db) {
    const tx = db.transaction(STORES, "readwrite");
    for (const name of STORES) await tx.objectStore(name).clear();
    await tx.done;
    db.close();
  }
  if ("caches" in globalThis) await caches.delete(KEPT_CACHE);
}

/** The device's database, where there is one: asking does not make it. */
async function existing(): Promise<IDBPDatabase<Schema> | undefined> {
  if (!("indexedDB" in globalThis)) return undefined;
  let fresh = false;
  const db = await openDB<Schema>(NAME, 1, {
    upgrade(_made, before, _now, tx) {
      if (before > 0) return;
      fresh = true;
      // The transaction says that it was ended by a promise of its own.
      tx.done.catch(() => undefined);
      tx.abort();
    },
  }).catch((cause: unknown) => {
    if (fresh) return undefined;
    throw cause;
  });
  return db;
}
