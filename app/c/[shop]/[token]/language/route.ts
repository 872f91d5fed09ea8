import type { NextRequest } from "next/server";
import { speakTo } from "@/lib/data/customers/language";
import { openLink } from "@/lib/gate/customer";
import { publicUrl } from "@/lib/gate/origin";
import { guardedPost } from "@/lib/gate/route";
import { LanguageSchema } from "@/lib/schemas/customers";

/** The customer chooses the language of what they read; the page then comes anew as a whole, with its frame. */
export const POST = guardedPost(
  async (request: NextRequest, { params }: { params: Promise<{ shop: string; token: string }> }) => {
    const { shop, token } = await params;
    const link = await openLink(shop, token);
    const language = LanguageSchema.parse((await request.formData()).get("language"));
    if (!("closed" in link) && link.customerId !== null && language)
      await speakTo(link.shop, { id: link.customerId, language });
    return new Response(null, {
      status: 303,
      headers: {
        Location: new URL(
          `/c/${encodeURIComponent(shop)}/${encodeURIComponent(token)}`,
          publicUrl(),
        ).toString(),
        "Cache-Control": "no-store",
      },
    });
  },
);
