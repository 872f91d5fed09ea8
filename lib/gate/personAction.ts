import { redirect } from "next/navigation";
import type { z } from "zod";
import { configuration } from "@/lib/configuration/configuration";
import type { LiveSession } from "@/lib/data/people/sessions";
import { Refusal } from "@/lib/domain/refusal";
import type { FormAction } from "@/lib/schemas/formState";
import { answer, type Call, keyOf, type Outcome } from "./action";
import { SHARED } from "./clientAddress";
import { limit } from "./limit";
import { currentSession } from "./session";
import { requestAddress } from "./signInTries";

/** The signed-in person of a page that belongs to no shop; else the sign-in page. */
export async function person(here: string): Promise<LiveSession> {
  return (await currentSession()) ?? redirect(`/signin?to=${encodeURIComponent(here)}`);
}

/** A form of a signed-in person outside any shop: password, sign-out everywhere, another shop. */
export function personAction<S extends z.ZodType>(
  schema: S,
  run: (session: LiveSession, input: z.output<S>, call: Call) => Promise<Outcome>,
): FormAction {
  return (before, data) =>
    answer(before, data, { schema }, async (input) => {
      const session = await currentSession();
      if (!session)
        throw new Refusal("You are signed out.", "Sign in again, then do it once more.", {}, "signedOut");
      const given = input();
      return run(session, given, { key: keyOf(data, given) });
    });
}

const HOUR = 3_600_000;

/** A form for anyone: sign-up, joining, a new password. Limited per address. */
export function publicAction<S extends z.ZodType>(
  name: string,
  schema: S,
  run: (input: z.output<S>, now: Date) => Promise<Outcome>,
): FormAction {
  return (before, data) =>
    answer(before, data, { schema }, async (input) => {
      const now = new Date();
      const address = await requestAddress();
      const most = configuration().PUBLIC_TRIES * (address === SHARED ? 10 : 1);
      await limit(`${name} from ${address}`, most, HOUR, now);
      return run(input(), now);
    });
}
