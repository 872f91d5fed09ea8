import { Instant } from "@/app/_ui/Instant";
import { Section } from "@/app/_ui/Section";
import type { lettersAbout } from "@/lib/data/mail/list";
import { LETTER_KINDS, letterOf } from "@/lib/domain/letters/kinds";

interface Props {
  letters: Awaited<ReturnType<typeof lettersAbout>>;
  locale: string;
  zone: string;
}

const titleOf = (letter: string): string => {
  const kind = LETTER_KINDS.find((one) => one === letter);
  return kind ? letterOf(kind).title : letter;
};

/** The letters that were written about something; nothing where none were. */
export function Letters({ letters, locale, zone }: Props) {
  if (letters.length === 0) return null;
  return (
    <Section title="Letters">
      <ul>
        {letters.map((letter) => (
          <li key={letter.id} className="border-hair border-b py-2">
            {titleOf(letter.letter)},{" "}
            <Instant at={letter.createdAt.toISOString()} locale={locale} zone={zone} />
            <span className="block text-[14px] text-soft">
              to {letter.to}
              {letter.state === "sent"
                ? ""
                : letter.state === "failed"
                  ? ", not sent"
                  : ", in the mail queue"}
            </span>
          </li>
        ))}
      </ul>
    </Section>
  );
}
