import { setImmediate } from "node:timers/promises";
import type { NextRequest } from "next/server";
import { NextResponse } from "next/server";
import type { Permission } from "@/lib/domain/access/permissions";
import { Refusal } from "@/lib/domain/refusal";
import { note } from "./events";
import { limit } from "./limit";
import { enter, NO_FACTOR, type OpenShop } from "./open";
import { demandOurOrigin } from "./origin";
import { shutAnswer } from "./shut";

/** Route handlers have no check of their own against foreign pages: every non-GET goes through this. */
export function guardedPost<C>(handle: (request: NextRequest, context: C) => Promise<Response>) {
  return async (request: NextRequest, context: C): Promise<Response> => {
    try {
      demandOurOrigin(request.headers);
    } catch (cause) {
      return refused(cause);
    }
    return handle(request, context);
  };
}

interface ShopContext {
  params: Promise<Record<string, string>>;
}

/**
 * The one wrapper for a shop's files (PDF, CSV, calendar): session, membership and permission as for a page.
 * A stranger gets 404, the wrong role 403, a Refusal its sentence.
 */
export function shopFile(
  permission: Permission,
  make: (shop: OpenShop, params: Record<string, string>, request: NextRequest) => Promise<Response>,
) {
  return async (request: NextRequest, context: ShopContext): Promise<Response> => {
    const params = await context.params;
    const shop = await enter(params.shop ?? "");
    if (shop === "signed out" || shop === "missing") return plain("Not found.", 404);
    if (shop === "shut") return shutAnswer();
    if (shop === "no second factor") return plain(`${NO_FACTOR.message} ${NO_FACTOR.remedy}`, 403);
    if (!shop.can(permission)) return plain("Your role may not see this.", 403);
    try {
      const response = await make(shop, params, request);
      if (!response.headers.has("Cache-Control")) response.headers.set("Cache-Control", "private, no-store");
      return response;
    } catch (cause) {
      return refused(cause);
    }
  };
}

const UPLOADS = 120;
const TEN_MINUTES = 10 * 60_000;

/**
 * The one wrapper for what people send as a file, as the request's whole body: origin, session, membership and permission
 * as for an action, then how often and how large. `take` gets at most `mostBytes`; what it answers is text.
 */
export function shopUpload(
  permission: Permission,
  mostBytes: number,
  take: (shop: OpenShop, request: NextRequest, body: Uint8Array) => Promise<string>,
) {
  return guardedPost(async (request: NextRequest, context: ShopContext) => {
    const slug = (await context.params).shop ?? "";
    const shop = await enter(slug);
    if (shop === "signed out")
      return plain("You are signed out. Sign in again in another tab, then send it once more.", 401);
    if (shop === "missing") return plain("Not found.", 404);
    if (shop === "shut") return shutAnswer();
    if (shop === "no second factor") return plain(`${NO_FACTOR.message} ${NO_FACTOR.remedy}`, 403);
    if (!shop.can(permission)) {
      await note("was refused", shop.by.personId, shop.shopId, permission, shop.now);
      return plain(`Your role (${shop.role}) may not do this. Ask an owner of the shop.`, 403);
    }
    try {
      await limit(`upload:${shop.by.personId}`, UPLOADS, TEN_MINUTES, shop.now);
      const body = await bodyOf(request, mostBytes);
      if (!body)
        return plain(
          `It is larger than ${Math.floor(mostBytes / 1024 / 1024)} MB. Send a smaller copy.`,
          413,
        );
      return plain(await take(shop, request, body), 200);
    } catch (cause) {
      return refused(cause);
    }
  });
}

/** The body, or null where it is larger: counted as it arrives, since its declared length is only a claim. */
async function bodyOf(request: NextRequest, mostBytes: number): Promise<Uint8Array | null> {
  if (Number(request.headers.get("content-length") ?? 0) > mostBytes) return null;
  const parts: Uint8Array[] = [];
  let size = 0;
  for await (const part of request.body ?? []) {
    size += part.length;
    if (size > mostBytes) return null;
    parts.push(part);
  }
  return Buffer.concat(parts);
}

/** Runs what answers a request outside any session; a Refusal becomes its sentence with its status. */
export async function answered(run: () => Promise<Response>): Promise<Response> {
  try {
    return await run();
  } catch (cause) {
    return refused(cause);
  }
}

/** A file to save or show. The name is made safe for the header. */
export function file(
  body: Uint8Array | string | ReadableStream<Uint8Array>,
  type: string,
  name: string,
  inline = false,
): Response {
  const safe = name.replace(/[^\w.-]+/g, "-");
  return new NextResponse(body as BodyInit, {
    headers: {
      "Content-Type": type,
      "Content-Disposition": `${inline ? "inline" : "attachment"}; filename="${safe}"`,
      "X-Content-Type-Options": "nosniff",
    },
  });
}

/** Text sent as it is made, other requests served between its parts; what is not read any more is not made. */
export function streamOf(parts: AsyncGenerator<string, void, undefined>): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder();
  return new ReadableStream({
    async pull(controller) {
      const { value, done } = await parts.next();
      if (done) return controller.close();
      controller.enqueue(encoder.encode(value));
      await setImmediate();
    },
    async cancel() {
      await parts.return();
    },
  });
}

/** The answer to what a file route threw: a Refusal in its words, "busy" with when to try again; a bug is thrown on. */
export function refused(cause: unknown): Response {
  if (!(cause instanceof Refusal)) throw cause;
  const status = {
    missing: 404,
    forbidden: 403,
    conflict: 409,
    repeated: 409,
    tooOften: 429,
    refused: 422,
    busy: 503,
    signedOut: 401,
  }[cause.kind];
  const response = plain(`${cause.message} ${cause.remedy}`, status);
  if (cause.kind === "busy") response.headers.set("Retry-After", "5");
  return response;
}

function plain(text: string, status: number): Response {
  return new Response(text, {
    status,
    headers: { "Content-Type": "text/plain; charset=utf-8", "Cache-Control": "no-store" },
  });
}
