"use client";
import { type ChangeEvent, useId, useState } from "react";
import { DateField } from "@/app/_ui/DateField";
import { CONTROL } from "@/app/_ui/FieldFrame";
import { Form } from "@/app/_ui/Form";
import type { FormAction, FormState } from "@/app/_ui/formState";
import { Refused } from "@/app/_ui/Refused";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { Working } from "@/app/_ui/Working";
import { type Decoded, decodeFile } from "@/lib/domain/imports/decode";
import { guessMapping } from "@/lib/domain/imports/guess";
import { Refusal } from "@/lib/domain/refusal";
import type { ParsedCsv } from "@/lib/schemas/csv";
import { bringPriceList, checkPriceList } from "../../actions";
import { PriceChanges, type PriceListFound } from "./PriceChanges";

export interface PriceListDeskProps {
  shop: string;
  supplierId: number;
  currency: string;
  locale: string;
  mark: "." | ",";
}

/** File, columns, look, take over: each part appears when the one before it is done. */
export function PriceListDesk({ shop, supplierId, currency, locale, mark }: PriceListDeskProps) {
  const id = useId();
  const [file, setFile] = useState<Decoded & { name: string; csv: ParsedCsv }>();
  const [refused, setRefused] = useState<Refusal>();
  const [map, setMap] = useState<Record<string, number | null>>({});
  const [found, setFound] = useState<PriceListFound>();
  const [goodUntil, setGoodUntil] = useState("");
  const [done, setDone] = useState(false);

  const choose = async (event: ChangeEvent<HTMLInputElement>) => {
    const picked = event.currentTarget.files?.[0];
    setFound(undefined);
    setDone(false);
    setFile(undefined);
    setRefused(undefined);
    if (!picked) return;
    try {
      const decoded = decodeFile(new Uint8Array(await picked.arrayBuffer()));
      const { parseCsv } = await import("@/lib/schemas/csv");
      const csv = parseCsv(decoded.text);
      const { code = null, costE4 = null, supplierCode = null } = guessMapping("prices", csv.headings);
      setFile({ ...decoded, name: picked.name, csv });
      setMap({ code: supplierCode ?? code, costE4 });
    } catch (cause) {
      if (!(cause instanceof Refusal)) throw cause;
      setRefused(cause);
    }
  };
  const withFile =
    (action: FormAction): FormAction =>
    (before, data) => {
      data.set("supplierId", String(supplierId));
      data.set("fileName", file?.name ?? "");
      data.set("text", file?.text ?? "");
      data.set("mark", mark);
      data.set("goodUntil", goodUntil);
      for (const [field, column] of Object.entries(map))
        data.set(`map.${field}`, column === null ? "" : String(column));
      return action(before, data);
    };
  const seen = (state: FormState, name: string) =>
    state.shown?.[name] ? (JSON.parse(state.shown[name]) as PriceListFound) : undefined;

  const worth = found && (found.changes.length > 0 || (goodUntil !== "" && found.unchanged > 0));

  return (
    <div className="max-w-[900px]">
      <Section title="1. The file">
        {refused && <Refused message={refused.message} remedy={refused.remedy} />}
        <label htmlFor={`${id}file`} className="mb-1 block font-semibold text-[15px]">
          CSV file, at most 5 MB and 20 000 rows
        </label>
        <input
          id={`${id}file`}
          type="file"
          accept=".csv,.txt,.tsv,text/csv,text/plain"
          onChange={choose}
          className="w-full py-1 file:me-3 file:min-h-11 file:rounded-[3px] file:border file:border-ink file:bg-transparent file:px-4 file:font-semibold file:text-ink pointer-coarse:file:min-h-12"
        />
        {file && (
          <p className="mt-1 text-[14px] text-soft" role="status">
            {file.csv.rows.length} rows and {file.csv.headings.length} columns, read as {file.encoding}.
            {file.encoding === "Windows-1252" &&
              " If letters with marks look wrong, save it as UTF-8 and choose it again."}
          </p>
        )}
      </Section>
      {file && (
        <Section title="2. Which column is what">
          <div className="grid gap-5 sm:grid-cols-2">
            {(
              [
                ["code", "Supplier's code"],
                ["costE4", `Cost of one, ${currency}`],
              ] as const
            ).map(([field, name]) => (
              <div key={field}>
                <label htmlFor={id + field} className="mb-1 block font-semibold text-[15px]">
                  {name}
                </label>
                <select
                  id={id + field}
                  value={map[field] ?? ""}
                  onChange={({ currentTarget: { value } }) => {
                    setMap({ ...map, [field]: value === "" ? null : Number(value) });
                    setFound(undefined);
                  }}
                  className={CONTROL}
                >
                  <option value="">choose its column</option>
                  {file.csv.headings.map((heading, column) => (
                    // biome-ignore lint/suspicious/noArrayIndexKey: a column is its place; two may have one heading
                    <option key={column} value={column}>
                      {heading || `Column ${column + 1}`}
                    </option>
                  ))}
                </select>
              </div>
            ))}
            <DateField
              name="goodUntil"
              label="Prices good until"
              hint="As the list says it; empty where it does not. Quotes that are valid for longer say so."
              onValue={setGoodUntil}
            />
          </div>
        </Section>
      )}
      {file && !done && (
        <Section title="3. Look before it changes anything">
          <Form
            action={withFile(checkPriceList)}
            shop={shop}
            label="Check the list"
            onDone={(state) => setFound(seen(state, "view"))}
          >
            <SubmitButton tone={found ? "second" : "main"}>Check every row</SubmitButton>
            <Working>Looking at {file.csv.rows.length} rows. Nothing is changed by this.</Working>
          </Form>
        </Section>
      )}
      {found && <PriceChanges found={found} currency={currency} locale={locale} done={done} />}
      {found && !done && found.problems.length === 0 && worth && (
        <Form
          action={withFile(bringPriceList)}
          shop={shop}
          label="Take the costs over"
          onDone={(state) => {
            setFound(seen(state, "done"));
            setDone(true);
          }}
        >
          <SubmitButton size="act">
            {found.changes.length > 0
              ? `Take ${found.changes.length} costs over`
              : `Keep the day for ${found.unchanged} parts`}
          </SubmitButton>
          <Working>Keeping what the list says: all of it, or none if something is wrong.</Working>
        </Form>
      )}
    </div>
  );
}
