import type { NextRequest } from "next/server";
import { speakTo } from "@/lib/data/customers/language";
import { openLink } from "@/lib/gate/customer";
import { limit } from "@/lib/gate/limit";
import { publicUrl } from "@/lib/gate/origin";
import { guardedPost, refused } from "@/lib/gate/route";
import { LanguageSchema } from "@/lib/schemas/customers";

/** More changes of a language than this in ten minutes are no reader's. */
const MOST = 20;
const TEN_MINUTES = 10 * 60_000;

/** The customer chooses the language of what they read; the page then comes anew as a whole, with its frame. */
export const POST = guardedPost(
  async (request: NextRequest, { params }: { params: Promise<{ shop: string; token: string }> }) => {
    const { shop, token } = await params;
    const link = await openLink(shop, token);
    const form = await request.formData().catch(() => null);
    const language = LanguageSchema.parse(form?.get("language") ?? null);
    if (!("closed" in link) && link.customerId !== null && language) {
      try {
        await limit(`language of link ${link.id} of ${shop}`, MOST, TEN_MINUTES, link.shop.now);
      } catch (cause) {
        return refused(cause);
      }
      await speakTo(link.shop, { id: link.customerId, language });
    }
    const page = new URL(`/c/${encodeURIComponent(shop)}/${encodeURIComponent(token)}`, publicUrl());
    return new Response(null, {
      status: 303,
      headers: { Location: page.toString(), "Cache-Control": "no-store" },
    });
  },
);
