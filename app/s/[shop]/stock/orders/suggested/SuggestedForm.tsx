"use client";
import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { NumberField } from "@/app/_ui/NumberField";
import { Opens } from "@/app/_ui/Opens";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { Reason } from "@/lib/domain/reason";
import { draftSuggested } from "../actions";

export interface SuggestedRow {
  readonly key: string;
  readonly href: string;
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  readonly quantity: string;
  readonly shown: string;
  readonly rule: string;
  readonly because: readonly Reason[];
  readonly forJob: string | null;
  readonly needed: string | null;
  readonly leadDays: number | null;
  readonly cost: string | null;
}

/** One supplier's suggested lines: all ticked, each to be changed or left out, put on the draft in one tap. */
export function SuggestedForm({
  shop,
  supplier,
  lines,
}: {
  shop: string;
  supplier: string;
  lines: readonly SuggestedRow[];
}) {
  return (
    <Form action={draftSuggested} shop={shop} label={`Draft for ${supplier}`}>
      <ul>
        {lines.map((line) => (
          <li
            key={line.key}
            className="grid items-start gap-x-6 border-hair border-b pt-2 sm:grid-cols-[minmax(0,1fr)_minmax(0,1fr)_15rem]"
          >
            <CheckField
              name={`lines.${line.key}.take`}
              value="true"
              initial
              label={<span className="font-mono">{line.code}</span>}
              detail={line.name}
            />
            <div className="py-2 max-sm:pb-3 max-sm:pl-9">
              {line.forJob === null ? (
                <State shape="triangle">under its point</State>
              ) : (
                <State shape="diamond" tone="brass">
                  job {line.forJob} is short{line.needed ? `, needed ${line.needed}` : ""}
                </State>
              )}
              <p className="text-[14px] text-soft">
                Order{" "}
                <Opens
                  name={`Why ${line.shown} of ${line.code}`}
                  because={line.because}
                  firmness="starting point"
                >
                  {line.shown}
                </Opens>
                , by {line.rule}
                {line.leadDays !== null && `; ${line.leadDays} days to arrive`}
                {line.cost && <span className="font-mono"> at {line.cost}</span>}.{" "}
                <Link href={line.href} className="inline-flex min-h-6 items-center pointer-coarse:min-h-12">
                  The part
                </Link>
              </p>
            </div>
            <NumberField
              name={`lines.${line.key}.quantity`}
              label={<span className="sr-only">Quantity of {line.code}</span>}
              unit={line.unit === "each" ? undefined : line.unit}
              initial={line.quantity}
              min={0}
            />
          </li>
        ))}
      </ul>
      <div className="mt-4">
        <SubmitButton size="act">Put on the draft for {supplier}</SubmitButton>
      </div>
    </Form>
  );
}
