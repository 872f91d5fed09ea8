"use client";
import { useRouter } from "next/navigation";
import { type ComponentType, type ReactNode, useEffect, useEffectEvent, useState } from "react";
import { type Device, DeviceContext } from "./deviceContext";

/** The page has come alive, and what it shows comes first. */
const AFTER_MS = 600;

interface OfflineProps {
  /** Shop and person. */
  who: string;
  slug: string;
  /** Whether they work on cards; of anybody else nothing is kept. */
  works: boolean;
  children: ReactNode;
}

/**
 * What a person's device keeps: their cards of today, and what they do on them without a connection. Fetched after the page has
 * come alive; nothing of it is needed to draw one.
 */
export function Offline({ who, slug, works, children }: OfflineProps) {
  const [opened, setOpened] = useState<{
    device: Device;
    Bar: ComponentType<{ device: Device; slug: string }>;
  }>();
  const router = useRouter();
  const onSent = useEffectEvent((count: number) => {
    if (count > 0 && !location.pathname.endsWith("/card/kept")) router.refresh();
  });
  useEffect(() => {
    // Browsers keep pages and lock between tabs only where the way to the server is safe: https, or this very machine.
    if (!window.isSecureContext || !("serviceWorker" in navigator) || !window.indexedDB) return;
    let gone = false;
    let close: (() => void) | undefined;
    const begin = async () => {
      if (!works) {
        const { forgetOthers } = await import("./deviceStore");
        return forgetOthers(who.slice(who.indexOf(":") + 1));
      }
      const { openDevice, WaitingBar } = await import("./deviceParts");
      const made = await openDevice({ who, slug, onSent });
      close = made.close;
      if (gone) return made.close();
      setOpened({ device: made.device, Bar: WaitingBar });
      // On a card its own page says when it is kept anew.
      if (!location.pathname.includes("/card")) await made.device.keepCards();
    };
    const timer = setTimeout(
      () => void begin().catch(notHere),
      location.pathname.endsWith("/card/kept") ? 0 : AFTER_MS,
    );
    return () => {
      gone = true;
      clearTimeout(timer);
      close?.();
      setOpened(undefined);
    };
  }, [who, slug, works]);
  return (
    <DeviceContext value={opened?.device}>
      {opened && <opened.Bar device={opened.device} slug={slug} />}
      {children}
    </DeviceContext>
  );
}

/** A browser that keeps nothing, in a private window say, or a part that could not be fetched: the page works as it always did. */
function notHere(cause: unknown): void {
  if (cause instanceof DOMException || cause instanceof TypeError) return;
  if (cause instanceof Error && cause.name === "ChunkLoadError") return;
  throw cause;
}
