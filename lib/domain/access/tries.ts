/** How failed tries slow the next one down. */
export interface TryRule {
  /** Failures that cost no time. */
  readonly free: number;
  /** The longest wait between two tries. */
  readonly mostMs: number;
  /** After so long without a failure the count begins anew. */
  readonly forgetMs: number;
}

/** What is known of the tries so far. `lastAtMs` is an instant of a clock that may since have been set back. */
export interface Tries {
  readonly failures: number;
  readonly lastAtMs: number;
}

const SECOND = 1000;
const MINUTE = 60 * SECOND;
const HOUR = 60 * MINUTE;

/**
 * Who is slowed down, and how far. OWASP ASVS 5.0, 6.3.1 asks for limits that cannot be used to lock somebody out, so the
 * counts that strangers can drive up (an account's, an address's) wait a minute at most; numbers: judgement.
 */
export const TRY_RULES = {
  /** Sign-ins that fail from one network address, whatever the account. */
  address: { free: 30, mostMs: MINUTE, forgetMs: HOUR },
  /** An address behind which many people sit: a proxy that this server was not told of. */
  sharedAddress: { free: 300, mostMs: 10 * SECOND, forgetMs: HOUR },
  /** One account from one address. */
  accountFromAddress: { free: 5, mostMs: 15 * MINUTE, forgetMs: HOUR },
  /** One account from one browser that its person signed in on before. */
  accountOnDevice: { free: 5, mostMs: 15 * MINUTE, forgetMs: HOUR },
  /** One account from anywhere: only many addresses together come so far. */
  account: { free: 100, mostMs: MINUTE, forgetMs: HOUR },
  /** One account from addresses that cannot be told apart. */
  accountShared: { free: 10, mostMs: MINUTE, forgetMs: HOUR },
  /** The present password, asked of a person who is signed in. */
  ownPassword: { free: 5, mostMs: 15 * MINUTE, forgetMs: HOUR },
  /** The second factor of one person: only who knows the password comes so far, and a code is one of a million. */
  secondFactor: { free: 5, mostMs: 15 * MINUTE, forgetMs: 24 * HOUR },
} as const satisfies Record<string, TryRule>;

/** The wait after so many failures: none while they are free, then a second, doubled by each, up to the rule's most. */
export function waitAfter(failures: number, rule: TryRule): number {
  const beyond = failures - rule.free;
  return beyond < 0 ? 0 : Math.min(rule.mostMs, SECOND * 2 ** Math.min(beyond, 30));
}

/**
 * Milliseconds until the next try is let through; 0 is now. Where the clock was set back behind the last failure, the wait
 * runs from now: it neither lasts until the clock catches up nor ends.
 */
export function waitNow(tries: Tries, nowMs: number, rule: TryRule): number {
  const since = Math.max(0, nowMs - tries.lastAtMs);
  return since > rule.forgetMs ? 0 : Math.max(0, waitAfter(tries.failures, rule) - since);
}

/** The count after one more failure. */
export function failedAgain(tries: Tries | null, nowMs: number, rule: TryRule): Tries {
  const fresh = tries === null || nowMs - tries.lastAtMs > rule.forgetMs;
  return { failures: fresh ? 1 : tries.failures + 1, lastAtMs: nowMs };
}

/** A wait in words: "40 seconds", "3 minutes". */
export function waitText(ms: number): string {
  const seconds = Math.max(1, Math.ceil(ms / SECOND));
  if (seconds < 90) return seconds === 1 ? "1 second" : `${seconds} seconds`;
  return `${Math.ceil(seconds / 60)} minutes`;
}
