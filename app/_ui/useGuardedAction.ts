"use client";
import { unstable_rethrow, useRouter } from "next/navigation";
import { useActionState, useEffect, useRef, useSyncExternalStore } from "react";
import { type FormAction, type FormState, UNASKED } from "./formState";
import { type KitWords, useKitWords } from "./kitWords";
import { type Device, useDevice } from "./offline/deviceContext";
import { painted } from "./painted";
import { useScreenStore } from "./Screen";

const never = () => () => {};

/** Answers a lost connection or a broken action as a refusal, so that nothing typed is lost to an error page. */
async function guarded(
  action: FormAction,
  before: FormState,
  data: FormData,
  words: KitWords,
  device: Device | undefined,
  heard?: (answer: FormState) => void,
  left?: () => void,
): Promise<FormState> {
  const keep = async (lost: boolean): Promise<FormState | undefined> => {
    const kept = await device?.keepForm(data, lost);
    if (kept?.ok) left?.();
    return kept && { seq: before.seq + 1, ...kept };
  };
  const waits = await keep(false);
  if (waits) return waits;
  try {
    const answer = await action(before, data);
    heard?.(answer);
    return answer;
  } catch (error) {
    const digest = error instanceof Error && "digest" in error ? String(error.digest) : undefined;
    // Done, and the page goes on to another: Next.js tells it by an error of its own.
    if (digest?.startsWith("NEXT_REDIRECT")) left?.();
    unstable_rethrow(error);
    // What the web server refused before any action ran, in two lines: what happened, what to do.
    const [message, remedy] = error instanceof Error && !digest ? error.message.split("\n") : [];
    if (message && remedy) return { seq: before.seq + 1, ok: false, unanswered: true, message, remedy };
    const kept = digest ? undefined : await keep(true);
    if (kept) return kept;
    return {
      seq: before.seq + 1,
      ok: false,
      unanswered: true,
      message: digest ? words.broke : words.unreachable,
      remedy: digest ? `${words.brokeRemedy} ${digest}` : words.unreachableRemedy,
    };
  }
}

/**
 * `useActionState` whose action survives a lost answer. Before the page is live the bare action is used: it works
 * without scripts. `heard` is told an answer even when what was done took the asking form off the page, `left` that it was done
 * and led to another page. Without a connection an act of a card is kept on the device. On a live screen the answer's change is
 * shown at once.
 */
export function useGuardedAction(action: FormAction, heard?: (answer: FormState) => void, left?: () => void) {
  const words = useKitWords();
  const device = useDevice();
  const live = useSyncExternalStore(
    never,
    () => true,
    () => false,
  );
  const screen = useScreenStore();
  const router = useRouter();
  // The page may have been drawn anew while the answer was on its way.
  const latest = useRef(screen);
  useEffect(() => {
    latest.current = screen;
  }, [screen]);
  const told = (answer: FormState) => {
    // Shown before the answer is: what a form sends next, it sends of the record as it is now.
    if (answer.change && !latest.current?.take(answer.change)) router.refresh();
    heard?.(answer);
  };
  const asked = async (before: FormState, data: FormData): Promise<FormState> => {
    if (screen) data.set("_seen", screen.mark());
    // What was pressed is seen to rest before the work of sending it begins.
    await painted();
    return guarded(action, before, data, words, device, told, left);
  };
  return useActionState<FormState, FormData>(live ? asked : action, UNASKED);
}
