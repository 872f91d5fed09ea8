import type { HoldPoint } from "../packages/recipe";

/** One line of a work plan, in the order it is done. */
export interface PlannedStep {
  readonly kind: "open" | "operation" | "close";
  /** Access key for open and close, operation key otherwise. */
  readonly key: string;
  /** What the hand does: the operation's name, or how the access is opened or closed. */
  readonly name: string;
  /** The access's own name, for open and close. */
  readonly access?: string;
  readonly instruction: string;
  readonly minutes: number;
  readonly grade: string;
  readonly tools: readonly string[];
  readonly cautions: readonly string[];
  readonly holdPoints: readonly HoldPoint[];
  /** Keys of the settings that the step makes; absent where it makes none. */
  readonly makes?: readonly string[];
  /** Closing checks, for a close. */
  readonly checks: readonly string[];
  /** Accesses open while this step is done. */
  readonly openAccesses: readonly string[];
}

export interface WorkPlan {
  readonly steps: readonly PlannedStep[];
  readonly minutes: number;
  readonly tools: readonly string[];
  /** True when the order is proven least; else `gapMinutes` bounds how far it can be from it. */
  readonly exact: boolean;
  readonly gapMinutes: number;
}
