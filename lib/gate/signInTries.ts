import { headers } from "next/headers";
import { authenticate } from "@/lib/data/people/sessions";
import { TRY_RULES } from "@/lib/domain/access/tries";
import { Refusal } from "@/lib/domain/refusal";
import { SignInSchema } from "@/lib/schemas/people";
import { SHARED } from "./clientAddress";
import { deviceOf } from "./device";
import { type Counted, tried } from "./tries";

/** Where this request comes from, as limits count it; the web server says so. */
export async function requestAddress(): Promise<string> {
  return (await headers()).get("x-client-address") ?? "unknown";
}

/** The counts that a sign-in goes by. A browser that its person signed in on before has one of its own, out of strangers' reach. */
function countsOf(address: string, email: string | null, device: string | null): Counted[] {
  if (email && device)
    return [{ what: `sign-in ${email} on ${device}`, rule: TRY_RULES.accountOnDevice, forgiven: true }];
  const shared = address === SHARED;
  const ofAddress = {
    what: `sign-in from ${address}`,
    rule: shared ? TRY_RULES.sharedAddress : TRY_RULES.address,
  };
  if (!email) return [ofAddress];
  const account = {
    what: `sign-in ${email}`,
    rule: shared ? TRY_RULES.accountShared : TRY_RULES.account,
    madeFrom: address,
  };
  if (shared) return [ofAddress, account];
  const here = {
    what: `sign-in ${email} from ${address}`,
    rule: TRY_RULES.accountFromAddress,
    madeFrom: address,
  };
  return [ofAddress, account, { ...here, forgiven: true }];
}

/**
 * The person with this address and password, under the limits. What is no address, or longer than any, is never stored:
 * it counts against where it comes from alone.
 */
export async function signInTried(given: { email?: unknown; password?: unknown }, now: Date) {
  const typed = SignInSchema.safeParse(given);
  const email = typed.success ? typed.data.email : null;
  const device = email ? await deviceOf(email, now) : null;
  return tried(countsOf(await requestAddress(), email, device), now, () => {
    if (!typed.success)
      throw new Refusal("That address and password do not match.", "Check both and try again.");
    return authenticate(typed.data.email, typed.data.password, now);
  });
}

/** The present password of a person who is signed in, asked again: as many tries as at the door. */
export function ownPasswordTried<T>(personId: string, now: Date, run: () => Promise<T>): Promise<T> {
  return tried([{ what: `own password ${personId}`, rule: TRY_RULES.ownPassword, forgiven: true }], now, run);
}
