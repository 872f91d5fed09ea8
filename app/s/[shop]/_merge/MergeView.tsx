import { Facts } from "@/app/_ui/Facts";
import { Form } from "@/app/_ui/Form";
import type { FormAction } from "@/app/_ui/formState";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { MergePreview } from "@/lib/data/merging/types";

export interface MergeViewProps {
  readonly shop: string;
  readonly noun: "customer" | "bike" | "part";
  /** Address of the kept record. */
  readonly home: string;
  /** Address of the same page with the two changed over. */
  readonly swapped: string;
  readonly preview: MergePreview;
  readonly action: FormAction;
}

const STAYS = {
  customer: "What documents say stays as it was printed.",
  bike: "What documents say stays as it was printed.",
  part: "Its earlier moves stay in its own ledger: what lies there goes over at its cost.",
} as const;

/** What a merge would do, to be looked at before it is done. */
export function MergeView({ shop, noun, home, swapped, preview, action }: MergeViewProps) {
  const { kept, gone, moves, filled, left, against } = preview;
  return (
    <div className="max-w-[720px]">
      <Facts
        rows={[
          { name: "Is kept", value: <Named side={kept} /> },
          { name: noun === "part" ? "Is put away" : "Goes", value: <Named side={gone} /> },
        ]}
      />
      <Section title="What goes over">
        <p>{moves.length > 0 ? moves.join(", ") : "Nothing hangs on it."}</p>
        <p className="mt-1 text-[15px] text-soft">
          {STAYS[noun]} Links to the other one lead to the kept one.
        </p>
      </Section>
      {filled.length > 0 && (
        <Section title="What the kept one gets where it is blank">
          <Facts rows={filled.map(({ name, value }) => ({ name, value: <Lines text={value} /> }))} />
        </Section>
      )}
      {left.length > 0 && (
        <Section title="What the other one says otherwise">
          <p className="mb-2 text-[15px] text-soft">
            The kept one’s stands. This is written down in the audit trail and nowhere else.
          </p>
          <Facts rows={left.map(({ name, value }) => ({ name, value: <Lines text={value} /> }))} />
        </Section>
      )}
      {against ? (
        <Note title="They cannot be merged:">{against}</Note>
      ) : (
        <Form
          action={action}
          shop={shop}
          hidden={{
            keptId: String(kept.id),
            keptVersion: String(kept.version),
            goneId: String(gone.id),
            goneVersion: String(gone.version),
          }}
          label="Merge"
          className="mt-6"
        >
          <p className="mb-3">This cannot be taken back.</p>
          <div className="flex flex-wrap gap-3">
            <SubmitButton tone="danger">Merge them</SubmitButton>
            <LinkButton href={swapped}>Keep the other one</LinkButton>
            <LinkButton href={home} tone="quiet">
              Leave both
            </LinkButton>
          </div>
        </Form>
      )}
    </div>
  );
}

const Named = ({ side }: { side: MergePreview["kept"] }) => (
  <>
    <strong>{side.name}</strong> <span className="text-soft">{side.about}</span>
  </>
);

const Lines = ({ text }: { text: string }) => <span className="whitespace-pre-line">{text}</span>;
