"use client";
import { type ChangeEvent, useState } from "react";
import { Form } from "@/app/_ui/Form";
import type { FormAction, FormState } from "@/app/_ui/formState";
import { Refused } from "@/app/_ui/Refused";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { Working } from "@/app/_ui/Working";
import { MOST_LINES, MOST_LIST_BYTES } from "@/lib/domain/bank/readList";
import { BANK_FIELDS } from "@/lib/domain/bank/types";
import { decodeFile } from "@/lib/domain/imports/decode";
import { Refusal } from "@/lib/domain/refusal";
import type { ParsedCsv } from "@/lib/schemas/csv";
import { checkList, takeListIn } from "../actions";
import { BankColumnsChoice, type Chosen, type KeptFormat, termsFor, type Usual } from "./Columns";
import { ListFindings, type ListView } from "./ListFindings";

interface Props extends Usual {
  readonly shop: string;
  readonly kept: KeptFormat | null;
  readonly currency: string;
  readonly locale: string;
}

/** File, columns, look, take in: each part appears when the one before it is done. */
export function BankDesk({ shop, kept, currency, locale, ...usual }: Props) {
  const [file, setFile] = useState<{ name: string; text: string; csv: ParsedCsv }>();
  const [refused, setRefused] = useState<Refusal>();
  const [chosen, setChosen] = useState<Chosen>();
  const [view, setView] = useState<ListView>();

  const choose = async (event: ChangeEvent<HTMLInputElement>) => {
    const picked = event.currentTarget.files?.[0];
    setFile(undefined);
    setRefused(undefined);
    setView(undefined);
    if (!picked) return;
    try {
      if (picked.size > MOST_LIST_BYTES)
        throw new Refusal("The file is larger than 1 MB.", "Take a shorter time at once.");
      const { text } = decodeFile(new Uint8Array(await picked.arrayBuffer()));
      const { parseCsv } = await import("@/lib/schemas/csv");
      const csv = parseCsv(text, MOST_LINES);
      setFile({ name: picked.name, text, csv });
      setChosen(termsFor(csv, kept, usual));
    } catch (cause) {
      if (!(cause instanceof Refusal)) throw cause;
      setRefused(cause);
    }
  };

  const withFile =
    (action: FormAction): FormAction =>
    (before, data) => {
      data.set("fileName", file?.name ?? "");
      data.set("text", file?.text ?? "");
      data.set("dates", chosen?.dates ?? "");
      data.set("mark", chosen?.mark ?? "");
      for (const field of BANK_FIELDS) data.set(`columns.${field}`, String(chosen?.columns[field] ?? ""));
      return action(before, data);
    };
  const looked = (state: FormState) =>
    setView(state.shown?.view ? (JSON.parse(state.shown.view) as ListView) : undefined);

  return (
    <div className="max-w-[900px]">
      <Section title="1. The file">
        {refused && <Refused message={refused.message} remedy={refused.remedy} />}
        <label htmlFor="list" className="mb-1 block font-semibold text-[15px]">
          CSV file of your bank, at most 1 MB and 2 000 rows
        </label>
        <input
          id="list"
          type="file"
          accept=".csv,.txt,.tsv,text/csv,text/plain"
          onChange={choose}
          className="w-full py-1 file:me-3 file:min-h-11 file:rounded-[3px] file:border file:border-ink file:bg-transparent file:px-4 file:font-semibold file:text-ink pointer-coarse:file:min-h-12"
        />
      </Section>
      {file && chosen && (
        <>
          <Section title="2. Which column is what">
            <BankColumnsChoice
              csv={file.csv}
              chosen={chosen}
              onChoose={(next) => {
                setChosen(next);
                setView(undefined);
              }}
            />
          </Section>
          <Section title="3. Look before it comes in">
            <Form action={withFile(checkList)} shop={shop} label="Look at the list" onDone={looked}>
              <SubmitButton tone={view ? "second" : "main"}>Look at every row</SubmitButton>
              <Working>Looking at {file.csv.rows.length} rows. Nothing is changed by this.</Working>
            </Form>
            {view && <ListFindings view={view} currency={currency} locale={locale} />}
          </Section>
        </>
      )}
      {view && view.added > 0 && (
        <Section title="4. Take it in">
          <Form action={withFile(takeListIn)} shop={shop} label="Take the list in">
            <SubmitButton size="act">
              Take in {view.added} {view.added === 1 ? "line" : "lines"}
            </SubmitButton>
          </Form>
        </Section>
      )}
    </div>
  );
}
