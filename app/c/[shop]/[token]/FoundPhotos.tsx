import { Section } from "@/app/_ui/Section";
import { Thumbs } from "@/app/_ui/Thumbs";
import { foundByLink } from "@/lib/data/photos/ofQuote";
import type { OpenedLink } from "@/lib/gate/customer";
import { wordsIn } from "@/lib/words/words";

/** What was found, in words and photos, where the quote is for extra work. */
export async function FoundPhotos({ link, token }: { link: OpenedLink; token: string }) {
  if (link.revisionId === null) return null;
  const found = await foundByLink(link.shop, link.revisionId);
  if (!found) return null;
  const title = wordsIn(link.locale)("quotePage.found");
  const base = `/c/${link.shop.slug}/${token}/photos`;
  return (
    <Section title={title}>
      {found.text && <p className="mb-2 whitespace-pre-line">{found.text}</p>}
      {found.photos.length > 0 && (
        <Thumbs
          photos={found.photos}
          of={title}
          small={(id) => `${base}/${id}/small`}
          large={(id) => `${base}/${id}`}
        />
      )}
    </Section>
  );
}
