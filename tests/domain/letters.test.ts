import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { letterHtml } from "@/lib/domain/letters/html";
import { COMMON, LETTER_KINDS, letterOf, PLACEHOLDERS, usable } from "@/lib/domain/letters/kinds";
import { fillLetter, letterFaults } from "@/lib/domain/letters/template";
import { MOST_SUBJECT, MOST_TEXT } from "@/lib/schemas/letters";
import { LANGUAGES } from "@/lib/words/language";
import { letters } from "@/lib/words/letters";
import { ENGLISH, wordsOf, wordsOfHtml } from "../support/letterWords";

const marks = (text: string) => [...new Set(text.match(/\{\w+\}/gu) ?? [])].sort();

describe("the letters as they come", () => {
  for (const kind of LETTER_KINDS) {
    it(`have nothing wrong with ${kind} in either language, say the same in both, and fit`, () => {
      for (const language of LANGUAGES) {
        const { subject, text } = letters[language][kind];
        expect(letterFaults(kind, { subject, text })).toEqual({});
        expect(subject.length).toBeLessThanOrEqual(MOST_SUBJECT);
        expect(text.length).toBeLessThanOrEqual(MOST_TEXT);
      }
      const { en, nb } = { en: letters.en[kind], nb: letters.nb[kind] };
      expect(marks(nb.subject)).toEqual(marks(en.subject));
      expect(marks(nb.text)).toEqual(marks(en.text));
      const norwegian = `${nb.subject}\n${nb.text}`.replace(/\{\w+\}/gu, "");
      expect(norwegian.match(ENGLISH) ?? []).toEqual([]);
    });
  }

  it("need only what they may use, and every placeholder is some letter's", () => {
    for (const kind of LETTER_KINDS)
      for (const name of letterOf(kind).needs) expect(usable(kind)).toContain(name);
    const used = new Set(LETTER_KINDS.flatMap((kind) => [...usable(kind)]));
    expect(Object.keys(PLACEHOLDERS).filter((name) => ![...used].some((one) => one === name))).toEqual([]);
    expect([...used]).toEqual(expect.arrayContaining([...COMMON]));
  });
});

describe("a letter that a shop writes", () => {
  const good = { subject: "Quote {quote}", text: "Hello {name},\n{link}" };

  it("is told each placeholder that is not known, and which may be used", () => {
    const faults = letterFaults("quote", { ...good, text: "{nmae} {link} {deposit}" });
    expect(faults.text).toMatch(/^\{nmae\}, \{deposit\} are not known here\. You may use \{name\}, /u);
    expect(faults.text).toContain("{choices}");
    expect(faults.subject).toBeUndefined();
  });

  it("is told what is missing, with what the customer would not get", () => {
    expect(letterFaults("quote", { ...good, text: "Hello {name}." })).toEqual({
      text: "Put {link} in: without it the customer does not get the customer's own link.",
    });
    expect(letterFaults("yes", { subject: "Yes", text: "Thank you." })).toEqual({});
  });

  it("has no link and no list in its subject, and no brace that stands alone", () => {
    expect(letterFaults("quote", { ...good, subject: "Look: {link}" }).subject).toMatch(/^\{link\} is not/u);
    expect(letterFaults("quote", { ...good, subject: "Quote {quote" }).subject).toMatch(/stands alone/u);
    expect(letterFaults("quote", { ...good, text: "{link} {{name}}" }).text).toMatch(/stands alone/u);
    expect(letterFaults("quote", good)).toEqual({});
  });

  it("leaves out a line whose placeholder has nothing to say, and keeps one blank line of several", () => {
    const text = "Hello {name},\n\nThe deposit is {deposit}.\n{bankDetails}\n\n{ name }: {total}\n\n\n\nBye";
    expect(
      fillLetter({ subject: " {name}\n{total} ", text }, { name: "Ola", total: "5", deposit: "" }),
    ).toEqual({
      subject: "Ola 5",
      text: "Hello Ola,\n\nOla: 5\n\nBye",
    });
  });

  it("never takes what a value says for a placeholder", () => {
    const word = fc.string({ minLength: 1 }).filter((text) => !/\s/u.test(text));
    fc.assert(
      fc.property(word, word, (name, title) => {
        const { text } = fillLetter({ subject: "", text: "<{name}|{title}>" }, { name, title });
        expect(text).toBe(`<${name}|${title}>`);
      }),
    );
    const values = { name: "{link}", link: "https://shop.example/c/a/b" };
    expect(fillLetter({ subject: "{name}", text: "{name}" }, values)).toEqual({
      subject: "{link}",
      text: "{link}",
    });
  });
});

describe("a letter's HTML twin", () => {
  it("says the same words as the text, whatever stands in it, and runs nothing of it", () => {
    const words = fc.oneof(
      fc.string(),
      fc.constantFrom("<b>bold</b>", "&amp;", "'\"", "https://a.example/c/x?y=1&z=2.", "\n", "\n\n", "- one"),
    );
    fc.assert(
      fc.property(fc.array(words, { maxLength: 12 }), (pieces) => {
        const text = pieces.join(" ");
        const html = letterHtml(text, "nb");
        expect(wordsOfHtml(html)).toEqual(wordsOf(text));
        expect(html).not.toMatch(/<(?:script|img|b|iframe|form)\b/u);
      }),
    );
  });

  it("makes links of addresses without the mark that ends the sentence, and of nothing else", () => {
    const html = letterHtml("See https://a.example/c/x?a=1&b=2.\njavascript:alert(1) data:x", "en");
    expect(html.match(/href="[^"]*"/gu)).toEqual(['href="https://a.example/c/x?a=1&amp;b=2"']);
    expect(html).toContain('<html lang="en">');
  });
});
