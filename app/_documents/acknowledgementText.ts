import { acknowledgement } from "@/lib/words/acknowledgement";
import { languageOf } from "@/lib/words/language";

/** What is acknowledged, in the reader's language where it is one of ours; a text of the shop's own as it stands. */
export function acknowledgementText({ key, text }: { key: string; text: string }, locale: string): string {
  const ours: Readonly<Record<string, string>> = acknowledgement[languageOf(locale)];
  return ours[key] ?? text;
}
