"use client";
import { useState } from "react";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { Form } from "@/app/_ui/Form";
import { PickField } from "@/app/_ui/PickField";
import { ScanField } from "@/app/_ui/ScanField";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import type { PartForSale } from "@/lib/domain/pricing/sale";
import { METHOD_WORDS, PAYMENT_METHODS } from "@/lib/schemas/payments";
import type { Buyer } from "@/lib/schemas/picks";
import { AlsoPaid } from "./AlsoPaid";
import { sellParts } from "./actions";
import { FoundParts } from "./FoundParts";
import { SaleLines, Typed } from "./SaleLines";
import { SaleTotal } from "./SaleTotal";
import { type CounterRules, reckoned, type TypedLine, withPart } from "./saleLines";

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

/** Sells parts: scan or find, how many, paid, done. */
export function CounterDesk({ shop, rules, stepMinor, buyers, earlier }: CounterDeskProps) {
  const [lines, setLines] = useState<readonly TypedLine[]>([]);
  const [found, setFound] = useState<readonly PartForSale[]>([]);
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
    setFound([]);
    setSaid(`${part.code} added.`);
  };
  const look = async (code: string) => {
    setSaid("Looking…");
    const parts = await partsOf(shop, code);
    if (parts === null) return setSaid("The server did not answer. Try once more.");
    const [only] = parts;
    if (parts.length === 1 && only) return add(only);
    setFound(parts);
    setSaid(
      parts.length === 0 ? `Nothing is known as ${code}.` : `${parts.length} parts are found: choose one.`,
    );
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
      <FoundParts parts={found} rules={rules} add={add} />
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
                <Typed
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
              <Typed
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

async function partsOf(shop: string, code: string): Promise<readonly PartForSale[] | null> {
  try {
    const answer = await fetch(`/api/s/${shop}/counter/parts?code=${encodeURIComponent(code)}`);
    if (!answer.ok) return null;
    return ((await answer.json()) as { parts: PartForSale[] }).parts;
  } catch {
    // No connection: the page says so, and what was typed stays.
    return null;
  }
}
