"use client";
import { SEND_LOCK, SENT_CHANNEL, TAKEN_OUT } from "@/lib/domain/offline/requests";
import { DeviceStore, forgetShop, whoseDevice } from "./deviceStore";
import { sendKept } from "./sendKept";

/**
 * Sends what waits without a page, when the browser says that the connection is back; a page that is open sends by itself, and one
 * of the two waits for the other. Throws while the way is not free, so that the browser asks again later.
 */
export async function sendInBackground(): Promise<void> {
  await navigator.locks.request(SEND_LOCK, async () => {
    const person = await whoseDevice();
    if (person === undefined) return;
    const store = await DeviceStore.open(person, Date.now());
    try {
      const shops = new Map((await store.allActs()).map((act) => [act.who, act.slug]));
      for (const [who, slug] of shops) await sendOf(store, who, slug);
    } finally {
      store.close();
    }
  });
}

async function sendOf(store: DeviceStore, who: string, slug: string): Promise<void> {
  const sent = await sendKept(store, who, async () => undefined);
  if (sent.told) await store.put("told", sent.told);
  if (sent.go === "clear") {
    await store.put("told", TAKEN_OUT);
    await forgetShop(slug);
  }
  const pages = new BroadcastChannel(SENT_CHANNEL);
  pages.postMessage({ who, count: sent.count });
  pages.close();
  if (sent.go === "later") throw new Error("The server could not be reached.");
}
