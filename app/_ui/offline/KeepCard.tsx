"use client";
import { useEffect, useEffectEvent } from "react";
import { type Device, useDevice } from "./deviceContext";

/** A pass is often followed by the next: the card is fetched once, when they have come to rest. */
const RESTS_MS = 1500;

interface KeepCardProps {
  jobId: number;
  /** Changes with the card. */
  mark: string;
  /** Steps that are over. */
  done: readonly number[];
}

/** Keeps the card that is looked at on this device, anew whenever it has changed. */
export function KeepCard({ jobId, mark, done }: KeepCardProps): null {
  const device = useDevice();
  const over = useEffectEvent((on: Device) => void on.noteOver(jobId, done).catch(notKept));
  // biome-ignore lint/correctness/useExhaustiveDependencies: the mark says that the card has changed
  useEffect(() => {
    if (!device) return;
    over(device);
    const timer = setTimeout(() => void device.keepCards(jobId).catch(notKept), RESTS_MS);
    return () => clearTimeout(timer);
  }, [device, jobId, mark]);
  return null;
}

/** The browser has shut its storage, or the way broke off half-way: what was kept before stands. */
function notKept(cause: unknown): void {
  if (!(cause instanceof DOMException) && !(cause instanceof TypeError)) throw cause;
}
