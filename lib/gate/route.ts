import type { NextRequest } from "next/server";
import { NextResponse } from "next/server";
import type { Permission } from "@/lib/domain/access/permissions";
import { Refusal } from "@/lib/domain/refusal";
import { enter, type OpenShop } from "./open";
import { demandOurOrigin } from "./origin";

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
    if (!shop.can(permission)) return plain("Your role may not see this.", 403);
    try {
      const response = await make(shop, params, request);
      response.headers.set("Cache-Control", "private, no-store");
      return response;
    } catch (cause) {
      return refused(cause);
    }
  };
}

/** A file to save or show. The name is made safe for the header. */
export function file(body: Uint8Array | string, type: string, name: string, inline = false): Response {
  const safe = name.replace(/[^\w.-]+/g, "-");
  return new NextResponse(body as BodyInit, {
    headers: {
      "Content-Type": type,
      "Content-Disposition": `${inline ? "inline" : "attachment"}; filename="${safe}"`,
      "X-Content-Type-Options": "nosniff",
    },
  });
}

function refused(cause: unknown): Response {
  if (!(cause instanceof Refusal)) throw cause;
  const status = { missing: 404, forbidden: 403, conflict: 409, refused: 422 }[cause.kind];
  return plain(`${cause.message} ${cause.remedy}`, status);
}

function plain(text: string, status: number): Response {
  return new Response(text, {
    status,
    headers: { "Content-Type": "text/plain; charset=utf-8", "Cache-Control": "no-store" },
  });
}
