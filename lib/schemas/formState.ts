import type { Delta } from "../domain/delta";
import type { Ask } from "../domain/refusal";

/** What a form's action answers. Plain data only, so that it can cross from the server. */
export interface FormState {
  /** Counts answers; a new number means a new answer. An action returns `prev.seq + 1`. */
  readonly seq: number;
  /** True when done, false when refused, absent before the first answer. */
  readonly ok?: boolean | undefined;
  /** What happened, in a sentence. */
  readonly message?: string | undefined;
  /** What the person can do about it, in a sentence. */
  readonly remedy?: string | undefined;
  /** Number under which a failure of ours is logged. */
  readonly bug?: string | undefined;
  /** Messages per field, keyed by the field's name. */
  readonly fields?: Readonly<Record<string, string>> | undefined;
  /** What has to be answered first, in this form. */
  readonly asks?: readonly Ask[] | undefined;
  /** What was typed, to be shown again after a refusal. Never a password. */
  readonly values?: Readonly<Record<string, string | readonly string[]>> | undefined;
  /** Said in passing after success. */
  readonly toast?: string | undefined;
  /** Sent to the form's undo action when the person takes it back. */
  readonly undo?: UndoOffer | undefined;
  /** Values the action hands back to be shown once, such as a link. */
  readonly shown?: Readonly<Record<string, string>> | undefined;
  /** What the act changed on the screen that it was sent from; absent where the page itself is drawn anew. */
  readonly change?: ScreenChange | undefined;
  /** True when no answer came, so that the same key must be sent again. */
  readonly unanswered?: boolean | undefined;
  /** True when this key came through before with other contents: it stays, so that nothing is stored twice. */
  readonly repeated?: boolean | undefined;
  /** True when the session has ended: signing in again and sending it once more does it. */
  readonly signedOut?: boolean | undefined;
}

/** What turns the view of a screen that has the mark `from` into the one of the mark `to`. */
export interface ScreenChange {
  readonly from: string;
  readonly to: string;
  readonly delta: Delta;
}

export interface UndoOffer {
  /** The word on the button; "Undo" when absent. */
  readonly label?: string | undefined;
  readonly fields: Readonly<Record<string, string>>;
}

export type FormAction = (prev: FormState, data: FormData) => Promise<FormState>;

export const UNASKED: FormState = { seq: 0 };
