import { type TranslationKeys, ZxcvbnFactory } from "@zxcvbn-ts/core";
import * as common from "@zxcvbn-ts/language-common";
import * as english from "@zxcvbn-ts/language-en";
import { Refusal } from "@/lib/domain/refusal";

/**
 * How much of a password is looked at, and how many exchanged characters ("4" for "a") are tried in it. The estimate's time
 * grows faster than the length: measured in processor time, 100 characters cost 850 ms with the library's own limits; with
 * these, no text costs more than about 30.
 */
const LOOKED_AT = 64;
const EXCHANGES = 3;

/** From 0 to 4; at 3 some hundred million guesses would be needed (the library's scale). */
const ENOUGH = 3;

const WORDS: TranslationKeys = {
  ...english.translations,
  warnings: {
    straightRow: "Rows of neighbouring keys are guessed early.",
    keyPattern: "Patterns on the keyboard are guessed early.",
    simpleRepeat: "One character over and over is guessed early.",
    extendedRepeat: "The same few characters over and over are guessed early.",
    sequences: "Sequences such as abc or 6543 are guessed early.",
    recentYears: "Recent years are guessed early.",
    dates: "Dates are guessed early.",
    topTen: "It is one of the ten most used passwords.",
    topHundred: "It is one of the hundred most used passwords.",
    common: "It is a password that many people use.",
    similarToCommon: "It is close to a password that many people use.",
    wordByItself: "A single word is guessed early.",
    namesByThemselves: "A name by itself is guessed early.",
    commonNames: "Common names are guessed early.",
    userInputs: "It holds your name, your address or the shop's name.",
    pwned: "It was in a published leak.",
  },
  suggestions: {
    l33t: "Exchanging letters for look-alikes, such as @ for a, adds little.",
    reverseWords: "Words spelt backwards add little.",
    allUppercase: "Capitals throughout add little.",
    capitalization: "A capital at the beginning adds little.",
    dates: "Leave out dates and years.",
    recentYears: "Leave out recent years.",
    associatedYears: "Leave out years that mean something to you.",
    sequences: "Leave out sequences.",
    repeated: "Leave out repetitions.",
    longerKeyboardPattern: "Leave out keyboard patterns.",
    anotherWord: "Add a word or two that have nothing to do with the others.",
    useWords: "Use three or four words that have nothing to do with each other.",
    noNeed: "Signs, figures and capitals are not needed.",
    pwned: "Use one that you use nowhere else.",
  },
};

// One for the start and for the pages, which are bundled apart from it: it takes 30 MB.
const kept = globalThis as unknown as { throttlewrightStrength?: ZxcvbnFactory };

/** Loads the word lists, which takes a moment: the start does it, so that no request waits for it. */
export function readyStrength(): ZxcvbnFactory {
  kept.throttlewrightStrength ??= new ZxcvbnFactory({
    dictionary: { ...common.dictionary, ...english.dictionary },
    graphs: common.adjacencyGraphs,
    translations: WORDS,
    l33tMaxSubstitutions: EXCHANGES,
    maxLength: LOOKED_AT,
  });
  return kept.throttlewrightStrength;
}

/** Refuses a password that is guessed early, with the reason and what would help. `about` is what a stranger may know. */
export function demandStrength(password: string, about: readonly string[]): void {
  const known = [...new Set(about.flatMap(partsOf))].slice(0, 30);
  const { score, feedback } = readyStrength().check(password.slice(0, LOOKED_AT), known);
  if (score >= ENOUGH) return;
  const why = feedback.warning ?? "It follows a pattern that is tried early.";
  const advice = feedback.suggestions.length > 0 ? feedback.suggestions : [WORDS.suggestions.useWords];
  throw new Refusal("That password would be guessed too soon.", advice.join(" "), {
    password: why,
  });
}

/** A name or an address as a whole, in its words, and with these run together. */
function partsOf(text: string): string[] {
  const whole = text.toLowerCase().slice(0, 200);
  const words = whole.split(/[^\p{L}\p{N}]+/u);
  return [whole, words.join(""), ...words].filter((part) => part.length >= 3);
}
