"use client";
import { KEPT_ACTS, type KeptAct, type KeptActName, targetOf } from "@/lib/domain/offline/acts";
import { judgePass, type StepFacts } from "@/lib/domain/offline/judge";
import { decide } from "@/lib/domain/offline/queue";
import { SEND_LOCK, SEND_TAG, SENT_CHANNEL, TAKEN_OUT } from "@/lib/domain/offline/requests";
import { randomKey } from "../randomKey";
import type { Device, DeviceState, KeptForm } from "./deviceContext";
import { DeviceStore, forgetShop } from "./deviceStore";
import { cardAddress, keepCards } from "./keepCards";
import { sendKept } from "./sendKept";

/** How long until what could not be sent is tried again by itself. */
const AGAIN_MS = 20_000;

export interface Whose {
  readonly who: string;
  readonly slug: string;
  /** Called once something was sent: the page is older than the server by then. */
  readonly onSent: (count: number) => void;
}

/** A device's keeping for one person in one shop, with the way to end it. */
export async function openDevice(whose: Whose): Promise<{ device: Device; close: () => void }> {
  const { who, slug, onSent } = whose;
  const store = await DeviceStore.open(who.slice(who.indexOf(":") + 1), Date.now());
  // A browser set to refuse workers refuses it: then nothing is kept, and all else works.
  const worker = navigator.serviceWorker
    .register("/api/worker", { scope: "/s/", updateViaCache: "none" })
    .then(() => navigator.serviceWorker.ready)
    .catch(() => undefined);
  const tellers = new Set<() => void>();
  let state: DeviceState = {
    ready: false,
    acts: [],
    offMs: (await store.fact("offMs")) ?? 0,
    sending: false,
    signedOut: false,
    told: (await store.fact("told")) ?? null,
  };
  await store.put("told", null);
  let closed = false;
  const over = new Map<number, readonly number[]>();
  const set = (change: Partial<DeviceState>) => {
    state = { ...state, ...change };
    for (const tell of tellers) tell();
  };
  const read = async () => {
    const acts = await store.acts(who);
    for (const { id } of (await store.cards()).get(slug)?.cards ?? [])
      over.set(id, await store.over(`${slug} ${id}`));
    set({ acts, ready: true });
  };

  const send = async () => {
    if (state.acts.every((act) => act.refused) || state.sending || !navigator.onLine) return;
    // One tab sends at a time: two would send the same act twice, which the server would only answer twice.
    await navigator.locks.request(SEND_LOCK, { ifAvailable: true }, async (mine) => {
      if (!mine) return;
      set({ sending: true });
      const sent = await sendKept(store, who, read).catch((cause: unknown) => {
        set({ sending: false });
        throw cause;
      });
      if (sent.go === "clear") await forgetShop(slug);
      set({
        sending: false,
        signedOut: sent.go === "signIn",
        ...(sent.told ? { told: sent.told } : {}),
        ...(sent.go === "clear" ? { told: TAKEN_OUT } : {}),
      });
      await read();
      if (sent.count > 0) onSent(sent.count);
    });
  };

  const add = async (
    act: Omit<KeptAct, "seq" | "who" | "slug" | "at" | "offMs" | "refused">,
    photo?: Blob,
  ) => {
    const full = await store.add(
      { ...act, who, slug, at: Date.now(), offMs: (await store.fact("offMs")) ?? null, refused: null },
      photo,
    );
    if (full) return full;
    await read();
    void askToSend(worker);
    void send();
    return null;
  };

  const onKept = () => location.pathname.endsWith("/card/kept");
  /** Whether an act of a job is for the device to keep now. */
  const mine = async (jobId: number, lost: boolean): Promise<boolean> => {
    if (onKept()) return true;
    // Without a worker over this page its kept card would not open.
    if (!navigator.serviceWorker.controller) return false;
    const behind = state.acts.some((act) => act.jobId === jobId);
    if (!lost && !behind && navigator.onLine) return false;
    return (await store.cards()).get(slug)?.cards.some((card) => card.id === jobId) ?? false;
  };
  const goToKept = (jobId: number) => {
    if (!onKept()) location.assign(cardAddress(slug, jobId));
  };

  const device: Device = {
    state: () => state,
    subscribe: (tell) => {
      tellers.add(tell);
      return () => tellers.delete(tell);
    },
    keepForm: async (data, lost) => {
      const read = readForm(data);
      if (!read || !(await mine(read.jobId, lost))) return undefined;
      const { facts, ...act } = read;
      const verdict = act.act === "pass" && facts ? judgePass(facts, act.fields) : null;
      if (verdict?.is === "lacks")
        return refusal(
          "This step is held: some of it is missing.",
          "Look at the marked fields, then pass the step.",
          verdict.fields,
        );
      const stop = state.acts.find((one) => one.jobId === act.jobId && one.stops);
      if (stop && (act.act === "pass" || act.act === "skip"))
        return refusal(
          `The job is stopped: “${stop.said}” has a reading outside its limits.`,
          "It goes on once that has been sent, and is measured again or let pass by an owner.",
        );
      const target = targetOf(act);
      if (target !== null && state.acts.some((one) => one.jobId === act.jobId && targetOf(one) === target))
        return refusal(
          "This is kept on this device already.",
          "It is sent by itself once there is a connection.",
        );
      const full = await add({ ...act, stops: verdict?.is === "stops", bytes: 0 });
      if (full) return refusal(full.message, full.remedy);
      goToKept(act.jobId);
      return { ok: true };
    },
    keepPhoto: async ({ stepId, key, file, lost }) => {
      const jobId = Number(/\/jobs\/(\d+)\/card/.exec(location.pathname)?.[1]);
      if (!jobId || !(await mine(jobId, lost))) return undefined;
      const full = await add(
        {
          act: "photo",
          key,
          jobId,
          stepId,
          said: "A photo",
          fields: [],
          stops: false,
          bytes: file.size,
        },
        // Read whole: what a file input holds may be gone after a reload.
        new Blob([await file.arrayBuffer()], { type: file.type }),
      );
      if (full) return `${full.message} ${full.remedy}`;
      goToKept(jobId);
      return null;
    },
    photoOf: (seq) => store.photo(seq),
    decide: async (seq, decision) => {
      const acts = await store.acts(who);
      await store.replace(acts, decide(acts, seq, decision, randomKey()));
      await read();
      await send();
    },
    send,
    keepCards: async (jobId) => {
      if (!(await worker)) return;
      const waiting = new Set(state.acts.map((act) => act.jobId));
      const kept = await keepCards(store, { who, slug, alive: () => !closed }, jobId, waiting);
      if (kept.offMs !== undefined) {
        await store.put("offMs", kept.offMs);
        set({ offMs: kept.offMs });
      }
      if (kept.is === "removed") {
        await forgetShop(slug);
        set({ told: TAKEN_OUT });
        await read();
      }
      if (kept.is === "full")
        set({ told: "This device has no room for your cards: without a connection they will not open." });
    },
    noteOver: async (jobId, steps) => {
      over.set(jobId, steps);
      await store.putOver(`${slug} ${jobId}`, steps);
    },
    overOf: (jobId) => over.get(jobId) ?? [],
  };

  await read();
  const again = setInterval(() => {
    if (document.visibilityState === "visible" && !state.signedOut) void send();
  }, AGAIN_MS);
  const back = () => void send();
  window.addEventListener("online", back);
  // The worker may have sent what waited here.
  const sent = new BroadcastChannel(SENT_CHANNEL);
  sent.onmessage = async ({ data }: MessageEvent<{ who: string; count: number }>) => {
    if (data.who !== who) return;
    // What the worker has to tell is told before the acts are gone: a card where nothing waits goes to its live page by itself.
    const told = await store.fact("told");
    if (told) {
      set({ told });
      await store.put("told", null);
    }
    await read();
    if (data.count > 0) onSent(data.count);
  };
  void send();
  return {
    device,
    close: () => {
      clearInterval(again);
      window.removeEventListener("online", back);
      sent.close();
      tellers.clear();
      closed = true;
    },
  };
}

