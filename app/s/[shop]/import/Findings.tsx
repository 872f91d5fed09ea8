"use client";
import { Facts } from "@/app/_ui/Facts";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import type { ImportNoun, RowNote, RowProblem } from "@/lib/domain/imports/types";
import type { DoubleFound } from "./Doubles";
import type { CardMissing } from "./MissingCards";
import { NOUN_WORDS } from "./nouns";

export interface Findings {
  readonly rows: number;
  readonly added: number;
  readonly changed: number;
  readonly unchanged: number;
  readonly bad: number;
  readonly unlisted: number;
  readonly skipped: number;
  readonly doubles: readonly DoubleFound[];
  readonly missing: readonly CardMissing[];
  readonly problems: readonly RowProblem[];
  readonly notes: readonly RowNote[];
}

/** What the file would do, or did: every row that is wrong, what was done unasked, and the sums. */
export function Findings({ view, done }: { view: Findings; done?: { shop: string; noun: ImportNoun } }) {
  const { bad } = view;
  const words = done
    ? { added: "Added", changed: "Changed", same: "As they were" }
    : { added: "New", changed: "Will change", same: "Stay as they are" };
  return (
    <div className="mt-4" role="status">
      {bad > 0 ? (
        <State shape="diamond" tone="oxide">
          {bad} of {view.rows} rows cannot come in, so none will
        </State>
      ) : (
        <State shape="filled" tone="pine">
          {done ? `${view.rows} rows are in` : `All ${view.rows} rows can come in`}
        </State>
      )}
      {bad > 0 ? (
        <ul className="mt-3 max-h-[70dvh] overflow-y-auto border-rule border-t">
          {view.problems.map((problem) => (
            <li
              key={`${problem.line} ${problem.column} ${problem.wrong}`}
              className="grid gap-x-4 border-hair border-b py-2 sm:grid-cols-[7rem_minmax(0,1fr)]"
            >
              <span className="font-mono">line {problem.line}</span>
              <span>
                {problem.column && <strong>{problem.column} </strong>}
                {problem.value && <span className="font-mono">"{problem.value}" </span>}
                {problem.wrong}. <span className="text-soft">{problem.remedy}</span>
              </span>
            </li>
          ))}
        </ul>
      ) : (
        <div className="mt-2 max-w-sm">
          <Facts
            rows={[
              { name: words.added, value: view.added, mono: true },
              { name: words.changed, value: view.changed, mono: true },
              { name: words.same, value: view.unchanged, mono: true },
              ...(view.skipped > 0 ? [{ name: "Left out", value: view.skipped, mono: true }] : []),
            ]}
          />
        </div>
      )}
      {view.unlisted > 0 && (
        <p className="mt-2 text-soft">
          Only the first are listed: {view.unlisted} more lines are not. Mend these, then check again.
        </p>
      )}
      {view.notes.length > 0 && (
        <details className="mt-3">
          <summary className="min-h-11 py-2.5 text-brass underline underline-offset-4">
            {view.notes.length} {view.notes.length === 1 ? "thing was" : "things were"} done unasked
          </summary>
          <ul className="max-h-[50dvh] overflow-y-auto">
            {view.notes.map((note) => (
              <li
                key={`${note.line} ${note.text}`}
                className="grid gap-x-4 border-hair border-b py-1.5 text-[15px] sm:grid-cols-[7rem_minmax(0,1fr)]"
              >
                <span className="font-mono">line {note.line}</span>
                <span>{note.text}</span>
              </li>
            ))}
          </ul>
        </details>
      )}
      {done && (
        <Section title="Next" className="mt-6">
          <div className="flex flex-wrap gap-2.5">
            <LinkButton href={`/s/${done.shop}/${NOUN_WORDS[done.noun].to}`} tone="main">
              See them
            </LinkButton>
            <LinkButton href={`/s/${done.shop}/import`}>Import something else</LinkButton>
          </div>
        </Section>
      )}
    </div>
  );
}
