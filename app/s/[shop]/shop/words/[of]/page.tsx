import { notFound } from "next/navigation";
import { Empty } from "@/app/_ui/Empty";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { textsOfPackage, textsOfShop } from "@/lib/data/packages/ownTexts";
import { phrasesOf } from "@/lib/data/shop/phrases";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { LANGUAGE_NAMES, LANGUAGES, languageOf } from "@/lib/words/language";
import { saveWords } from "../actions";

interface Props {
  params: Promise<{ shop: string; of: string }>;
  searchParams: Promise<{ language?: string }>;
}

/** The texts of the shop or of one package, each with what it is in another language. */
export default async function WordsOf({ params, searchParams }: Props) {
  const [{ shop: slug, of }, asked] = await Promise.all([params, searchParams]);
  const shop = await open("shop.write", slug);
  const found = of === "shop" ? await textsOfShop(shop) : await textsOfPackage(shop, pathId(of));
  if (!found) notFound();
  const language =
    LANGUAGES.find((one) => one === asked.language) ??
    LANGUAGES.find((one) => one !== languageOf(shop.settings.locale)) ??
    "en";
  const phrases = await phrasesOf(shop, language, found.texts);
  const missing = phrases.filter((phrase) => phrase.said === "").length;
  return (
    <>
      <PageHead
        of={shop.name}
        title={`${of === "shop" ? "The shop" : found.name} in ${LANGUAGE_NAMES[language]}`}
        sub={
          missing > 0
            ? `${missing} of ${phrases.length} not written yet: they are read as they are.`
            : undefined
        }
        actions={
          <>
            {LANGUAGES.map((one) => (
              <LinkButton
                key={one}
                href={`/s/${slug}/shop/words/${of}?language=${one}`}
                tone={one === language ? "main" : "second"}
              >
                {LANGUAGE_NAMES[one]}
              </LinkButton>
            ))}
            <LinkButton href={`/s/${slug}/shop/words`} tone="quiet">
              All words
            </LinkButton>
          </>
        }
      />
      {phrases.length === 0 ? (
        <Empty
          title="No words of yours yet"
          text="What you write in Settings or in a package comes up here."
        />
      ) : (
        <Form
          key={`${language} ${phrases.map((phrase) => phrase.version).join()}`}
          action={saveWords}
          shop={slug}
          hidden={{ of, language }}
          label="Words in another language"
          className="max-w-[820px]"
        >
          {phrases.map(({ key, source, said, version }) => (
            <div key={key}>
              <input type="hidden" name={`typed.${key}.version`} value={version} readOnly />
              <TextArea
                name={`typed.${key}.said`}
                label={<span className="whitespace-pre-line">{source}</span>}
                initial={said}
                rows={source.length > 80 ? 3 : 1}
                maxLength={3000}
              />
            </div>
          ))}
          <SubmitButton>Save the words</SubmitButton>
        </Form>
      )}
    </>
  );
}
