import { Section } from "@/app/_ui/Section";
import { Thumbs } from "@/app/_ui/Thumbs";
import { photosByLink } from "@/lib/data/photos/ofQuote";
import type { OpenedLink } from "@/lib/gate/customer";

/** Photos of what was found, where the quote is for extra work. */
export async function FoundPhotos({ link, token }: { link: OpenedLink; token: string }) {
  if (link.revisionId === null) return null;
  const photos = await photosByLink(link.shop, link.revisionId);
  if (photos.length === 0) return null;
  const base = `/c/${link.shop.slug}/${token}/photos`;
  return (
    <Section title="What was found">
      <Thumbs
        photos={photos}
        of="What was found"
        small={(id) => `${base}/${id}/small`}
        large={(id) => `${base}/${id}`}
      />
    </Section>
  );
}
