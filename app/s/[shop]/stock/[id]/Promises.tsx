import Link from "next/link";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import type { PartView } from "@/lib/data/stock/parts";
import { amountText } from "../amount";
import { Release } from "./Release";

export interface PromisesProps {
  shop: string;
  part: PartView;
  locale: string;
  mayWrite: boolean;
}

/** Which jobs the part is promised to, and which of them are short of it. */
export function Promises({ shop, part, locale, mayWrite }: PromisesProps) {
  const text = (milli: number) => amountText(milli, part.unit, locale);
  return (
    <Section title="Promised to">
      {part.promises.length === 0 && <p className="text-soft">No job holds or wants it now.</p>}
      <ul>
        {part.promises.map((promise) => (
          <li
            key={promise.id}
            className="flex flex-wrap items-baseline gap-x-4 gap-y-1 border-hair border-b py-2"
          >
            <Link
              href={`/s/${shop}/jobs/${promise.job.id}`}
              className="inline-flex min-h-6 items-center pointer-coarse:min-h-12 font-semibold"
            >
              Job {promise.job.number}
            </Link>
            <span className="min-w-0 flex-1">{promise.job.title}</span>
            <span className="font-mono">{text(promise.heldMilli)}</span>
            {promise.shortMilli > 0 ? (
              <State shape="diamond" tone="brass">
                short of {text(promise.shortMilli)}
              </State>
            ) : (
              <State shape="filled">held</State>
            )}
            {mayWrite && (
              <Release shop={shop} partId={part.id} reservationId={promise.id} job={promise.job.number} />
            )}
          </li>
        ))}
      </ul>
    </Section>
  );
}
