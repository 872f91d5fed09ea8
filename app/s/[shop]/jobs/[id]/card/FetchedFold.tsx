"use client";
import { type ReactNode, useEffect, useRef, useState } from "react";
import { Fetched } from "@/app/_ui/Fetched";
import { useHalfTyped } from "@/app/_ui/keptTyped";
import { liveModule } from "@/app/_ui/liveModule";

const FORMS = liveModule(() => import("./WaitForms"));

interface FetchedFoldProps {
  title: string;
  /** As which its form keeps what is half typed. */
  keep: string;
  children: (forms: typeof import("./WaitForms")) => ReactNode;
}

/** A form of the card that is fetched as it is opened: few visits to a card need it, and none without a connection. */
export function FetchedFold({ title, keep, children }: FetchedFoldProps) {
  const fold = useRef<HTMLDetailsElement>(null);
  const [opened, setOpened] = useState(false);
  const half = useHalfTyped(keep);
  useEffect(() => {
    if (half && fold.current) fold.current.open = true;
    // It may have been opened before the page was live.
    if (fold.current?.open) setOpened(true);
  }, [half]);
  return (
    <details ref={fold} onToggle={(event) => setOpened((was) => was || event.currentTarget.open)}>
      <summary className="in-line text-brass">{title}</summary>
      {opened && <Fetched of={FORMS}>{children}</Fetched>}
    </details>
  );
}
