"use client";
import { type ReactNode, useEffect, useRef, useState, useSyncExternalStore } from "react";
import { focusFirst } from "./dialogContext";
import type { LiveModule } from "./liveModule";
import { words } from "./words";

interface Props<M> {
  of: LiveModule<M>;
  children: (module: M) => ReactNode;
  /** Look of what is said meanwhile. */
  className?: string | undefined;
}

/**
 * What is fetched as it is drawn first: what a dialog holds, which most visits to a page never open. Where it does not come, it says
 * so, and is asked for again when it is drawn the next time.
 */
export function Fetched<M>({ of: live, children, className = "block" }: Props<M>) {
  const found = useSyncExternalStore(live.subscribe, live.now, () => undefined);
  const [lost, setLost] = useState(false);
  const waited = useRef<HTMLSpanElement>(null);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    dialog.current = waited.current?.closest("dialog") ?? null;
    live.ask(() => setLost(true));
  }, [live]);
  // The dialog was opened before this was there.
  useEffect(() => {
    if (found && dialog.current) focusFirst(dialog.current);
  }, [found]);
  if (found) return children(found);
  return (
    <span ref={waited} role="status" className={className}>
      {lost ? `${words.unreachable} ${words.openAgain}` : words.looking}
    </span>
  );
}
