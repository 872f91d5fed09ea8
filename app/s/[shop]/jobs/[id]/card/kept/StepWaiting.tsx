"use client";
import type { Device } from "@/app/_ui/offline/deviceContext";
import { KeptPhoto } from "@/app/_ui/offline/KeptPhoto";
import { State } from "@/app/_ui/State";
import type { KeptAct } from "@/lib/domain/offline/acts";

/** What was done at a step on this device and is not sent yet. */
export function StepWaiting({ acts, device }: { acts: readonly KeptAct[]; device: Device | undefined }) {
  if (acts.length === 0) return null;
  return (
    <ul aria-label="Waiting to be sent" className="my-2">
      {acts.map((act) => (
        <li key={act.seq} className="flex items-start justify-between gap-4 border-hair border-b py-1.5">
          <span className="min-w-0 break-words">
            {act.said}
            {act.act === "photo" && device && <KeptPhoto act={act} device={device} />}
          </span>
          <State shape="circle">{act.refused ? "not taken over" : "waiting to be sent"}</State>
        </li>
      ))}
    </ul>
  );
}
