import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { State } from "@/app/_ui/State";
import { listLetters } from "@/lib/data/mail/letterTexts";
import { open } from "@/lib/gate/open";
import { LANGUAGE_NAMES } from "@/lib/words/language";

/** Every letter that customers get: when it is written, whether it is on, and where its words are the shop's own. */
export default async function LettersPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("shop.write", slug);
  const letters = await listLetters(shop);
  return (
    <>
      <PageHead
        of={shop.name}
        title="Letters"
        sub="What customers are written, in their language. Each can be read, changed and switched off."
      />
      <ul className="max-w-[820px]">
        {letters.map(({ kind, title, when, on, days, edited }) => (
          <li key={kind} className="border-hair border-b">
            <Link
              href={`/s/${slug}/shop/letters/${kind}`}
              className="grid min-h-12 gap-x-6 py-2.5 no-underline sm:grid-cols-[200px_1fr_auto]"
            >
              <strong>{title}</strong>
              <span className="text-soft">
                Written {when}.{days ? ` Now after ${days} ${days === 1 ? "day" : "days"}.` : ""}
                {edited.length > 0 &&
                  ` In your own words in ${edited.map((language) => LANGUAGE_NAMES[language]).join(" and ")}.`}
              </span>
              <State shape={on ? "filled" : "dash"} tone={on ? "pine" : "soft"}>
                {on ? "on" : "off"}
              </State>
            </Link>
          </li>
        ))}
      </ul>
    </>
  );
}
