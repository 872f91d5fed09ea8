import { cookies, headers } from "next/headers";
import type { AuthOptions } from "next-auth";
import { decode, encode } from "next-auth/jwt";
import Credentials from "next-auth/providers/credentials";
import { cache } from "react";
import { configuration } from "@/lib/configuration/configuration";
import { beginSession, type LiveSession, liveSession, signedInPerson } from "@/lib/data/people/sessions";
import { Refusal } from "@/lib/domain/refusal";
import { noteRequest } from "@/lib/log/request";
import { keepDevice } from "./device";
import { publicUrl } from "./origin";
import { authSecret } from "./secret";
import { signInTried } from "./signInTries";

/** A workshop day without a click signs out; so does a week in any case. */
const absoluteDays = () => configuration().SESSION_DAYS;
const idleHours = () => configuration().SESSION_IDLE_HOURS;

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
        credentials: { email: {}, password: {} },
        authorize: async (given, request) => {
          const now = new Date();
          try {
            const person = await signInTried(given ?? {}, now);
            await keepDevice(person.id, now);
            const agent = String(request.headers?.["user-agent"] ?? "").slice(0, 200);
            const sid = await beginSession(person.id, agent, now, absoluteDays());
            return { id: person.id, name: person.name, sid, version: person.sessionVersion };
          } catch (cause) {
            if (cause instanceof Refusal) throw new Error(`${cause.message} ${cause.remedy}`);
            throw cause;
          }
        },
      }),
    ],
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

/** Signs in someone who has just shown who they are by another way: by signing up, or by taking up an invitation. */
export async function stepInside(personId: string, now: Date): Promise<void> {
  const { name, email, sessionVersion: version } = await signedInPerson(personId);
  const agent = ((await headers()).get("user-agent") ?? "").slice(0, 200);
  const sid = await beginSession(personId, agent, now, absoluteDays());
  const maxAge = absoluteDays() * 86_400;
  const token = await encode({
    token: { sub: personId, name, email, sid, version },
    secret: authSecret(),
    maxAge,
  });
  (await cookies()).set(cookieName(), token, { ...cookieOptions(), maxAge });
  await keepDevice(personId, now);
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
