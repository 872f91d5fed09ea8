import { Link } from "@/app/_ui/Link";
import { inPlaceOf } from "@/lib/data/mail/letters";
import type { QuotePreview } from "@/lib/data/quotes/preview";
import { LANGUAGE_NAMES, languageOf } from "@/lib/words/language";

/** Who is written to and in which language, or that nobody is and the link has to be handed over. */
export function WhoGetsIt({ slug, quote }: { slug: string; quote: QuotePreview }) {
  const { customer, text, withheld } = quote;
  const language = LANGUAGE_NAMES[languageOf(text.printed.locale)];
  if (!withheld)
    return (
      <p>
        A mail with the link goes to <strong>{customer.email}</strong>. It and the page are in {language}.
      </p>
    );
  const { message, remedy } = inPlaceOf(withheld, customer);
  return (
    <p>
      <strong>No mail goes.</strong> {message} {remedy} The link is shown here once it is sent; the page is in{" "}
      {language}.{" "}
      <Link
        href={`/s/${slug}/customers/${customer.id}/edit`}
        className="inline-flex min-h-6 items-center text-brass underline underline-offset-4 pointer-coarse:min-h-12"
      >
        To the customer
      </Link>
    </p>
  );
}
