import type { CONDITIONS, ENGINES, SIGNS, THROTTLES } from "@/lib/schemas/rides";

type Words<T extends readonly string[]> = Readonly<Record<T[number], string>>;

export const THROTTLE_WORDS: Words<typeof THROTTLES> = {
  closed: "closed",
  eighth: "an eighth",
  quarter: "a quarter",
  half: "half",
  threeQuarter: "three quarters",
  full: "full",
};
export const CONDITION_WORDS: Words<typeof CONDITIONS> = {
  steady: "held steady",
  snap: "snapped open",
  decelerating: "slowing down",
  idle: "idling",
  starting: "starting",
};
export const ENGINE_WORDS: Words<typeof ENGINES> = { cold: "cold", hot: "hot" };
export const SIGN_WORDS: Words<typeof SIGNS> = {
  lean: "feels lean",
  rich: "feels rich",
  hesitates: "hesitates",
  surges: "surges",
  floods: "floods",
  good: "good",
};

export const choices = (words: Readonly<Record<string, string>>) =>
  Object.entries(words).map(([value, label]) => ({ value, label }));
