"use client";
import { type ReactNode, useRef, useState } from "react";
import { Button } from "./Button";
import { Section } from "./Section";

/** Rows of a form: those there are, one that is blank, and as many more as are asked for. A blank row is not saved. */
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
  const [shown, setShown] = useState(() => Array.from({ length: count + 1 }, (_, at) => at));
  const adder = useRef<HTMLSpanElement>(null);
  const more = () => setShown((rows) => [...rows, Math.max(-1, ...rows) + 1]);
  const takeOut = (at: number) => {
    setShown((rows) => rows.filter((one) => one !== at));
    const button = adder.current?.querySelector("button");
    button?.focus();
    // The checks look at the form again, as after any typing.
    setTimeout(() => button?.dispatchEvent(new Event("input", { bubbles: true })));
  };
  return (
    <Section title={title}>
      <p className="mb-2 text-[14px] text-soft">{hint}</p>
      {shown.map((at, place) => (
        <fieldset key={at} className="mb-3 min-w-0 border-hair border-b pb-2">
          <legend className="sr-only">{`${title}, row ${place + 1}`}</legend>
          {row(at)}
          <Button tone="quiet" onClick={() => takeOut(at)}>
            Take this row out
            <span className="sr-only">{` ${title}, row ${place + 1}`}</span>
          </Button>
        </fieldset>
      ))}
      <span ref={adder}>
        <Button onClick={more}>{add}</Button>
      </span>
    </Section>
  );
}
