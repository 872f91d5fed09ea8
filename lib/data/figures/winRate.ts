/** A quote that was sent, as the figures count it. */
export interface SentFact {
  readonly package: string;
  /** "2026-11": the month in which it was first sent. */
  readonly month: string;
  readonly state: "won" | "lost" | "open";
  readonly grossMinor: number;
}

export interface WinLine {
  readonly key: string;
  readonly sent: number;
  readonly won: number;
  readonly lost: number;
  readonly open: number;
  /** Won of those answered or run out, 0 to 1; null while none is. */
  readonly rate: number | null;
  /** The likely range of the rate, 95 %; null with the rate. */
  readonly low: number | null;
  readonly high: number | null;
  readonly wonMinor: number;
  readonly sentMinor: number;
}

const Z = 1.96;

/**
 * Wilson score interval of a share. Source: Wilson 1927, as in Brown, Cai and DasGupta, "Interval estimation for a binomial
 * proportion", 2001: it stays honest for the few quotes a small shop sends.
 */
export function wilson(won: number, of: number): { low: number; high: number } {
  if (of === 0) return { low: 0, high: 1 };
  const p = won / of;
  const z2 = Z * Z;
  const middle = p + z2 / (2 * of);
  const spread = Z * Math.sqrt((p * (1 - p)) / of + z2 / (4 * of * of));
  const whole = 1 + z2 / of;
  return { low: Math.max(0, (middle - spread) / whole), high: Math.min(1, (middle + spread) / whole) };
}

/** Counts of sent quotes by a key. Open ones count as sent and not yet in the rate. */
export function winLines(
  facts: readonly SentFact[],
  keyOf: (fact: SentFact) => string,
  keys: readonly string[] = [...new Set(facts.map(keyOf))],
): WinLine[] {
  const groups = Map.groupBy(facts, keyOf);
  return keys.map((key) => {
    const own = groups.get(key) ?? [];
    const count = (state: SentFact["state"]) => own.filter((f) => f.state === state).length;
    const [won, lost, open] = [count("won"), count("lost"), count("open")];
    const answered = won + lost;
    const range = answered === 0 ? null : wilson(won, answered);
    const sum = (some: readonly SentFact[]) => some.reduce((total, f) => total + f.grossMinor, 0);
    return {
      key,
      sent: own.length,
      won,
      lost,
      open,
      rate: answered === 0 ? null : won / answered,
      low: range?.low ?? null,
      high: range?.high ?? null,
      wonMinor: sum(own.filter((f) => f.state === "won")),
      sentMinor: sum(own),
    };
  });
}
