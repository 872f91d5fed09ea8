import type { ShopHandle } from "@/lib/db/shop";
import { computeQuote } from "@/lib/domain/quoting/compute";
import type { QuoteWarning } from "@/lib/domain/quoting/result";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import type { QuoteStateName } from "@/lib/schemas/quotes";
import { type FrozenQuote, storedQuote } from "../documents/quote";
import { type Withheld, withheldFrom } from "../mail/letters";
import { didHere } from "./didHere";
import { extraStops } from "./extraStops";
import { freeze, letterheadOf } from "./freeze";
import { everyChoice, isAllowed, storedBelowMargin } from "./leastMargin";
import { letterDue } from "./letters";
import { keptAlternatives } from "./offered";
import { factsOf, findQuote, stateOn } from "./rows";
import { type ShownText, shownText } from "./shownText";
import { spokenTo, titled } from "./spoken";
import { offerOf } from "./toSend";

/** A quote as its customer will read it, or as they read it, with what the sender wants to know. */
export interface QuotePreview {
  readonly id: number;
  readonly number: string;
  readonly version: number;
  readonly state: QuoteStateName;
  readonly customer: {
    readonly id: number;
    readonly name: string;
    readonly email: string;
    readonly phone: string;
  };
  /** Why no letter would go to the customer; null where one would. */
  readonly withheld: Withheld | null;
  readonly text: ShownText;
  /** What keeps a draft from being sent. */
  readonly stops: readonly QuoteWarning[];
}

/** A quote as it would print if it were sent now with these alternatives, or as it was printed; null where there is no such quote. */
export async function previewQuote(
  shop: ShopHandle,
  id: number,
  letters: readonly string[] = [],
): Promise<QuotePreview | null> {
  const found = await findQuote(shop.read, id);
  if (!found) return null;
  const { quote, revision } = found;
  const { customer, number, version } = quote;
  const [staffFacts, withheld] = await Promise.all([
    factsOf(shop.read, found, shop.now),
    withheldFrom(shop.read, letterDue(quote), customer),
  ]);
  const today = dayIn(staffFacts.terms.zone, shop.now);
  const { facts, say } = await spokenTo(shop.read, staffFacts, customer.language);
  const head = { id, number, version, state: stateOn(today, quote), customer, withheld };
  if (revision.frozen !== null) {
    // As a customer's page does: its own language, whatever it was when the quote was sent.
    const { locale } = facts.terms;
    return { ...head, text: shownText({ ...storedQuote(revision.frozen), locale }, today), stops: [] };
  }
  const view = computeQuote(facts);
  const said = storedBelowMargin(revision.belowMargin);
  const [kept, letterhead, did] = await Promise.all([
    keptAlternatives(shop.read, id),
    letterheadOf(shop.read, say),
    didHere(shop.read, found),
  ]);
  const { offered, refused } = await attempt(() => offerOf(facts, view, kept, letters));
  const frozen = freeze(titled(found, say), facts, view, letterhead, today, {
    ...offered,
    ...did,
  });
  const stops = [
    ...view.warnings.filter((warning) => warning.stops),
    ...(await extraStops(facts, view, said)),
    ...refused,
    ...everyChoice(facts, view, offered).flatMap((one, at) => (isAllowed(one, said) ? [] : [below(at)])),
  ];
  const nothing = view.sendable || stops.length > 0 ? [] : [NOTHING];
  return { ...head, text: shownText(frozen, today), stops: once([...stops, ...nothing]) };
}

const NOTHING: QuoteWarning = {
  message: "Nothing is on this quote yet.",
  remedy: "",
  stops: true,
  place: "works",
};

const below = (at: number): QuoteWarning => ({
  message:
    at === 0
      ? "This price is below the shop's least margin."
      : "A choice in this quote is below the shop's least margin.",
  remedy: "Change it, or ask an owner to allow it with a reason.",
  stops: true,
  place: "margin",
});

const once = (stops: readonly QuoteWarning[]) => [
  ...new Map(stops.map((stop) => [stop.message, stop])).values(),
];

/** What may go along; nothing, with the reason, where it may not. */
async function attempt(run: () => Promise<Pick<FrozenQuote, "extras" | "alternatives" | "alternative">>) {
  try {
    return { offered: await run(), refused: [] };
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    const { message, remedy } = cause;
    return { offered: {}, refused: [{ message, remedy, stops: true }] };
  }
}
