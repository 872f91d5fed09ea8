"use client";
import { useEffect, useState } from "react";
import type { Reason } from "@/lib/domain/reason";

/** The reasons given, or those that an address answers: "looking" until it has, "lost" where it did not. */
export function useReasons(because: readonly Reason[] | string): readonly Reason[] | "looking" | "lost" {
  const [found, setFound] = useState<readonly Reason[] | "looking" | "lost">("looking");
  useEffect(() => {
    if (typeof because !== "string") return;
    const leave = new AbortController();
    setFound("looking");
    fetch(because, { signal: leave.signal })
      .then(async (answer) => (answer.ok ? ((await answer.json()) as readonly Reason[]) : "lost"))
      .catch(() => "lost" as const)
      .then((answer) => leave.signal.aborted || setFound(answer));
    return () => leave.abort();
  }, [because]);
  return typeof because === "string" ? found : because;
}
