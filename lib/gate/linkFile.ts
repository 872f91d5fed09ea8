import type { NextRequest } from "next/server";
import { type OpenedLink, openLink } from "./customer";
import { file, refused } from "./route";
import { shutAnswer } from "./shut";

interface LinkFile {
  readonly body: Parameters<typeof file>[0];
  readonly type: string;
  readonly name: string;
}

/** The one wrapper for a file that a customer gets by link. What is not for this link, and a link that does not open, is not found. */
export function linkFile(make: (link: OpenedLink, request: NextRequest) => Promise<LinkFile | null>) {
  return async (
    request: NextRequest,
    { params }: { params: Promise<{ shop: string; token: string }> },
  ): Promise<Response> => {
    const { shop, token } = await params;
    const link = await openLink(shop, token);
    if ("closed" in link && link.closed === "shut") return shutAnswer();
    if ("closed" in link) return notFound();
    try {
      const made = await make(link, request);
      if (!made) return notFound();
      const response = file(made.body, made.type, made.name, made.type === "application/pdf");
      response.headers.set("Cache-Control", "private, no-store");
      response.headers.set("Referrer-Policy", "same-origin");
      return response;
    } catch (cause) {
      return refused(cause);
    }
  };
}

const notFound = () => new Response("Not found.", { status: 404, headers: { "Cache-Control": "no-store" } });
