import { wordsIn } from "./words";

/** What a visit in a calendar says around the shop's own words. */
export function visitWords(locale: string): {
  readonly at: (bike: string, shop: string) => string;
  readonly job: (number: string, title: string) => string;
} {
  const say = wordsIn(locale);
  return {
    at: (bike, shop) => (bike ? say("mails.visit", { bike, shop }) : say("mails.visitShop", { shop })),
    job: (number, title) => say("mails.visitJob", { number: String(number), title }),
  };
}
