import { createHmac, timingSafeEqual } from "node:crypto";
import { cookies } from "next/headers";
import { knowsDevice, rememberDevice } from "@/lib/data/people/devices";
import { newToken } from "@/lib/db/token";
import { publicUrl } from "./origin";
import { authSecret } from "./secret";

/** Browsers keep no cookie for longer (RFC 6265bis, 5.5). */
const DAYS = 400;

const secure = () => publicUrl().protocol === "https:";
const cookie = () => (secure() ? "__Host-throttlewright-device" : "throttlewright-device");

const signature = (token: string) =>
  createHmac("sha256", authSecret()).update(`device:${token}`).digest("base64url");

/** The token in a device's cookie, if we signed it. */
export function readDevice(value: string | undefined): string | null {
  const [token = "", signed = ""] = (value ?? "").split(".");
  if (!/^[\w-]{27}$/.test(token)) return null;
  const [given, right] = [Buffer.from(signed), Buffer.from(signature(token))];
  return given.length === right.length && timingSafeEqual(given, right) ? token : null;
}

export function signDevice(token: string): string {
  return `${token}.${signature(token)}`;
}

/** The token of this request's browser where the person with this address signed in on it before; else null. */
export async function deviceOf(email: string, now: Date): Promise<string | null> {
  const token = readDevice((await cookies()).get(cookie())?.value);
  return token && (await knowsDevice(email, token, now, DAYS)) ? token : null;
}

/** Remembers this request's browser for a person who has just signed in on it. True where it is new to them. */
export async function keepDevice(personId: string, now: Date): Promise<boolean> {
  const jar = await cookies();
  const token = readDevice(jar.get(cookie())?.value) ?? newToken().text;
  const isNew = await rememberDevice(personId, token, now);
  const options = { httpOnly: true, sameSite: "lax" as const, path: "/", secure: secure() };
  jar.set(cookie(), signDevice(token), { ...options, maxAge: DAYS * 86_400 });
  return isNew;
}
