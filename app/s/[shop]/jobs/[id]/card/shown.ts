import { createHash } from "node:crypto";
import { moneyText } from "@/app/_ui/moneyText";
import { spentByWord } from "@/lib/data/invoices/byWord";
import { BALANCE_READING, balancesOf } from "@/lib/data/jobs/balances";
import { type CardStep, type CardView, getCard, stepToShow } from "@/lib/data/jobs/card";
import { othersWhoWork } from "@/lib/data/jobs/handOvers";
import { type ListedPhoto, photosOf } from "@/lib/data/photos/list";
import { proceduresOfStep } from "@/lib/domain/procedures/procedures";
import type { ScreenView } from "@/lib/gate/change";
import type { OpenShop } from "@/lib/gate/open";
import { jobWord } from "@/lib/schemas/jobWords";
import { markOf, mayWorkOn } from "./cardMark";

/** What is shown of a step that is not looked at. */
export type StepBeside = Pick<CardStep, "id" | "position" | "kind" | "name" | "minutes" | "state">;

/** What a card shows besides the step that is looked at. */
export interface CardHead
  extends Pick<
    CardView,
    | "id"
    | "number"
    | "bikeId"
    | "bike"
    | "stopped"
    | "carburettors"
    | "looseParts"
    | "today"
    | "wait"
    | "handedOver"
    | "running"
    | "onBreak"
    | "ownMs"
    | "others"
  > {
  readonly steps: readonly StepBeside[];
}

/** A card as its page shows it: the step that is next, or the one asked for. */
export interface CardScreen extends ScreenView {
  readonly card: CardHead;
  readonly step: CardStep | null;
  /** Changes with the card, for its copy on the device. */
  readonly kept: string;
  /** The bike is here, and the person may work. */
  readonly mayWork: boolean;
  /** Said where the bike has not arrived: what the job is called now. */
  readonly notHere: string;
  readonly photos: readonly Pick<ListedPhoto, "id" | "width" | "height" | "caption">[];
  /** Whom it could be handed to. */
  readonly others: readonly { readonly id: number; readonly name: string }[];
  /** What is spent of the amount agreed by word, once it nears it. */
  readonly byWord: { readonly title: string; readonly text: string } | null;
}

const short = (text: string) => createHash("sha256").update(text).digest("base64url").slice(0, 16);

/** What a card's page shows; `asked` is the position of the step that its address names. */
export async function cardScreen(shop: OpenShop, card: CardView, asked: number | null): Promise<CardScreen> {
  const step = stepToShow(card, asked) ?? null;
  const { works, mayWork } = mayWorkOn(card, shop.can("job.work"));
  const todo = step?.state === "todo";
  const [photos, others, byWord, served] = await Promise.all([
    step && shop.can("photo.read") ? photosOf(shop, "step", [step.id]) : null,
    mayWork && todo ? othersWhoWork(shop) : [],
    mayWork ? wordOf(shop, card) : null,
    servedOf(shop, card, step, asked, mayWork),
  ]);
  const { id, number, bikeId, bike, stopped, carburettors, looseParts, today, wait, handedOver } = card;
  const { running, onBreak, ownMs } = card;
  return {
    served,
    ...(asked === null ? { at: `/s/${shop.slug}/jobs/${id}/card` } : {}),
    card: {
      ...{ id, number, bikeId, bike, stopped, carburettors, looseParts, today, wait, handedOver },
      ...{ running, onBreak, ownMs, others: card.others },
      steps: card.steps.map((one) => ({
        id: one.id,
        position: one.position,
        kind: one.kind,
        name: one.name,
        minutes: one.minutes,
        state: one.state,
      })),
    },
    step,
    kept: short(markOf(card)),
    mayWork,
    notHere: !works && todo && card.arrivedAt === null ? jobWord(card).word : "",
    photos: (photos?.get(step?.id ?? 0) ?? []).map(({ id: photo, width, height, caption }) => ({
      id: photo,
      width,
      height,
      caption,
    })),
    others: others.map((one) => ({ id: one.id, name: one.name })),
    byWord,
  };
}

/** The card that an act of its was made on, at the step that is next. */
export async function cardScreenOf(
  shop: OpenShop,
  { jobId }: { readonly jobId: number },
): Promise<CardScreen | null> {
  const card = shop.can("job.read") ? await getCard(shop, jobId) : null;
  return card && cardScreen(shop, card, null);
}

async function wordOf(shop: OpenShop, { id, agreement }: CardView): Promise<CardScreen["byWord"]> {
  const spent = agreement?.kind === "word" ? await spentByWord(shop, id) : null;
  if (!spent || spent.state === "inside" || spent.spentMinor === null) return null;
  const { currency, locale } = shop.settings;
  const money = (minor: number) => moneyText(minor, currency, locale);
  return {
    title: spent.state === "over" ? "Past what was agreed." : "Near what was agreed.",
    text: `${money(spent.spentMinor)} of the ${money(spent.upToMinor)} that ${spent.saidBy} agreed to.`,
  };
}

/**
 * What the server alone draws of a card: which step an address names, how things are measured, needles, and the balance of several
 * carburettors. Where one of them changes, the page is drawn anew.
 */
async function servedOf(
  shop: OpenShop,
  { id, bikeId, carburettors }: CardView,
  step: CardStep | null,
  asked: number | null,
  mayWork: boolean,
): Promise<string> {
  const balanced = mayWork && step?.state === "todo" && carburettors.length > 1 && shop.can("sheet.write");
  const { rows } = balanced ? await balancesOf(shop, { bikeId, jobId: id }) : { rows: [] };
  const measured = step
    ? [
        proceduresOfStep(step).map((one) => one.id),
        step.needles,
        step.holdPoints.some((hold) => hold.measures === BALANCE_READING),
      ]
    : [];
  return short(JSON.stringify([asked, balanced, rows[0] ?? null, rows.length, ...measured]));
}
