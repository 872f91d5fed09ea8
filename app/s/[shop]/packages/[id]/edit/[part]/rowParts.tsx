"use client";
import { type ReactNode, useState } from "react";
import { Button } from "@/app/_ui/Button";
import { Section } from "@/app/_ui/Section";

/** Rows of a form: those there are, one that is blank, and as many more as are asked for. A row left blank is not saved. */
export function RowList({
  title,
  hint,
  add,
  count,
  row,
}: {
  title: string;
  hint: string;
  add: string;
  /** Rows that are filled already. */
  count: number;
  row: (at: number) => ReactNode;
}) {
  const [shown, setShown] = useState(count + 1);
  return (
    <Section title={title}>
      <p className="mb-2 text-[14px] text-soft">{hint}</p>
      {Array.from({ length: shown }, (_, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: rows stay where they are
        <fieldset key={at} className="mb-2 min-w-0 border-hair border-b pb-1">
          <legend className="sr-only">{`${title}, row ${at + 1}`}</legend>
          {row(at)}
        </fieldset>
      ))}
      <Button onClick={() => setShown((rows) => rows + 1)}>{add}</Button>
    </Section>
  );
}
