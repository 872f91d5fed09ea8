"use client";
import { type ReactNode, useState } from "react";
import { CheckField } from "@/app/_ui/CheckField";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TypedFigure } from "@/app/_ui/TypedFigure";
import type { CreditableLine } from "@/lib/domain/invoices/creditable";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { isLabour } from "@/lib/schemas/typedCredit";

import { creditSome } from "../../actions";
import { CreditLines, type TypedLines } from "./CreditLines";
import { CreditSums } from "./CreditSums";

export interface CreditDeskProps {
  shop: string;
  id: number;
  version: number;
  doc: PrintedInvoice;
  credits: readonly PrintedInvoice[];
  lines: readonly (CreditableLine & { readonly part: object | null })[];
  /** What is to be paid of the invoice now. */
  leftMinor: number;
  /** The job's time can still be corrected. */
  timeOpen: boolean;
  /** Asked where today's date is before the last document's. */
  earlier: ReactNode;
}

/** Chooses what is credited, line by line or off the whole, with the credit note's sums as they come to. */
export function CreditDesk(props: CreditDeskProps) {
  const { shop, id, version, doc, credits, lines, leftMinor, timeOpen, earlier } = props;
  const [typed, setTyped] = useState<TypedLines>({});
  const [whole, setWhole] = useState("");
  return (
    <Form
      action={creditSome}
      shop={shop}
      hidden={{ id: String(id), version: String(version) }}
      label="Credit a part"
    >
      <div className="grid gap-x-10 rail:grid-cols-[minmax(0,3fr)_minmax(0,2fr)]">
        <div className="min-w-0">
          <Section title={doc.pricesIncludeTax ? "Lines, with tax" : "Lines, without tax"}>
            <CreditLines lines={lines} doc={doc} typed={typed} change={setTyped} />
          </Section>
          <Section title="Or off the whole">
            <TypedFigure
              label={`Amount off, ${doc.currency}, ${doc.pricesIncludeTax ? "with" : "without"} tax`}
              name="whole"
              value={whole}
              onType={setWhole}
              className="mb-4 max-w-56"
              hint="Shared out over the tax rates by what is left of each."
            />
          </Section>
        </div>
        <Section title="The credit note">
          <CreditSums
            doc={doc}
            credits={credits}
            lines={lines}
            typed={typed}
            whole={whole}
            leftMinor={leftMinor}
          />
          <TextArea name="reason" label="Why (printed on it)" rows={2} maxLength={300} required />
          {timeOpen && lines.some(isLabour) && (
            <ChoiceField
              name="time"
              label="Time of labour that is credited"
              initial="stays"
              options={[
                { value: "stays", label: "It was spent: it stays on the job" },
                { value: "correct", label: "It was not: I correct it on the job next" },
              ]}
            />
          )}
          <CheckField
            name="corrected"
            label="And write the corrected invoice"
            detail="The whole invoice is credited, and a new draft begins with what stays of it. Money paid comes off the draft."
          />
          {earlier}
          <SubmitButton tone="danger" className="mt-3">
            Credit it for good
          </SubmitButton>
        </Section>
      </div>
    </Form>
  );
}
