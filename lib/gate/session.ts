import { cookies, headers } from "next/headers";
import type { AuthOptions } from "next-auth";
import { decode, encode } from "next-auth/jwt";
import Credentials from "next-auth/providers/credentials";
import { cache } from "react";
import { configuration } from "@/lib/configuration/configuration";
import {
  beginSession,
  endSession,
  type LiveSession,
  liveSession,
  signedInPerson,
} from "@/lib/data/people/sessions";
import { Refusal } from "@/lib/domain/refusal";
import { noteRequest } from "@/lib/log/request";
import { keepDevice } from "./device";
import { publicUrl } from "./origin";
import { demandSecondFactor } from "./secondFactor";
import { authSecret } from "./secret";
import { requestAddress, signInTried } from "./signInTries";

/** A workshop day without a click signs out; so does a week in any case. */
const absoluteDays = () => configuration().SESSION_DAYS;
export const idleHours = () => configuration().SESSION_IDLE_HOURS;

const secure = () => publicUrl().protocol === "https:";

/** `__Host-` binds the cookie to this host over https; plain localhost cannot carry that prefix. */
export function cookieName(): string {
  return secure() ? "__Host-throttlewright" : "throttlewright";
}

const cookieOptions = () => ({ httpOnly: true, sameSite: "lax" as const, path: "/", secure: secure() });

export function authOptions(): AuthOptions {
  return {
    secret: authSecret(),
    session: { strategy: "jwt", maxAge: absoluteDays() * 86_400 },
    pages: { signIn: "/signin", error: "/signin" },
    cookies: {
      sessionToken: {
        name: cookieName(),
        options: cookieOptions(),
      },
    },
    providers: [
      Credentials({
        credentials: { email: {}, password: {}, code: {} },
        authorize: async (given) => {
          const now = new Date();
          try {
            const { id, name, sessionVersion: version } = await signInTried(given ?? {}, now);
            await demandSecondFactor(id, given?.code, now);
            return { id, name, sid: await beginHere(id, now), version };
          } catch (cause) {
            if (cause instanceof Refusal) throw new Error(`${cause.message} ${cause.remedy}`.trim());
            throw cause;
          }
        },
      }),
    ],
    // next-auth clears the cookie; the session itself is ours to end.
    events: {
      signOut: async ({ token }) => {
        if (typeof token?.sid === "string") await endSession(token.sid);
      },
    },
    callbacks: {
      jwt: ({ token, user }) => {
        const signedIn = user as { sid?: string; version?: number } | undefined;
        return signedIn?.sid ? { ...token, sid: signedIn.sid, version: signedIn.version } : token;
      },
      // The page needs nothing of the session on the client: everything is looked up per request.
      session: ({ session }) => ({ expires: session.expires }),
    },
  };
}

/** Begins a session of a person on the device that asks. To somebody who has just come, the first one is no news. */
async function beginHere(personId: string, now: Date, justCame = false): Promise<string> {
  const { email } = await signedInPerson(personId);
  const agent = (await headers()).get("user-agent") ?? "";
  const newDevice = (await keepDevice(personId, now)) && !justCame;
  const place = { agent, address: await requestAddress(), newDevice };
  return beginSession({ id: personId, email }, place, now, absoluteDays());
}

/** Signs in someone who has just shown who they are by another way: by signing up, or by taking up an invitation. */
export async function stepInside(personId: string, now: Date, justCame: boolean): Promise<void> {
  const { name, email, sessionVersion: version } = await signedInPerson(personId);
  const sid = await beginHere(personId, now, justCame);
  const maxAge = absoluteDays() * 86_400;
  const token = await encode({
    token: { sub: personId, name, email, sid, version },
    secret: authSecret(),
    maxAge,
  });
  (await cookies()).set(cookieName(), token, { ...cookieOptions(), maxAge });
}

/** The person of this request, checked against the directory: sign-out, removal and password change act at once. */
export const currentSession = cache(async (): Promise<LiveSession | null> => {
  const raw = (await cookies()).get(cookieName())?.value;
  if (!raw) return null;
  const token = await decode({ token: raw, secret: authSecret() }).catch(() => null);
  if (!token || typeof token.sid !== "string" || typeof token.version !== "number") return null;
  const session = await liveSession(token.sid, token.version, new Date(), idleHours());
  if (session) noteRequest({ person: session.personId });
  return session;
});
