import type { Metadata } from "next";
import type { ClosedLink, OpenedLink } from "@/lib/gate/customer";
import { wordsIn } from "@/lib/words/words";

/** What the head of a customer's page says. */
export function linkMetadata(link: OpenedLink | ClosedLink): Metadata {
  const say = wordsIn(link.locale);
  const title = "closed" in link ? say("links.page") : say("links.pageOf", { shop: link.shopName });
  return {
    title,
    // What a chat shows of the address: nothing of the customer, their bike or their money.
    openGraph: { title, description: say("links.private") },
    description: say("links.private"),
    // The address holds the token: it is told to nobody else, and a form's origin stays known to us.
    referrer: "same-origin",
    robots: { index: false, follow: false },
  };
}
