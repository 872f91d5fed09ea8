export const WAIT_REASONS = ["parts", "customer", "ride", "outside"] as const;
export type WaitReason = (typeof WAIT_REASONS)[number];

/** What a job waits for. */
export const WAIT_WORDS: Readonly<Record<WaitReason, string>> = {
  parts: "parts",
  customer: "the customer’s answer",
  ride: "a ride",
  outside: "outside work",
};
