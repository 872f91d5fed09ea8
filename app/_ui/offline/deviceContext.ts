"use client";
import { createContext, useContext } from "react";
import type { KeptAct } from "@/lib/domain/offline/acts";
import type { Decision } from "@/lib/domain/offline/queue";
import type { FormState } from "../formState";

/** What this device keeps of one person's work, as the page sees it. */
export interface DeviceState {
  /** False until it is known what waits here. */
  readonly ready: boolean;
  /** Made and not yet answered by the server, oldest first. */
  readonly acts: readonly KeptAct[];
  /** What the device's clock lacks against the server's, in milliseconds; 0 while that is not known. */
  readonly offMs: number;
  readonly sending: boolean;
  /** They wait because the session has ended. */
  readonly signedOut: boolean;
  /** Something to know that went by itself: a wrong clock, acts that were too old, a full device. */
  readonly told: string | null;
}

/** What a form is answered when its act was kept here, or why it was not; nothing where it is not for the device to keep. */
export type KeptForm = Pick<FormState, "ok" | "message" | "remedy" | "fields">;

export interface Device {
  readonly state: () => DeviceState;
  readonly subscribe: (tell: () => void) => () => void;
  /** Keeps a form's act: before it is sent where it has to wait for others, or once sending it was `lost`. */
  readonly keepForm: (data: FormData, lost: boolean) => Promise<KeptForm | undefined>;
  /** Keeps a photo of a step; what is wrong with it, or null once it is kept; nothing where it is not for the device to keep. */
  readonly keepPhoto: (photo: PhotoToKeep) => Promise<string | null | undefined>;
  readonly photoOf: (seq: number) => Promise<Blob | undefined>;
  readonly decide: (seq: number, decision: Decision) => Promise<void>;
  readonly send: () => Promise<void>;
  /** Fetches the day's cards, and the card of one job whatever its age. */
  readonly keepCards: (jobId?: number) => Promise<void>;
  /** Notes which steps of a job are over, as its live card shows them: its kept card may be older. */
  readonly noteOver: (jobId: number, steps: readonly number[]) => Promise<void>;
  readonly overOf: (jobId: number) => readonly number[];
}

export interface PhotoToKeep {
  readonly stepId: number;
  readonly key: string;
  readonly file: Blob;
  readonly lost: boolean;
}

export const NOTHING_KEPT: DeviceState = {
  ready: false,
  acts: [],
  offMs: 0,
  sending: false,
  signedOut: false,
  told: null,
};

export const DeviceContext = createContext<Device | undefined>(undefined);

/** The device, once it is there; nothing outside a shop and where the browser keeps nothing. */
export const useDevice = (): Device | undefined => useContext(DeviceContext);
