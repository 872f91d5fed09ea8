import { Link } from "@/app/_ui/Link";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import type { IntakeView } from "@/lib/data/intakes/get";
import type { GroupView } from "@/lib/domain/quoting/options";
import { observedText } from "@/lib/domain/tuning/symptoms";
import { RuleOutList } from "../../bikes/[id]/intakes/RuleOutList";

interface Props {
  intake: IntakeView;
  groups: readonly GroupView[];
  slug: string;
}

/** What the bike is complained of, which of it the ticked options answer, and what is ruled out before any of them. */
export function Told({ intake, groups, slug }: Props) {
  const ticked = groups.flatMap((group) => group.options).filter((option) => option.ticked);
  const trouble = intake.observations.filter((one) => one.sign !== "good");
  return (
    <Section
      title="What was told and felt"
      aside={
        <Link
          href={`/s/${slug}/bikes/${intake.bikeId}/intakes/${intake.id}`}
          className="text-brass underline underline-offset-4"
        >
          Intake
        </Link>
      }
    >
      {intake.complaint && <p className="mb-2 whitespace-pre-line">{intake.complaint}</p>}
      <ul>
        {trouble.map((one) => {
          const text = observedText(one);
          const by = ticked.filter((option) => option.answers.includes(text)).map((option) => option.name);
          return (
            <li key={text} className="border-hair border-b py-1.5">
              <span className="block">{text}</span>
              {by.length > 0 ? (
                <State shape="filled" tone="pine">
                  answered by {by.join(", ")}
                </State>
              ) : (
                <State shape="diamond" tone="oxide">
                  nothing ticked answers it
                </State>
              )}
            </li>
          );
        })}
      </ul>
      {intake.ruleOut.length > 0 && (
        <>
          <h3 className="mt-3 font-semibold">First rule out</h3>
          <RuleOutList ruleOut={intake.ruleOut} />
        </>
      )}
    </Section>
  );
}
