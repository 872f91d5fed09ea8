import { instantText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Section } from "@/app/_ui/Section";
import type { IntakeView } from "@/lib/data/intakes/get";
import { observedText } from "@/lib/domain/tuning/symptoms";

interface Props {
  home: string;
  /** What waits for work; null where there is none. */
  intake: IntakeView | null;
  mayRecord: boolean;
  locale: string;
  zone: string;
}

/** What was told and felt of a bike since it was last worked on, and the way to say it. */
export function BeforeQuote({ home, intake, mayRecord, locale, zone }: Props) {
  return (
    <Section
      title="Before a quote"
      aside={
        <LinkButton href={`${home}/intakes`} tone="quiet">
          All intakes
        </LinkButton>
      }
    >
      {intake && (
        <>
          <p>
            <Link href={`${home}/intakes/${intake.id}`} className="text-brass underline underline-offset-4">
              Intake of {instantText(intake.at.toISOString(), locale, zone, "date")}
            </Link>
          </p>
          <ul className="mt-1 mb-2">
            {intake.observations.map((one, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: the same may be felt twice, and the list never changes.
              <li key={at}>{observedText(one)}</li>
            ))}
          </ul>
        </>
      )}
      {!intake && <p className="mb-2 text-soft">Nothing was told or felt since the last work.</p>}
      {mayRecord && <LinkButton href={`${home}/intakes/new`}>New intake</LinkButton>}
    </Section>
  );
}
