"use client";
import { unstable_rethrow } from "next/navigation";
import { useActionState, useSyncExternalStore } from "react";
import { type FormAction, type FormState, UNASKED } from "./formState";
import { type KitWords, useKitWords } from "./kitWords";

const never = () => () => {};

/** Answers a lost connection or a broken action as a refusal, so that nothing typed is lost to an error page. */
async function guarded(
  action: FormAction,
  before: FormState,
  data: FormData,
  words: KitWords,
  heard?: (answer: FormState) => void,
  left?: () => void,
): Promise<FormState> {
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
 * and led to another page.
 */
export function useGuardedAction(action: FormAction, heard?: (answer: FormState) => void, left?: () => void) {
  const words = useKitWords();
  const live = useSyncExternalStore(
    never,
    () => true,
    () => false,
  );
  const asked = (before: FormState, data: FormData): Promise<FormState> =>
    guarded(action, before, data, words, heard, left);
  return useActionState<FormState, FormData>(live ? asked : action, UNASKED);
}
