"use client";
import { useId } from "react";
import { CONTROL } from "@/app/_ui/FieldFrame";
import { Link } from "@/app/_ui/Link";
import type { ImportNoun } from "@/lib/domain/imports/types";
import { NOUN_WORDS } from "./nouns";

export type DoubleChoice = "update" | "both" | "skip";

export interface DoubleFound {
  readonly line: number;
  readonly says: string;
  readonly why: string;
  readonly choice: DoubleChoice;
  readonly target: { readonly id: number; readonly name: string; readonly about: string };
}

export interface Choices {
  /** For all that are not decided one by one; "" leaves each as it was proposed. */
  readonly all: DoubleChoice | "";
  readonly byLine: Readonly<Record<string, DoubleChoice>>;
}

const WORDS: Readonly<Record<DoubleChoice, string>> = {
  update: "Update what is here",
  both: "Keep both",
  skip: "Leave the row out",
};

const OPTIONS = Object.entries(WORDS).map(([value, label]) => (
  <option key={value} value={value}>
    {label}
  </option>
));

/** Rows that are probably here already, each with why, and what is to be done with it. */
export function Doubles({
  shop,
  noun,
  doubles,
  choices,
  onChoose,
}: {
  shop: string;
  noun: ImportNoun;
  doubles: readonly DoubleFound[];
  choices: Choices;
  onChoose: (choices: Choices) => void;
}) {
  const id = useId();
  return (
    <div className="mt-5">
      <h3 className="font-semibold">
        {doubles.length === 1
          ? "One row is probably here already"
          : `${doubles.length} rows are probably here already`}
      </h3>
      <p className="text-[15px] text-soft">
        Update takes over what the row says and leaves the rest. Keep both brings the row in as a new record.
      </p>
      <div className="mt-2 max-w-xs">
        <label htmlFor={`${id}all`} className="mb-1 block font-semibold text-[15px]">
          For all of them
        </label>
        <select
          id={`${id}all`}
          className={CONTROL}
          value={choices.all}
          onChange={({ currentTarget: { value } }) => onChoose({ all: value as Choices["all"], byLine: {} })}
        >
          <option value="">As proposed for each</option>
          {OPTIONS}
        </select>
      </div>
      <ul className="mt-3 max-h-[70dvh] overflow-y-auto border-rule border-t">
        {doubles.map(({ line, says, why, choice, target }) => (
          <li
            key={line}
            className="grid items-center gap-x-4 gap-y-1 border-hair border-b py-2 sm:grid-cols-[minmax(0,1fr)_220px]"
          >
            <div className="min-w-0">
              <p>
                <span className="font-mono text-soft">line {line}</span> {says}
              </p>
              <p className="text-[15px]">
                <Link
                  href={`/s/${shop}/${NOUN_WORDS[noun].to}/${target.id}`}
                  target="_blank"
                  className="text-brass underline underline-offset-4"
                >
                  {target.name}
                </Link>
                {target.about && <span className="text-soft"> {target.about}</span>}
                <span className="block text-soft">It has {why}.</span>
              </p>
            </div>
            <select
              aria-label={`What to do with line ${line}`}
              className={CONTROL}
              value={choices.byLine[line] ?? (choices.all || choice)}
              onChange={({ currentTarget: { value } }) =>
                onChoose({ ...choices, byLine: { ...choices.byLine, [line]: value as DoubleChoice } })
              }
            >
              {OPTIONS}
            </select>
          </li>
        ))}
      </ul>
    </div>
  );
}
