import { DateField } from "@/app/_ui/DateField";
import { Form } from "@/app/_ui/Form";
import { dateText } from "@/app/_ui/format";
import { Note } from "@/app/_ui/Note";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { WAIT_REASONS, WAIT_WORDS } from "@/lib/schemas/waitWords";
import { endOneWait, handJobOver, wait } from "../../waitActions";
import { FoldedForm } from "./FoldedForm";
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
  return (
    <FoldedForm
      title="It has to wait"
      action={wait}
      shop={slug}
      hidden={{ jobId: String(card.id) }}
      keep={`wait ${card.id}`}
    >
      <SelectField
        name="reason"
        label="For what"
        options={[
          { value: "", label: "choose…" },
          ...WAIT_REASONS.map((value) => ({ value, label: WAIT_WORDS[value] })),
        ]}
      />
      <DateField name="untilOn" label="Until" min={card.today} hint="Leave it open while nobody knows." />
      <TextField name="note" label="A word on it" maxLength={300} />
      <SubmitButton tone="second">Let it wait</SubmitButton>
    </FoldedForm>
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
  return (
    <FoldedForm
      title="Hand it over"
      action={handJobOver}
      shop={slug}
      hidden={{ jobId: String(card.id) }}
      keep={`hand ${card.id}`}
    >
      <SelectField
        name="toId"
        label="To whom"
        options={[
          { value: "", label: "choose…" },
          ...others.map((one) => ({ value: String(one.id), label: one.name })),
        ]}
      />
      <TextArea
        name="note"
        label="Where it stands"
        rows={3}
        maxLength={500}
        required
        hint="They see it on Today and on this card. Your time on the job stops; its bookings stay as they are."
      />
      <SubmitButton tone="second">Hand it over</SubmitButton>
    </FoldedForm>
  );
}
