import { Fragment } from "react";
import { Money } from "@/app/_ui/Money";
import { State } from "@/app/_ui/State";
import type { Certainty, Proposal, Reason } from "@/lib/domain/bank/types";

export interface Counted {
  readonly currency: string;
  readonly locale: string;
}

const CERTAIN: Readonly<
  Record<Certainty, { word: string; shape: "filled" | "diamond" | "circle"; tone: "pine" | "brass" | "soft" }>
> = {
  certain: { word: "certain", shape: "filled", tone: "pine" },
  likely: { word: "likely", shape: "diamond", tone: "brass" },
  possible: { word: "possible", shape: "circle", tone: "soft" },
};

/** What a line probably pays, how surely, and why. */
export function Proposed({ proposal, currency, locale }: Counted & { proposal: Proposal }) {
  const { word, shape, tone } = CERTAIN[proposal.certainty];
  const money = (minor: number) => <Money minor={minor} currency={currency} locale={locale} />;
  const [first] = proposal.takes;
  return (
    <>
      {first && (
        <p>
          <State shape={shape} tone={tone}>
            {word}
          </State>
          {": "}
          {proposal.takes.map(({ item, minor }, at) => (
            <Fragment key={`${item.kind}${item.id}`}>
              {at > 0 && ", "}
              {item.kind === "invoice" ? "invoice" : "deposit of quote"} {item.written} {money(minor)}
            </Fragment>
          ))}
          , {first.item.customerName}
        </p>
      )}
      <p className="text-[14px] text-soft">
        {proposal.because.map((reason, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: reasons are told in their order
          <Fragment key={at}>
            {at > 0 && "; "}
            <Because reason={reason} money={money} />
          </Fragment>
        ))}
      </p>
    </>
  );
}

function Because({ reason, money }: { reason: Reason; money: (minor: number) => React.ReactNode }) {
  switch (reason.why) {
    case "reference":
      return `it says ${reason.written}`;
    case "kid":
      return `its KID is that of ${reason.written}`;
    case "used":
      return `it says ${reason.written}, of which nothing is open any more`;
    case "name":
      return `it names ${reason.name}`;
    case "exact":
      return "exactly what is open";
    case "amountAlone":
      return "the only one with this amount";
    case "sum":
      return reason.count === 1 ? "exactly what is open" : `exactly what all ${reason.count} come to`;
    case "part":
      return <>{money(reason.staysMinor)} stays open</>;
    case "over":
      return <>{money(reason.overMinor)} is over: the customer's balance</>;
  }
}

/** A proposal as a form sends it. */
export const takesText = (proposal: Proposal): string =>
  proposal.takes.map(({ item, minor }) => `${item.kind}:${item.id}:${minor}`).join(" ");
