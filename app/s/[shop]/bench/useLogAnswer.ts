"use client";
import { useMemo } from "react";
import { useShown } from "@/app/_ui/formContext";

/** What a log action handed back, and what had been typed for it; nothing before the first reading. */
export function useLogAnswer<T>(): {
  readonly answer: T | null;
  readonly typed: Readonly<Record<string, string>>;
} {
  const answer = useShown("answer");
  const typed = useShown("typed");
  return useMemo(
    () => ({
      answer: answer ? (JSON.parse(answer) as T) : null,
      typed: typed ? (JSON.parse(typed) as Record<string, string>) : {},
    }),
    [answer, typed],
  );
}
