import { Link } from "@/app/_ui/Link";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { RuleOutList } from "../../bikes/[id]/intakes/RuleOutList";
import type { ToldShown } from "./shown/told";

/** What the bike is complained of, which of it the ticked options answer, and what is ruled out before any of them. */
export function Told({ told, slug }: { told: ToldShown; slug: string }) {
  return (
    <Section
      title="What was told and felt"
      aside={
        <Link href={`/s/${slug}/${told.at}`} className="text-brass underline underline-offset-4">
          Intake
        </Link>
      }
    >
      {told.complaint && <p className="mb-2 whitespace-pre-line">{told.complaint}</p>}
      <ul>
        {told.felt.map(({ key: text, by }) => (
          <li key={text} className="border-hair border-b py-1.5">
            <span className="block">{text}</span>
            {by ? (
              <State shape="filled" tone="pine">
                answered by {by}
              </State>
            ) : (
              <State shape="diamond" tone="oxide">
                nothing ticked answers it
              </State>
            )}
          </li>
        ))}
      </ul>
      {told.ruleOut.length > 0 && (
        <>
          <h3 className="mt-3 font-semibold">First rule out</h3>
          <RuleOutList ruleOut={told.ruleOut} />
        </>
      )}
    </Section>
  );
}
