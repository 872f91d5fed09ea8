import { Section } from "@/app/_ui/Section";
import { foundFor } from "@/lib/data/photos/ofQuote";
import type { OpenShop } from "@/lib/gate/open";
import { ShopThumbs } from "../../_photos/ShopThumbs";
import { FoundPhoto } from "./FoundPhoto";

interface FoundPhotosProps {
  shop: OpenShop;
  quoteId: number;
  sent: boolean;
}

/** What was found, for a variation, with the photos that its customer is shown. */
export async function FoundPhotos({ shop, quoteId, sent }: FoundPhotosProps) {
  const found = shop.can("photo.read") ? await foundFor(shop, quoteId) : null;
  if (!found) return null;
  return (
    <Section title="What was found">
      <p className="whitespace-pre-line">{found.text}</p>
      <ShopThumbs slug={shop.slug} photos={found.photos} of={found.text} />
      {!sent && shop.can("photo.write") && (
        <FoundPhoto shop={shop.slug} noun="finding" id={found.id} of="of what was found" />
      )}
      <p className="mt-2 text-[14px] text-soft">
        The customer reads these words and sees the photos taken before the quote is sent, while it waits for
        an answer.
      </p>
    </Section>
  );
}
