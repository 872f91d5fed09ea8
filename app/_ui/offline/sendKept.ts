"use client";
import type { KeptAct } from "@/lib/domain/offline/acts";
import { afterAnswer, type GoOn, nextToSend, type SendAnswer } from "@/lib/domain/offline/queue";
import { photoAddress } from "../photoAddress";
import type { DeviceStore } from "./deviceStore";

const PATIENCE_MS = 30_000;
const PHOTO_PATIENCE_MS = 180_000;

export interface Sent {
  readonly go: GoOn;
  readonly count: number;
  /** What the server told of the device's clock. */
  readonly told: string | null;
}

/** Sends what waits, one after another in order, until nothing is left that can be sent, or the way is not free. */
export async function sendKept(store: DeviceStore, who: string, onEach: () => Promise<void>): Promise<Sent> {
  let [count, told] = [0, null as string | null];
  for (;;) {
    const acts = await store.acts(who);
    const next = nextToSend(acts);
    if (!next) return { go: "on", count, told };
    const answer = await send(next, store);
    const after = afterAnswer(acts, next.seq, answer);
    await store.replace(acts, after.acts);
    if (answer.is === "done") {
      count += 1;
      told = answer.told ?? told;
    }
    await onEach();
    if (after.go !== "on") return { go: after.go, count, told };
  }
}

type Told = SendAnswer & { readonly told?: string | null };

async function send(act: KeptAct, store: DeviceStore): Promise<Told> {
  try {
    return act.act === "photo" ? await sendPhoto(act, store) : await sendAct(act);
  } catch (cause) {
    // No connection, or none that lasted: whether it was done is not known, so the same goes again.
    if (cause instanceof TypeError || cause instanceof DOMException) return { is: "lost" };
    throw cause;
  }
}

const clockOf = (act: KeptAct): [string, string][] => [
  ["_at", String(act.at)],
  ["_sent", String(Date.now())],
  ...(act.offMs === null ? [] : [["_off", String(act.offMs)] as [string, string]]),
];

async function sendAct(act: KeptAct): Promise<Told> {
  const body = new FormData();
  for (const [name, value] of act.fields) body.append(name, value);
  for (const [name, value] of [
    ["_act", act.act],
    ["_key", act.key],
    ["_job", String(act.jobId)],
    ["_who", act.who],
    ...clockOf(act),
  ])
    body.append(name as string, value as string);
  const answer = await fetch(`/api/s/${act.slug}/acts`, {
    method: "POST",
    body,
    signal: AbortSignal.timeout(PATIENCE_MS),
  });
  if (!answer.headers.get("Content-Type")?.startsWith("application/json")) return { is: "lost" };
  return (await answer.json()) as Told;
}

/** Photos go where all photos go; what is answered there is text. */
async function sendPhoto(act: KeptAct, store: DeviceStore): Promise<Told> {
  const photo = await store.photo(act.seq);
  const refused = (message: string): Told => ({
    is: "refused",
    refused: { message, remedy: "", mine: [act.said], theirs: [] },
  });
  if (!photo) return refused("The browser has let go of this photo.");
  const query = new URLSearchParams([
    ["key", act.key],
    ["who", act.who],
    ...clockOf(act).map(([name, value]) => [name.slice(1), value]),
  ]);
  const answer = await fetch(`${photoAddress(act.slug, "step", act.stepId ?? 0)}&${query}`, {
    method: "POST",
    body: photo,
    signal: AbortSignal.timeout(PHOTO_PATIENCE_MS),
  });
  if (answer.ok) return { is: "done" };
  if (answer.status === 401) return { is: "signedOut" };
  if (answer.status >= 500 || answer.status === 429) return { is: "lost" };
  return refused((await answer.text()).slice(0, 500));
}
