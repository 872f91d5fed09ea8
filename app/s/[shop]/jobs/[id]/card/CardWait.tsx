import { Form } from "@/app/_ui/Form";
import { dateText } from "@/app/_ui/format";
import { Note } from "@/app/_ui/Note";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { WAIT_WORDS } from "@/lib/schemas/waitWords";
import { endOneWait } from "../../waitActions";
import { FetchedFold } from "./FetchedFold";
import type { CardHead, CardScreen } from "./shown";

interface CardWaitProps {
  card: CardHead;
  slug: string;
  mayWork: boolean;
  locale: string;
}

/** What the job waits for and until when, with the way on; and the word of whoever handed it over. */
export function WaitSaid({ card, slug, mayWork, locale }: CardWaitProps) {
  const { wait: now, handedOver } = card;
  return (
    <>
      {handedOver && (
        <Note title={`${handedOver.from || "Somebody"} handed this job over to ${handedOver.to}.`}>
          {handedOver.note}
        </Note>
      )}
      {now && (
        <Note title={`It waits for ${WAIT_WORDS[now.reason]}${untilText(now.untilOn, card.today, locale)}.`}>
          {now.note}
          {mayWork && (
            <Form
              action={endOneWait}
              shop={slug}
              hidden={{ waitId: String(now.id) }}
              label="It waits no longer"
            >
              <SubmitButton tone="quiet">It waits no longer</SubmitButton>
            </Form>
          )}
        </Note>
      )}
    </>
  );
}

/** ", until 3 Dec 2026"; a day that has passed says so. */
function untilText(untilOn: string | null, today: string, locale: string): string {
  if (untilOn === null) return "";
  return untilOn < today
    ? `, and should have gone on since ${dateText(untilOn, locale)}`
    : `, until ${dateText(untilOn, locale)}`;
}

/** Says that the job waits, and for what. */
export function SayWait({ card, slug }: Pick<CardWaitProps, "card" | "slug">) {
  const of = { card, slug, title: "It has to wait", keep: `wait ${card.id}` };
  return (
    <FetchedFold title={of.title} keep={of.keep}>
      {({ WaitForm }) => <WaitForm {...of} />}
    </FetchedFold>
  );
}

interface GiveAwayProps {
  card: CardHead;
  slug: string;
  others: CardScreen["others"];
}

/** Hands the job over to another person, with a word. */
export function GiveAway({ card, slug, others }: GiveAwayProps) {
  if (others.length === 0) return null;
  const of = { card, slug, title: "Hand it over", keep: `hand ${card.id}` };
  return (
    <FetchedFold title={of.title} keep={of.keep}>
      {({ HandOverForm }) => <HandOverForm {...of} others={others} />}
    </FetchedFold>
  );
}
