import { wordsIn } from "@/lib/words/words";
import type { WishWords } from "./WishFields";

/** What the fields of a wish say; the desk has a title of its own for them. */
export function wishWords(locale: string, title?: string): WishWords {
  const say = wordsIn(locale);
  return {
    title: title ?? say("answering.sayWhen"),
    when: say("answering.when"),
    talk: say("answering.talk"),
    soon: say("answering.soon"),
    from: say("answering.from"),
    fromDay: say("answering.fromDay"),
    notDays: say("answering.notDays"),
    dayNote: say("answering.dayNote"),
  };
}
