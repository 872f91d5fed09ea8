"use client";
import { type ChangeEvent, useState } from "react";
import { Form } from "@/app/_ui/Form";
import type { FormAction, FormState } from "@/app/_ui/formState";
import { Refused } from "@/app/_ui/Refused";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { Working } from "@/app/_ui/Working";
import { type Decoded, decodeFile } from "@/lib/domain/imports/decode";
import { guessFile, type KeyWay } from "@/lib/domain/imports/keyWays";
import type { ImportNoun, Mark } from "@/lib/domain/imports/types";
import { Refusal } from "@/lib/domain/refusal";
import type { ParsedCsv } from "@/lib/schemas/csv";
import { bringIn, checkFile } from "./actions";
import { Columns, type Terms } from "./Columns";
import { type Choices, Doubles } from "./Doubles";
import { Findings, type Findings as View } from "./Findings";
import { answerOf, type CardAnswers, type CardMissing, cardName, MissingCards } from "./MissingCards";

interface Chosen extends Decoded {
  readonly name: string;
  readonly csv: ParsedCsv;
}

export interface ImportDeskProps {
  readonly shop: string;
  readonly noun: ImportNoun;
  readonly mark: Mark;
  readonly distance: "km" | "mi";
  /** Whether the person may set costs. */
  readonly withCost: boolean;
}

const rowsText = (count: number) => `${count} ${count === 1 ? "row" : "rows"}`;

const NO_CHOICES: Choices = { all: "", byLine: {} };

