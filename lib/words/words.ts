import { createTranslator } from "use-intl/core";
import { acknowledgement } from "./acknowledgement";
import { answering } from "./answering";
import { didHere } from "./didHere";
import { invoicePage } from "./invoicePage";
import { jobPage } from "./jobPage";
import { kit } from "./kit";
import { type Language, languageOf } from "./language";
import { links } from "./links";
import { mails } from "./mails";
import { observed } from "./observed";
import { paying } from "./paying";
import { quotePage } from "./quotePage";
import { refused } from "./refused";
import { runsPage } from "./runsPage";
import { setting } from "./setting";

/** Every message that reaches a customer, by area; each area holds all languages side by side. */
export const AREAS = {
  acknowledgement,
  answering,
  didHere,
  invoicePage,
  jobPage,
  kit,
  links,
  mails,
  observed,
  paying,
  quotePage,
  refused,
  runsPage,
  setting,
};

type Areas = typeof AREAS;
export type Messages = { [A in keyof Areas]: Areas[A]["en"] };

const messagesOf = (language: Language) =>
  Object.fromEntries(Object.entries(AREAS).map(([area, said]) => [area, said[language]])) as Messages;

const MESSAGES: Readonly<Record<Language, Messages>> = { en: messagesOf("en"), nb: messagesOf("nb") };

function translator(locale: string) {
  return createTranslator<Messages>({
    locale,
    // Days of the calendar are given as midnight in UTC; instants are formatted before they come here.
    timeZone: "UTC",
    messages: MESSAGES[languageOf(locale)],
    onError: (problem) => {
      throw problem;
    },
  });
}

export type Said = ReturnType<typeof translator>;

/** More locales than this are not in use at once; a locale comes from a shop's settings, never from a request. */
const MOST_KEPT = 64;
const made = new Map<string, Said>();

/** Says messages of the catalogue in a locale's language: `say("mails.dear", { name })`. Plurals and numbers by the locale. */
export function wordsIn(locale: string): Said {
  const known = made.get(locale);
  if (known) return known;
  if (made.size >= MOST_KEPT) made.clear();
  const say = translator(locale);
  made.set(locale, say);
  return say;
}