/** Asks the browser to wake the worker once there is a connection, also when no page is open by then. Not every browser can. */
async function askToSend(worker: Promise<ServiceWorkerRegistration | undefined>): Promise<void> {
  const on = (await worker) as (ServiceWorkerRegistration & { readonly sync?: SyncManager }) | undefined;
  // Where a person has shut it off, pages send by themselves.
  await on?.sync?.register(SEND_TAG).catch(() => undefined);
}

interface SyncManager {
  register(tag: string): Promise<void>;
}

function refusal(message: string, remedy: string, fields: Readonly<Record<string, string>> = {}): KeptForm {
  return { ok: false, message, remedy, fields };
}

type FormRead = Pick<KeptAct, "act" | "key" | "jobId" | "stepId" | "said" | "fields"> & {
  facts: StepFacts | null;
};

/** What a form of the card says; null for any other form. */
function readForm(data: FormData): FormRead | null {
  const text = (name: string) => {
    const value = data.get(name);
    return typeof value === "string" ? value : "";
  };
  const act = KEPT_ACTS.find((one) => one === text("_act")) as KeptActName | undefined;
  const jobId = Number(text("_job"));
  if (!act || !jobId) return null;
  const fields = [...data].flatMap(([name, value]) =>
    typeof value === "string" && !/^[$_]/.test(name) ? [[name, value] as const] : [],
  );
  const facts = text("_facts");
  const said = act === "noteStep" ? `Note: ${text("text").slice(0, 120)}` : text("_said");
  return {
    act,
    key: text("_key") || randomKey(),
    jobId,
    stepId: Number(text("stepId")) || null,
    said,
    fields,
    facts: facts ? (JSON.parse(facts) as StepFacts) : null,
  };
}
