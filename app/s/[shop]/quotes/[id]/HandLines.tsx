import { Form } from "@/app/_ui/Form";
import { moneyText } from "@/app/_ui/format";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { DraftView } from "@/lib/data/quotes/draftView";
import { handPartsOf } from "@/lib/domain/quoting/handParts";
import type { HandLine, HandPart } from "@/lib/domain/quoting/terms";
import { TAX_MARK_WORDS } from "@/lib/schemas/partWords";
import { quantityText } from "@/lib/schemas/quantity";
import { takeLineOff } from "../actions";
import type { Given } from "./given";

interface Row {
  readonly key: string;
  readonly name: string;
  readonly about: string;
  readonly priceMinor?: number | undefined;
}

const taxed = (mark: keyof typeof TAX_MARK_WORDS | undefined) => (mark ? [TAX_MARK_WORDS[mark]] : []);

function lineRow({ key, kind, name, priceMinor, quantityMilli, unit = "each", taxMark }: HandLine): Row {
  const about = [
    kind === "outside" ? "work bought outside" : "written by hand",
    ...(quantityMilli === undefined ? [] : [`${quantityText(quantityMilli, unit)} ×`]),
    ...taxed(taxMark),
  ];
  return { key, name, about: about.join(", "), priceMinor };
}

function partRow(
  { key, code, name, quantityMilli, priceMinor, taxMark }: HandPart,
  parts: DraftView["parts"],
): Row {
  const part = parts.find((one) => one.byHand === key);
  const about = [
    `part ${code}`,
    `${quantityText(quantityMilli, part?.unit ?? "each")} ×`,
    ...(part ? [part.note] : []),
    ...taxed(taxMark),
    ...(priceMinor === undefined ? ["at its own price"] : []),
  ];
  return { key, name: name || part?.name || code, about: about.join(", "), priceMinor };
}

/** The lines and parts written by hand, each to be taken off. */
export function HandLines({
  slug,
  hidden,
  currency,
  agreed,
  parts,
  locale,
}: Given & Pick<DraftView, "agreed" | "parts"> & { locale: string }) {
  const lines = [...agreed.lines.map(lineRow), ...handPartsOf(agreed).map((hand) => partRow(hand, parts))];
  if (lines.length === 0) return null;
  return (
    <ul className="mb-3">
      {lines.map((line) => (
        <li key={line.key} className="flex flex-wrap items-baseline gap-x-4 border-hair border-b py-2">
          <span className="min-w-0 flex-1">
            {line.name}
            <span className="block text-[14px] text-soft">{line.about}</span>
          </span>
          <span className="font-mono">
            {line.priceMinor !== undefined && moneyText(line.priceMinor, currency, locale)}
          </span>
          <Form
            action={takeLineOff}
            shop={slug}
            hidden={{ ...hidden, line: line.key }}
            label={`Take off ${line.name}`}
          >
            <SubmitButton tone="quiet">
              Take off<span className="sr-only"> {line.name}</span>
            </SubmitButton>
          </Form>
        </li>
      ))}
    </ul>
  );
}