/** File, columns, check, bring in: each part appears when the one before it is done. */
export function ImportDesk({ shop, noun, mark, distance, withCost }: ImportDeskProps) {
  const [file, setFile] = useState<Chosen>();
  const [refused, setRefused] = useState<Refusal>();
  const [map, setMap] = useState<Record<string, number | null>>({});
  const [terms, setTerms] = useState<Terms>({ mark, distance });
  const [checked, setChecked] = useState<View>();
  const [done, setDone] = useState<View>();
  const [way, setWay] = useState<KeyWay>("column");
  const [choices, setChoices] = useState<Choices>(NO_CHOICES);
  const [answers, setAnswers] = useState<CardAnswers>({});
  // What was answered since the file was checked counts at the next check.
  const [stale, setStale] = useState(false);

  const choose = async (event: ChangeEvent<HTMLInputElement>) => {
    const picked = event.currentTarget.files?.[0];
    setChecked(undefined);
    setDone(undefined);
    setFile(undefined);
    setRefused(undefined);
    setChoices(NO_CHOICES);
    setAnswers({});
    setStale(false);
    if (!picked) return;
    try {
      const decoded = decodeFile(new Uint8Array(await picked.arrayBuffer()));
      const { parseCsv } = await import("@/lib/schemas/csv");
      const csv = parseCsv(decoded.text);
      setFile({ ...decoded, name: picked.name, csv });
      const guessed = guessFile(noun, csv.headings, csv.rows);
      setWay(guessed.way);
      setMap(withCost || !("costE4" in guessed.map) ? guessed.map : { ...guessed.map, costE4: null });
    } catch (cause) {
      if (!(cause instanceof Refusal)) throw cause;
      setRefused(cause);
    }
  };

  // Models asked about: those of the last check, and those answered before it.
  const [asked, setAsked] = useState<readonly CardMissing[]>([]);
  const settle = (view: View | undefined) => {
    setChecked(view);
    setStale(false);
    const known = new Set(asked.map(cardName));
    setAsked([...asked, ...(view?.missing ?? []).filter((card) => !known.has(cardName(card)))]);
  };

  // The text goes along when it is sent; five megabytes do not stand in the page.
  const withFile =
    (action: FormAction): FormAction =>
    (before, data) => {
      data.set("noun", noun);
      data.set("fileName", file?.name ?? "");
      data.set("text", file?.text ?? "");
      data.set("mark", terms.mark);
      data.set("distance", terms.distance);
      data.set("way", way);
      data.set("doubles", choices.all);
      for (const [field, column] of Object.entries(map))
        data.set(`map.${field}`, column === null ? "" : String(column));
      for (const [line, choice] of Object.entries(choices.byLine)) data.set(`double.${line}`, choice);
      for (const [at, card] of asked.entries())
        for (const [key, value] of Object.entries({
          make: card.make,
          model: card.model,
          ...(answers[cardName(card)] ?? answerOf(card)),
        }))
          data.set(`cards.${at}.${key}`, value);
      return action(before, data);
    };
  const viewOf = (state: FormState): View | undefined =>
    state.shown?.view ? (JSON.parse(state.shown.view) as View) : undefined;

  return (
    <div className="max-w-[900px]">
      <Section title="1. The file">
        {refused && <Refused message={refused.message} remedy={refused.remedy} />}
        <label htmlFor="file" className="mb-1 block font-semibold text-[15px]">
          CSV file, at most 5 MB and 20 000 rows
        </label>
        <input
          id="file"
          type="file"
          accept=".csv,.txt,.tsv,text/csv,text/plain"
          onChange={choose}
          className="w-full py-1 file:me-3 file:min-h-11 file:rounded-[3px] file:border file:border-ink file:bg-transparent file:px-4 file:font-semibold file:text-ink pointer-coarse:file:min-h-12"
        />
        {file && (
          <p className="mt-1 text-[14px] text-soft" role="status">
            {file.csv.rows.length} rows and {file.csv.headings.length} columns, read as {file.encoding}.
            {file.encoding === "Windows-1252" &&
              " If letters with marks look wrong below, save it as UTF-8 and choose it again."}
          </p>
        )}
      </Section>
      {file && !done && (
        <>
          <Section title="2. Which column is what">
            <Columns
              noun={noun}
              csv={file.csv}
              map={map}
              way={way}
              onWay={(next) => {
                setWay(next);
                setChecked(undefined);
              }}
              terms={terms}
              withCost={withCost}
              onMap={(next) => {
                setMap(next);
                setChecked(undefined);
              }}
              onTerms={(next) => {
                setTerms(next);
                setChecked(undefined);
              }}
            />
          </Section>
          <Section title="3. Look before it comes in">
            <Form
              action={withFile(checkFile)}
              shop={shop}
              label="Check the file"
              onDone={(state) => settle(viewOf(state))}
            >
              <SubmitButton tone={checked && !stale ? "second" : "main"}>
                {stale ? "Check again" : "Check every row"}
              </SubmitButton>
              <Working>Looking at {file.csv.rows.length} rows. Nothing is changed by this.</Working>
            </Form>
            {checked && <Findings view={checked} />}
            {checked && checked.missing.length > 0 && (
              <MissingCards
                cards={checked.missing}
                answers={answers}
                onAnswer={(next) => {
                  setAnswers(next);
                  setStale(true);
                }}
              />
            )}
            {checked && checked.doubles.length > 0 && (
              <Doubles
                shop={shop}
                noun={noun}
                doubles={checked.doubles}
                choices={choices}
                onChoose={(next) => {
                  setChoices(next);
                  setStale(true);
                }}
              />
            )}
          </Section>
        </>
      )}
      {file && checked && checked.problems.length === 0 && !stale && !done && (
        <Section title="4. Bring it in">
          <Form
            action={withFile(bringIn)}
            shop={shop}
            label="Bring it in"
            onDone={(state) => setDone(viewOf(state))}
          >
            <SubmitButton size="act">Bring in {rowsText(checked.rows - checked.skipped)}</SubmitButton>
            <Working>
              Bringing {rowsText(checked.rows - checked.skipped)} in: all of them, or none if something is
              wrong.
            </Working>
          </Form>
        </Section>
      )}
      {done && <Findings view={done} done={{ shop, noun }} />}
    </div>
  );
}
