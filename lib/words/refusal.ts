import { Refusal } from "@/lib/domain/refusal";
import { languageOf } from "./language";
import { refused } from "./refused";
import { wordsIn } from "./words";

type Key = keyof typeof refused.en;
type Values = Readonly<Record<string, string | number | Date>>;

/** A refusal that a customer can meet and that names something: its sentence is said in English and kept as message and values. */
export class SaidRefusal extends Refusal {
  constructor(
    readonly what: Key,
    readonly values: Values,
    readonly toDo: Key,
    kind: Refusal["kind"] = "refused",
  ) {
    super(sentence("en-GB", what, values), refused.en[toDo], {}, kind);
  }
}

const sentence = (locale: string, key: Key, values: Values = {}): string =>
  // The keys' own values differ, so the union of all messages takes none in common: each refusal brings its own.
  (wordsIn(locale) as (key: string, values: Values) => string)(`refused.${key}`, values);

const KEYS = new Map(Object.entries(refused.en).map(([key, text]) => [text as string, key as Key]));

/**
 * A refusal in a customer's language. What schemas and the data layer say without values is found by its English sentence;
 * what the catalogue does not know is left out and the shop's phone named in its place, so that nobody meets two languages.
 */
export function refusalIn(cause: Refusal, locale: string): Refusal {
  if (languageOf(locale) === "en") return cause;
  const said = (text: string, otherwise: Key): string =>
    text === "" ? "" : sentence(locale, KEYS.get(text) ?? otherwise);
  const message =
    cause instanceof SaidRefusal
      ? sentence(locale, cause.what, cause.values)
      : said(cause.message, "otherwise");
  const remedy = said(cause.remedy, "otherwiseDo");
  const fields = Object.entries(cause.fields).map(([name, text]) => [name, said(text, "otherwise")]);
  return new Refusal(message, remedy, Object.fromEntries(fields), cause.kind);
}

/** What is said where something of ours broke, with the number under which it is logged. */
export function failureIn(locale: string, id: string): { message: string; remedy: string } {
  return { message: sentence(locale, "failed"), remedy: sentence(locale, "failedDo", { id }) };
}
