"use client";
import { useState, useSyncExternalStore } from "react";
import type { KeptAct } from "@/lib/domain/offline/acts";
import { Button } from "../Button";
import { Link } from "../Link";
import type { Device, DeviceState } from "./deviceContext";
import { KeptPhoto } from "./KeptPhoto";

const counted = (n: number) => (n === 1 ? "1 act waits" : `${n} acts wait`);

/** What waits on this device, counted, above every page of the shop; nothing where nothing does. */
export function WaitingBar({ device, slug }: { device: Device; slug: string }) {
  const state = useSyncExternalStore(device.subscribe, device.state, device.state);
  const refused = state.acts.filter((act) => act.refused);
  if (state.acts.length === 0 && !state.told) return null;
  return (
    <section
      aria-label="Waiting on this device"
      className="keep mb-3 border-brass-fill border-l-4 bg-brass-wash px-3.5 py-2 text-[15px] print:hidden"
    >
      {state.acts.length > 0 && (
        <p role="status" className="flex flex-wrap items-center justify-between gap-x-4 gap-y-1">
          <span>
            <strong>{counted(state.acts.length)} on this device.</strong> <How state={state} slug={slug} />
          </span>
          {!state.sending && refused.length < state.acts.length && (
            <Button tone="quiet" onClick={() => void device.send()}>
              Send now
            </Button>
          )}
        </p>
      )}
      {state.told && <p>{state.told}</p>}
      {refused.map((act) => (
        <Refusal key={act.seq} act={act} device={device} />
      ))}
      {state.acts.length > refused.length && (
        <details>
          <summary className="in-line text-brass">What waits</summary>
          <ol>
            {state.acts
              .filter((act) => !act.refused)
              .map((act) => (
                <li key={act.seq} className="border-hair border-b py-1.5">
                  {act.said}
                </li>
              ))}
          </ol>
        </details>
      )}
    </section>
  );
}

/** Why they wait. */
function How({ state, slug }: { state: DeviceState; slug: string }) {
  const online = useSyncExternalStore(
    onLines,
    () => navigator.onLine,
    () => true,
  );
  if (state.sending) return "They are being sent.";
  if (state.signedOut)
    return (
      <>
        You are signed out:{" "}
        <Link className="text-brass underline" href={`/signin?to=${encodeURIComponent(`/s/${slug}`)}`}>
          sign in again
        </Link>{" "}
        to send them.
      </>
    );
  if (state.acts.some((act) => act.refused)) return "Some could not be taken over: decide below.";
  return online ? "They are sent by themselves." : "No connection: they are sent once it is back.";
}

function onLines(tell: () => void): () => void {
  window.addEventListener("online", tell);
  window.addEventListener("offline", tell);
  return () => {
    window.removeEventListener("online", tell);
    window.removeEventListener("offline", tell);
  };
}

/** An act that the server refused, with both versions: the person decides. */
function Refusal({ act, device }: { act: KeptAct; device: Device }) {
  const [busy, setBusy] = useState(false);
  const { refused } = act;
  if (!refused) return null;
  const choose = (decision: Parameters<Device["decide"]>[1]) => async () => {
    setBusy(true);
    await device.decide(act.seq, decision);
    setBusy(false);
  };
  return (
    <section aria-label={`Not taken over: ${act.said}`} className="my-2 border-oxide border-l-4 pl-3">
      <p>
        <strong>{act.said}</strong> was not taken over. {refused.message} {refused.remedy}
      </p>
      <div className="grid gap-x-4 sm:grid-cols-2">
        <Side title="Yours, on this device" lines={refused.mine.length > 0 ? refused.mine : [act.said]} />
        {refused.theirs.length > 0 && <Side title="What the shop has" lines={refused.theirs} />}
      </div>
      {act.act === "photo" && <KeptPhoto act={act} device={device} />}
      <div className="flex flex-wrap gap-2 pt-1">
        <Button tone="second" disabled={busy} onClick={choose("theirs")}>
          {refused.theirs.length > 0 ? "Keep what the shop has" : "Leave it out"}
        </Button>
        {act.stepId !== null && act.act !== "photo" && act.act !== "noteStep" && (
          <Button tone="second" disabled={busy} onClick={choose("note")}>
            Send mine as a note
          </Button>
        )}
        {refused.late && (
          <Button tone="second" disabled={busy} onClick={choose("worked")}>
            I worked until then
          </Button>
        )}
        <Button tone="quiet" disabled={busy} onClick={choose("again")}>
          Try again
        </Button>
      </div>
    </section>
  );
}

function Side({ title, lines }: { title: string; lines: readonly string[] }) {
  return (
    <div>
      <p className="text-[14px] text-soft">{title}</p>
      <ul>
        {lines.map((line) => (
          <li key={line} className="whitespace-pre-line">
            {line}
          </li>
        ))}
      </ul>
    </div>
  );
}
