/** What can be done on a card without a connection. */
export const KEPT_ACTS = ["pass", "skip", "takePart", "start", "stop", "noteStep", "photo"] as const;
export type KeptActName = (typeof KEPT_ACTS)[number];

/** Why the server did not take an act over, with both versions of what it is about. */
export interface RefusedAct {
  readonly message: string;
  readonly remedy: string;
  /** What was done on this device, line by line. */
  readonly mine: readonly string[];
  /** What the shop has. */
  readonly theirs: readonly string[];
  /** It ends time that ran past the shift: the person may say that they worked until then. */
  readonly late?: boolean | undefined;
}

/** An act that was made on a device and waits there until the server has answered it. Plain data: it is stored as it is. */
export interface KeptAct {
  /** Its place in the order in which the acts were made. */
  readonly seq: number;
  /** Its idempotency key: sent as often as it takes, it is done once. */
  readonly key: string;
  /** Whose it is: shop and person. */
  readonly who: string;
  readonly slug: string;
  readonly act: KeptActName;
  readonly jobId: number;
  readonly stepId: number | null;
  /** What it was, in words. */
  readonly said: string;
  /** The form's fields as they were sent. */
  readonly fields: readonly (readonly [name: string, value: string])[];
  /** When, by the device's own clock, in milliseconds. */
  readonly at: number;
  /** What that clock lacked against the server's when they last met, in milliseconds; null where they never did. */
  readonly offMs: number | null;
  /** It reads something outside its limits, at which a job stops. */
  readonly stops: boolean;
  /** Bytes of the photo that goes with it. */
  readonly bytes: number;
  /** Set once the server has refused it: a person decides what becomes of it. */
  readonly refused: RefusedAct | null;
}

/**
 * What an act is done to, where doing it twice makes no sense: a step is passed or skipped once, a reserved part used once.
 * Null where the same may be done again, such as a note.
 */
export function targetOf(act: Pick<KeptAct, "act" | "stepId" | "fields">): string | null {
  if (act.act === "pass" || act.act === "skip") return `step ${act.stepId}`;
  if (act.act === "takePart")
    return `part ${act.fields.find(([name]) => name === "reservationId")?.[1] ?? ""}`;
  return null;
}
