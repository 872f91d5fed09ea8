"use client";
import { useState } from "react";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { Facts } from "@/app/_ui/Facts";
import { Form } from "@/app/_ui/Form";
import { moneyText } from "@/app/_ui/moneyText";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { Denominations } from "@/lib/domain/endOfDay/denominations";
import { closeTheDay } from "./actions";
import { NOTHING_TYPED, readCount } from "./count";
import { PieceField } from "./PieceField";

export interface CountFormProps {
  shop: string;
  day: string;
  seen: string;
  /** Null where it is asked for. */
  floatMinor: number | null;
  /** Without the float where that is asked for. */
  expectedMinor: number;
  cardMinor: number;
  denominations: Denominations | null;
  currency: string;
  locale: string;
}

/** The drawer counted, held against what should be there as it is typed, and the day closed. */
export function CountForm(props: CountFormProps) {
  const { shop, day, seen, floatMinor, cardMinor, denominations, currency, locale } = props;
  const [typed, setTyped] = useState(NOTHING_TYPED);
  const byPieces = denominations !== null && typed.way !== "sum";
  const text = (minor: number) => moneyText(minor, currency, locale);
  const expectedMinor = props.expectedMinor + (floatMinor === null ? typed.floatMinor : 0);
  const countedMinor = byPieces ? typed.piecesMinor : typed.sumMinor;
  const differenceMinor = countedMinor - expectedMinor;
  const listen = ({ target }: { target: EventTarget }) => {
    const form = target instanceof HTMLInputElement ? target.form : null;
    if (form) setTyped(readCount(new FormData(form), { currency, locale }));
  };
  return (
    <Form action={closeTheDay} shop={shop} hidden={{ day, seen }} label="Count the drawer">
      <fieldset className="min-w-0" onInput={listen}>
        {floatMinor === null && (
          <TextField
            name="float"
            label={`Float the drawer began with, ${currency}`}
            inputMode="decimal"
            mono
            required
            hint="Asked once: from then on it is what stayed in the drawer the day before."
            className="max-w-72"
          />
        )}
        {denominations && (
          <ChoiceField
            name="way"
            label="How you count"
            initial="pieces"
            options={[
              { value: "pieces", label: "Coins and notes" },
              { value: "sum", label: "One sum" },
            ]}
          />
        )}
        {byPieces ? (
          <div className="mb-4 grid grid-cols-[auto_6rem_minmax(0,1fr)] items-center gap-x-3 gap-y-1.5">
            {denominations.valuesMinor.map((value) => (
              <PieceField
                key={value}
                name={`pieces.${value}`}
                label={text(value)}
                kind={value >= denominations.notesFromMinor ? "note" : "coin"}
                comesTo={text(value * (typed.pieces.get(value) ?? 0))}
              />
            ))}
          </div>
        ) : (
          <TextField
            name="sum"
            label={`In the drawer, ${currency}`}
            inputMode="decimal"
            mono
            required
            className="max-w-72"
          />
        )}
      </fieldset>
      <div aria-live="polite" className="mb-4">
        <Facts
          rows={[
            { name: "Should be there", value: text(expectedMinor), mono: true },
            { name: "Counted", value: text(countedMinor), mono: true },
            { name: `Difference, ${currency}`, value: text(differenceMinor), mono: true, strong: true },
          ]}
        />
      </div>
      <TextField
        name="reason"
        label="Why it differs"
        maxLength={200}
        hint="Needed where there is a difference: what happened, or that nobody knows."
      />
      <TextField
        name="left"
        label={`Stays in the drawer, ${currency}`}
        inputMode="decimal"
        mono
        initial={floatMinor === null ? "" : text(floatMinor)}
        hint="The next day's float; the rest goes to the bank. Empty: as much as it began with."
        className="max-w-72"
      />
      <fieldset className="min-w-0">
        <legend className="mb-1 font-semibold text-[15px]">Card terminal, if you read it off</legend>
        <TextField
          name="terminal"
          label={`Its total, ${currency}`}
          inputMode="decimal"
          mono
          hint={`On record here: ${text(cardMinor)}.`}
          className="max-w-72"
        />
        <TextField name="terminalReason" label="Why that differs, if it does" maxLength={200} />
      </fieldset>
      <p className="mb-3 max-w-prose text-[15px]">
        A closed day never changes, and no more cash can be dated on it. What is recorded for it later by card
        or transfer stands beside it.
      </p>
      <SubmitButton size="act">Close the day</SubmitButton>
    </Form>
  );
}
