"use client";
import { unstable_rethrow } from "next/navigation";
import { useActionState, useSyncExternalStore } from "react";
import { type FormAction, type FormState, UNASKED } from "./formState";
import { words } from "./words";

const never = () => () => {};

/** Answers a lost connection or a broken action as a refusal, so that nothing typed is lost to an error page. */
async function guarded(action: FormAction, before: FormState, data: FormData): Promise<FormState> {
  try {
    return await action(before, data);
  } catch (error) {
    unstable_rethrow(error);
    const digest = error instanceof Error && "digest" in error ? String(error.digest) : undefined;
    return {
      seq: before.seq + 1,
      ok: false,
      unanswered: true,
      message: digest ? words.broke : words.unreachable,
      remedy: digest ? `${words.brokeRemedy} ${digest}` : words.unreachableRemedy,
    };
  }
}

/** `useActionState` whose action survives a lost answer. Before the page is live the bare action is used: it works without scripts. */
export function useGuardedAction(action: FormAction) {
  const live = useSyncExternalStore(
    never,
    () => true,
    () => false,
  );
  const asked = (before: FormState, data: FormData): Promise<FormState> => guarded(action, before, data);
  return useActionState<FormState, FormData>(live ? asked : action, UNASKED);
}
