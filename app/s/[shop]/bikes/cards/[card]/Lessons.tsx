import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { LESSON_ACTS, type LessonRow, type LessonState } from "@/lib/data/bikes/lessons";
import { JudgeLesson } from "./JudgeLesson";

const SOURCES: Readonly<Record<string, string>> = {
  log: "Lambda log",
  asLeft: "Good ride, as left",
  felt: "Felt on a ride",
};
function stateOf(state: LessonState) {
  if (state === "teaches") return <State shape="filled">teaches the card</State>;
  if (state === "released") return <State shape="filled">released to the card</State>;
  if (state === "held")
    return (
      <State shape="diamond" tone="brass">
        kept on its bike
      </State>
    );
  return <State shape="dash">taken out</State>;
}

/** What taught this card, one lesson at a time: why one is kept on its bike, and the way to release it or take it out. */
export function Lessons({
  lessons,
  slug,
  locale,
  zone,
  mayJudge,
}: {
  lessons: readonly LessonRow[];
  slug: string;
  locale: string;
  zone: string;
  mayJudge: boolean;
}) {
  if (lessons.length === 0) return null;
  return (
    <Section title="What taught this card">
      <ul>
        {lessons.map((one) => (
          <li key={one.id} className="border-hair border-b py-2 text-[15px]">
            <div className="flex flex-wrap items-baseline justify-between gap-x-4 gap-y-1">
              <span>
                {SOURCES[one.source] ?? one.source},{" "}
                <Link href={`/s/${slug}/bikes/${one.bikeId}`}>{one.bike}</Link>,{" "}
                <Instant at={one.at.toISOString()} locale={locale} zone={zone} />
                {one.samples > 0 && <span className="text-soft">, {one.samples} samples</span>}
              </span>
              {stateOf(one.state)}
            </div>
            {one.note && <p className="text-[14px] text-soft">{one.note}</p>}
            {one.heldBecause && one.state !== "taken out" && (
              <p className="max-w-prose text-[14px]">
                The model does not see it. {one.heldBecause}
                {one.state === "held" && " So it counts for this bike alone."}
              </p>
            )}
            {one.why && <p className="text-[14px] text-soft">Decided: {one.why}</p>}
            {mayJudge && (
              <div className="mt-1 flex flex-wrap gap-2">
                {LESSON_ACTS[one.state].map((act) => (
                  <JudgeLesson key={act} slug={slug} lesson={one.id} act={act} />
                ))}
              </div>
            )}
          </li>
        ))}
      </ul>
    </Section>
  );
}
