import { createHash } from "node:crypto";
import { isDeepStrictEqual } from "node:util";
import canonicalize from "canonicalize";
import { Refusal } from "@/lib/domain/refusal";
import { dayOf, minuteOfDay } from "@/lib/domain/schedule/localTime";
import type { ShopHandle, ShopTx } from "./shop";

/** What may be kept as an answer: plain data, the same after JSON as before. */
type Answer = string | number | boolean | null | object;

/** A hash of what is asked for, the same for the same content in any order of its fields (RFC 8785). */
function contentHash(content: unknown): string {
  return createHash("sha256")
    .update(canonicalize(content) ?? "")
    .digest("base64url");
}

/** A form's key together with a hash of what the form says, as the gate hands it on. */
export function requestKey(key: string | undefined, content: unknown): string | undefined {
  return key === undefined ? undefined : `${key}.${contentHash(content)}`;
}

/**
 * Carries out a repeatable request once. Its key is stored with its effect, with what was done and with a hash of what was
 * asked: the same request again is answered as the first was, without being done again; the same key with another act or
 * other content is refused. `input.key` may carry the hash (requestKey); else it is taken of `input`.
 */
export async function once<T extends Answer, I extends { readonly key?: string | undefined }>(
  tx: ShopTx,
  shop: ShopHandle,
  act: string,
  input: I,
  run: () => Promise<T>,
): Promise<T> {
  const { key: given, ...asked } = input;
  if (!given) return run();
  const [key = "", hash] = given.split(".", 2);
  const content = hash ?? contentHash(asked);
  const before = await tx.once.findUnique({ where: { key } });
  if (before) {
    // Rows from before keys were bound name no act.
    if (before.act !== "" && (before.act !== act || before.content !== content))
      throw await sentBefore(tx, before);
    return JSON.parse(before.result) as T;
  }
  const result = await run();
  const text = JSON.stringify(result);
  if (text === undefined || !isDeepStrictEqual(JSON.parse(text), result))
    throw new Error(`What "${act}" answers is not plain data, so it could not be answered again.`);
  await tx.once.create({ data: { key, at: shop.now, act, content, result: text }, select: { key: true } });
  return result;
}

async function sentBefore(tx: ShopTx, before: { act: string; at: Date }): Promise<Refusal> {
  const settings = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const minutes = minuteOfDay(before.at.getTime(), settings.zone);
  const two = (n: number) => String(Math.floor(n)).padStart(2, "0");
  const when = `${dayOf(before.at.getTime(), settings.zone)} at ${two(minutes / 60)}:${two(minutes % 60)}`;
  return new Refusal(
    `This form came through before, with other contents: it ${before.act} on ${when}. That is stored; what was changed since is not.`,
    "Reload the page to see what is stored, then change it from there.",
    {},
    "repeated",
  );
}
