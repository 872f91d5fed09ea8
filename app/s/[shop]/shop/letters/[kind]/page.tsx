import { notFound } from "next/navigation";
import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { NumberField } from "@/app/_ui/NumberField";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { getLetter } from "@/lib/data/mail/letterTexts";
import { letterSample } from "@/lib/data/papers/letterSample";
import { letterOf, PLACEHOLDERS, usable } from "@/lib/domain/letters/kinds";
import { open } from "@/lib/gate/open";
import { publicUrl } from "@/lib/gate/origin";
import { LetterKindSchema } from "@/lib/schemas/letters";
import { LANGUAGE_NAMES, LANGUAGES, languageOf } from "@/lib/words/language";
import { switchIt } from "../actions";
import { LetterForm } from "./LetterForm";

interface Props {
  params: Promise<{ shop: string; kind: string }>;
  searchParams: Promise<{ language?: string }>;
}

/** One letter: its words in a language, what it says with the shop's newest, and whether it is written at all. */
export default async function LetterPage({ params, searchParams }: Props) {
  const [{ shop: slug, kind: asked }, query] = await Promise.all([params, searchParams]);
  const shop = await open("shop.write", slug);
  const kind = LetterKindSchema.parse(asked);
  if (!kind) notFound();
  const letter = await getLetter(shop, kind);
  const language = LANGUAGES.find((one) => one === query.language) ?? languageOf(shop.settings.locale);
  const words = letter.texts.find((one) => one.language === language);
  if (!words) notFound();
  const sample = await letterSample(shop, kind, language, publicUrl().origin);
  return (
    <>
      <PageHead
        of={shop.name}
        title={letter.title}
        sub={`Written ${letter.when}.`}
        actions={
          <>
            {LANGUAGES.map((one) => (
              <LinkButton
                key={one}
                href={`/s/${slug}/shop/letters/${kind}?language=${one}`}
                tone={one === language ? "main" : "second"}
              >
                {LANGUAGE_NAMES[one]}
              </LinkButton>
            ))}
            <LinkButton href={`/s/${slug}/shop/letters`} tone="quiet">
              All letters
            </LinkButton>
          </>
        }
      />
      <Section title="When it is written">
        <Form
          key={letter.version}
          action={switchIt}
          shop={slug}
          hidden={{ kind, version: String(letter.version) }}
          label="When it is written"
          className="max-w-md"
        >
          <CheckField name="on" label="This letter is on" initial={letter.on} />
          {letterOf(kind).days !== undefined && (
            <NumberField
              name="days"
              label="By itself after"
              unit="days"
              min={1}
              max={90}
              initial={letter.days ?? undefined}
              hint="Empty: only by hand."
            />
          )}
          <SubmitButton tone="second">Save</SubmitButton>
        </Form>
      </Section>
      <LetterForm
        key={`${language} ${words.version}`}
        slug={slug}
        kind={kind}
        language={language}
        words={words}
        values={sample.values}
        real={sample.real}
        placeholders={usable(kind).map((name) => ({ name, means: PLACEHOLDERS[name].means }))}
      />
    </>
  );
}
