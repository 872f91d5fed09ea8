"use client";
import { lazy, Suspense, useState } from "react";
import { Fetched } from "@/app/_ui/Fetched";
import { Form } from "@/app/_ui/Form";
import { liveModule } from "@/app/_ui/liveModule";
import { ScanField } from "@/app/_ui/ScanField";
import { Section } from "@/app/_ui/Section";
import type { KitForSale, PartForSale } from "@/lib/domain/pricing/sale";
import type { Buyer } from "@/lib/schemas/picks";
import { sellParts } from "./actions";
import type { SaleTyped } from "./SaleEnd";
import { SaleLines } from "./SaleLines";
import { type CounterRules, reckoned, type TypedLine, withKit, withPart } from "./saleLines";

/** Where words may mean several parts. */
const FoundParts = lazy(async () => ({ default: (await import("./FoundParts")).FoundParts }));
/** Asked for with the first code, so that it is there with the first line. */
const END = liveModule(() => import("./SaleEnd"));
const NOTHING: SaleTyped = { method: "cash", given: "", alsoMethod: "", alsoAmount: "", off: "", offWhy: "" };

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
export function CounterDesk(props: CounterDeskProps) {
  const { shop, rules } = props;
  const [lines, setLines] = useState<readonly TypedLine[]>([]);
  const [found, setFound] = useState<Found>(NONE);
  const [said, setSaid] = useState("");
  const [typed, setTyped] = useState(NOTHING);
  const set = (change: Partial<SaleTyped>) => setTyped((now) => ({ ...now, ...change }));
  const { priced, why } = reckoned(lines, typed.off, rules);

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
    END.ask();
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
          <Fetched of={END}>
            {({ SaleEnd }) => <SaleEnd {...props} typed={typed} set={set} priced={priced} why={why} />}
          </Fetched>
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
