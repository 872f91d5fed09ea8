import { Refusal } from "@/lib/domain/refusal";

/** Where pictures that people sent are found: by the shop's people, and by a customer's link. */
const ADDRESS = /^\/(?:api\/s\/[^/]+|c\/[^/]+\/[^/]+)\/photos\/[^/?]+(?:\/small)?(?:\?|$)/;

/** What may run in an answer at a picture's address: nothing. Null elsewhere. The web server sets it, as it does every page's policy. */
export function picturePolicy(address: string): string | null {
  return ADDRESS.test(address) ? "sandbox; default-src 'none'" : null;
}

/**
 * A picture that people sent, for looking at and nothing else: no other type can be guessed, and a browser keeps it for its
 * own person only, asking each time whether it may still be seen. `hash` is of its bytes, which are read only where the browser has them not.
 */
export async function picture(
  read: () => Promise<Uint8Array | null>,
  hash: string,
  request: Request,
): Promise<Response> {
  const headers = {
    "Cache-Control": "private, no-cache",
    ETag: `"${hash}"`,
    "X-Content-Type-Options": "nosniff",
    "Cross-Origin-Resource-Policy": "same-origin",
  };
  if (asked(request).includes(headers.ETag)) return new Response(null, { status: 304, headers });
  const bytes = await read().catch((cause: unknown) => {
    if (cause instanceof Refusal) return "later";
    throw cause;
  });
  if (bytes === "later") return later();
  if (!bytes) return noPicture();
  return new Response(bytes as BodyInit, {
    headers: { ...headers, "Content-Type": "image/jpeg", "Content-Disposition": "inline" },
  });
}

/** A customer may be who asks: why the store gives nothing is not theirs to know. */
const later = () =>
  new Response("The picture cannot be shown just now.", {
    status: 503,
    headers: { "Cache-Control": "no-store", "Retry-After": "60" },
  });

export const noPicture = () =>
  new Response("Not found.", { status: 404, headers: { "Cache-Control": "no-store" } });

/** The tags of If-None-Match, compared weakly as RFC 9110, 13.1.2 asks. */
function asked(request: Request): string[] {
  return (request.headers.get("if-none-match") ?? "").split(",").map((tag) => tag.trim().replace(/^W\//, ""));
}
