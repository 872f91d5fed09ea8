"use client";
import { lazy, Suspense, useState } from "react";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { Form } from "@/app/_ui/Form";
import { PickField } from "@/app/_ui/PickField";
import { ScanField } from "@/app/_ui/ScanField";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { TypedFigure } from "@/app/_ui/TypedFigure";
import type { KitForSale, PartForSale } from "@/lib/domain/pricing/sale";
import { METHOD_WORDS, PAYMENT_METHODS } from "@/lib/schemas/paymentWords";
import type { Buyer } from "@/lib/schemas/picks";
import { AlsoPaid } from "./AlsoPaid";
import { sellParts } from "./actions";
import { SaleLines } from "./SaleLines";
import { SaleTotal } from "./SaleTotal";
import { type CounterRules, reckoned, type TypedLine, withKit, withPart } from "./saleLines";

/** Where words may mean several parts. */
const FoundParts = lazy(async () => ({ default: (await import("./FoundParts")).FoundParts }));

export interface CounterDeskProps {
  shop: string;
  rules: CounterRules;
  /** Smallest coin, for cash. */
  stepMinor: number;
  /** Customers as the field for them offers them first. */
  buyers: readonly Buyer[];
  /** Asked where today's date is before the last document's. */
  earlier?: React.ReactNode;
}

/** What a code or some words mean. */
interface Found {
  readonly parts: readonly PartForSale[];
  readonly kits: readonly KitForSale[];
}
const NONE: Found = { parts: [], kits: [] };

/** Sells parts: scan or find, how many, paid, done. */
export function CounterDesk({ shop, rules, stepMinor, buyers, earlier }: CounterDeskProps) {
  const [lines, setLines] = useState<readonly TypedLine[]>([]);
  const [found, setFound] = useState<Found>(NONE);
  const [said, setSaid] = useState("");
  const [method, setMethod] = useState<string>("cash");
  const [given, setGiven] = useState("");
  const [alsoMethod, setAlsoMethod] = useState("");
  const [alsoAmount, setAlsoAmount] = useState("");
  const [off, setOff] = useState("");
  const [offWhy, setOffWhy] = useState("");
  const { priced, why } = reckoned(lines, off, rules);

  const add = (part: PartForSale) => {
    setLines((now) => withPart(now, part, rules));
    setFound(NONE);
    setSaid(`${part.code} added.`);
  };
  const addKit = (kit: KitForSale) => {
    const opened = withKit(lines, kit, rules);
    if (opened) setLines(opened);
    setFound(NONE);
    setSaid(
      opened
        ? `${kit.code} opened.`
        : `A part of ${kit.code} stands on this sale by itself: take it off first, so that it has one price.`,
    );
  };
  const look = async (code: string) => {
    setSaid("Looking…");
    const now = await meantBy(shop, code);
    if (now === null) return setSaid("The server did not answer. Try once more.");
    const many = now.parts.length + now.kits.length;
    const [part] = now.parts;
    const [kit] = now.kits;
    if (many === 1 && part) return add(part);
    if (many === 1 && kit) return addKit(kit);
    setFound(now);
    const what = now.kits.length === 0 ? "parts are" : "parts and kits are";
    setSaid(many === 0 ? `Nothing is known as ${code}.` : `${many} ${what} found: choose one.`);
  };
  const chosen = (customer: Buyer | null) => {
    setOff(customer && customer.discountBp > 0 ? String(customer.discountBp / 100) : "");
    setOffWhy(customer?.discountClass ?? "");
  };
  return (
    <div className="min-w-0">
      <ScanField path={`/s/${shop}/counter`} onCode={(code) => void look(code)} />
      <p role="status" className="mb-3 min-h-6 text-[15px]">
        {said}
      </p>
      {found.parts.length + found.kits.length > 0 && (
        <Suspense>
          <FoundParts {...found} rules={rules} add={add} addKit={addKit} />
        </Suspense>
      )}
      <Form action={sellParts} shop={shop} label="Sale" hidden={totalSeen(priced)}>
        <Section title="What is sold">
          {lines.length === 0 ? (
            <p className="text-soft">Scan a label, or type a code, a size or a word of the name.</p>
          ) : (
            <SaleLines lines={lines} currency={rules.currency} change={setLines} />
          )}
        </Section>
        {lines.length > 0 && (
          <div className="grid gap-x-10 rail:grid-cols-2">
            <Section title="Paid">
              <fieldset
                className="min-w-0"
                onChange={({ target }) => {
                  if (!(target instanceof HTMLInputElement && target.name === "method")) return;
                  setMethod(target.value);
                  if (target.value === alsoMethod) setAlsoMethod("");
                }}
              >
                <ChoiceField
                  name="method"
                  label="How"
                  initial="cash"
                  options={PAYMENT_METHODS.map((value) => ({ value, label: METHOD_WORDS[value] }))}
                />
              </fieldset>
              {method === "cash" && (
                <TypedFigure
                  label={`Given, ${rules.currency}`}
                  name="given"
                  value={given}
                  onType={setGiven}
                  className="mb-4 max-w-48"
                  hint="Empty where it is exact."
                />
              )}
              <AlsoPaid
                method={method}
                also={alsoMethod}
                amount={alsoAmount}
                currency={rules.currency}
                onMethod={setAlsoMethod}
                onAmount={setAlsoAmount}
              />
              <SaleTotal
                priced={priced}
                why={why}
                method={method}
                given={method === "cash" ? given : ""}
                also={{ method: alsoMethod, amount: alsoMethod === "" ? "" : alsoAmount }}
                stepMinor={stepMinor}
                rules={rules}
              />
              {earlier}
              <SubmitButton size="act" className="mt-4 w-full">
                Sell and print
              </SubmitButton>
            </Section>
            <Section title="To whom, if it matters">
              <PickField
                shop={shop}
                from="buyers"
                name="customerId"
                label="Customer"
                newest={buyers}
                blank="Walk-in"
                onPick={chosen}
              />
              <ChoiceField
                name="paper"
                label="Paper"
                initial="receipt"
                options={[
                  { value: "receipt", label: "Receipt" },
                  {
                    value: "invoice",
                    label: "Full tax invoice",
                    detail: "Names the customer: choose who it is for.",
                  },
                ]}
              />
              <TypedFigure
                label="% off the whole"
                name="discount"
                value={off}
                onType={setOff}
                className="mb-4 max-w-32"
              />
              {off !== "" && (
                <TextField
                  key={offWhy}
                  name="discountWhy"
                  label="Why (printed)"
                  initial={offWhy}
                  maxLength={80}
                />
              )}
            </Section>
          </div>
        )}
      </Form>
    </div>
  );
}

/** The total on the screen goes along, so that nothing is sold at another one. */
const totalSeen = (priced: { grossMinor: number } | null): Record<string, string> =>
  priced && priced.grossMinor >= 0 ? { shownMinor: String(priced.grossMinor) } : {};

async function meantBy(shop: string, code: string): Promise<Found | null> {
  try {
    const answer = await fetch(`/api/s/${shop}/counter/parts?code=${encodeURIComponent(code)}`);
    if (!answer.ok) return null;
    return (await answer.json()) as Found;
  } catch {
    // No connection: the page says so, and what was typed stays.
    return null;
  }
}
