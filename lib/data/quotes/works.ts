import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { presetChoice } from "@/lib/domain/packages/choose";
import { keptKits, kitsOf, withKit } from "@/lib/domain/packages/optionKits";
import type { OptionKit } from "@/lib/domain/packages/recipe";
import { keyIn } from "@/lib/domain/quoting/composeWorks";
import { computeQuote } from "@/lib/domain/quoting/compute";
import { handPartsOf } from "@/lib/domain/quoting/handParts";
import { Refusal } from "@/lib/domain/refusal";
import type { KitOnQuoteInput } from "@/lib/schemas/kits";
import { storedTerms } from "@/lib/schemas/quoteTerms";
import {
  keptWork,
  MOST_WORKS,
  type MoveWorkInput,
  type PackageWorkInput,
  type PartsWorkInput,
  storedWritten,
  type TextWorkInput,
  type WorkRef,
  type WrittenWorkInput,
} from "@/lib/schemas/works";
import { demandKitIn } from "../kits/read";
import { storedRecipe } from "../packages/stored";
import { composedOf, type WorkRow } from "../packages/works";
import { choicesOf, conflict, demandQuote, type FoundQuote, factsOf, notADraft } from "./rows";
import { amountTyped } from "./typedAmount";
import { figures, newestPublished, retitled, UNTITLED } from "./write";

/** A work as it is written; a package's row names its revision. */
export interface NewRow {
  readonly key: string;
  readonly kind: WorkRow["kind"];
  readonly packageRevisionId: number | null;
  readonly data: object | null;
}

/** What becomes of a draft's list. */
interface Listed {
  readonly rows: readonly NewRow[];
  /** Ticks that come with a new package. */
  readonly ticked?: readonly string[];
  /** The work that goes, with its ticks, discounts and extras. */
  readonly gone?: string;
  readonly title?: string;
}

/** Puts a package at the end of a draft's works, its preset options ticked, in the quote and in its alternatives. */
export async function addPackage(shop: ShopHandle, input: PackageWorkInput): Promise<void> {
  await change(shop, input, "added a package to", async (tx, found, rows) => {
    const revision = await newestPublished(tx, input.packageId);
    const key = nextKey(rows);
    const facts = await factsOf(tx, found, shop.now);
    const preset = presetChoice(storedRecipe(revision.recipe), facts.modelFacts);
    return {
      rows: [...rows, { key, kind: "package", packageRevisionId: revision.id, data: null }],
      ticked: preset.map((option) => keyIn(key, option)),
      title: revision.package.name,
    };
  });
}

/** Writes a work on a draft, or over one that stands there. */
export async function writeWork(shop: ShopHandle, input: WrittenWorkInput): Promise<void> {
  const { name, plain, steps, parts, accesses, holdPoints, changes, cautions } = input;
  await change(shop, input, "wrote a work on", async (tx, _, rows) => {
    const terms = await tx.settings.findUniqueOrThrow({
      where: { id: 1 },
      select: { currency: true, locale: true },
    });
    const fixed = input.fixedPrice === "" ? null : amountTyped(input.fixedPrice, terms, "fixedPrice");
    const outside = input.outside.map((line, at) => ({
      name: line.name,
      priceMinor: amountTyped(line.price, terms, `outside.${at}.price`),
      costMinor: amountTyped(line.cost, terms, `outside.${at}.cost`, 0),
      ...(line.taxMark === "" ? {} : { taxMark: line.taxMark }),
    }));
    if (steps.length + parts.length + outside.length === 0 && fixed === null)
      throw new Refusal(
        "This work takes neither time nor parts nor money.",
        "Give it minutes, parts, work from outside or a fixed price; words alone are a text.",
        { "steps.0.minutes": "Enter minutes, or one of the others below." },
      );
    const said = {
      ...{ name, plain, steps, outside, accesses, holdPoints, changes, cautions },
      ...keptKits(parts, kitsThere(rows, input.work)),
    };
    const data = keptWork({ ...said, ...(fixed === null ? {} : { fixedPriceMinor: fixed }) });
    return written(rows, input, "written", data, name);
  });
}

/** Parts alone: each part that is named must be among the shop's. */
export async function writeParts(shop: ShopHandle, input: PartsWorkInput): Promise<void> {
  await change(shop, input, "put parts on", async (_, __, rows) => {
    const parts = input.parts.flatMap((part) =>
      part.kind === "part" ? [{ code: part.code, quantityMilli: part.quantityMilli }] : [],
    );
    if (parts.length === 0)
      throw new Refusal("No part is named.", "Name one at least.", { "parts.0.what": "Name a part." });
    const name = input.name || "Parts";
    return written(rows, input, "parts", keptWork({ name, parts }), name);
  });
}

/** Kits as a work of their own: their parts, at the kit's price where it has one. */
export async function writeKit(shop: ShopHandle, input: KitOnQuoteInput): Promise<void> {
  await change(shop, input, "put a kit on", async (tx, _, rows) => {
    const kit = await demandKitIn(tx, input.kitId);
    const name = input.count === 1 ? kit.name : `${kit.name}, ${input.count} kits`;
    const opened = withKit({ parts: [] }, kitsOf(kit, input.count));
    const empty = {
      plain: "",
      steps: [],
      outside: [],
      accesses: [],
      holdPoints: [],
      changes: [],
      cautions: [],
    };
    const data = keptWork({ name, ...empty, ...opened });
    return written(rows, { work: undefined, isNew: "yes" }, "written", data, name);
  });
}

/** A heading with words beneath it. */
export async function writeText(shop: ShopHandle, input: TextWorkInput): Promise<void> {
  const { name, text } = input;
  await change(shop, input, "wrote a text on", async (_, __, rows) =>
    written(rows, input, "text", keptWork({ name, text })),
  );
}

/** Takes a work off a draft, with its ticks, its discounts and its extras. */
export async function removeWork(shop: ShopHandle, input: WorkRef): Promise<void> {
  await change(shop, input, "took a work off", async (_, __, rows) => ({
    rows: rows.filter((row) => row !== demandRow(rows, input.work)),
    gone: input.work,
  }));
}

/** Moves a work one place up or down the list; at the end of it, it stays. */
export async function moveWork(shop: ShopHandle, input: MoveWorkInput): Promise<void> {
  await change(shop, input, "put the works of another order on", async (_, __, rows) => {
    const at = rows.indexOf(demandRow(rows, input.work));
    const to = Math.min(Math.max(at + (input.by === "up" ? -1 : 1), 0), rows.length - 1);
    const others = rows.toSpliced(at, 1);
    return { rows: others.toSpliced(to, 0, demandRow(rows, input.work)) };
  });
}

function written(
  rows: readonly NewRow[],
  { work, isNew }: { work?: string | undefined; isNew: "yes" | "no" },
  kind: NewRow["kind"],
  data: object,
  title?: string,
): Listed {
  const row = (key: string): NewRow => ({ key, kind, packageRevisionId: null, data });
  if (isNew === "yes") return { rows: [...rows, row(nextKey(rows))], ...(title ? { title } : {}) };
  const there = demandRow(rows, work ?? "");
  if (there.kind !== kind) throw gone();
  return { rows: rows.map((one) => (one === there ? row(there.key) : one)) };
}

/** The first work has no key, so that a quote of one package is what such quotes always were. */
function nextKey(rows: readonly NewRow[]): string {
  if (rows.length === 0) return "";
  return `w${1 + Math.max(1, ...rows.map((row) => Number(row.key.slice(1)) || 1))}`;
}

/** The kits with a set price of a work that is written anew. */
function kitsThere(rows: readonly NewRow[], key: string | undefined): readonly OptionKit[] {
  const row = rows.find((one) => one.key === key && one.kind === "written");
  return row ? (storedWritten(row.data).kits ?? []) : [];
}

const gone = () =>
  new Refusal("This work is not on the quote any more.", "Open the quote again.", {}, "conflict");

function demandRow(rows: readonly NewRow[], key: string): NewRow {
  const row = rows.find((one) => one.key === key);
  if (!row) throw gone();
  return row;
}

const rowOf = ({ key, kind, data, packageRevision }: WorkRow): NewRow => ({
  key,
  kind,
  packageRevisionId: packageRevision?.id ?? null,
  data: data as object | null,
});

/** A list of works as it is created with a revision. */
export const newWorks = (rows: readonly NewRow[]) => ({
  create: rows.map(({ key, kind, packageRevisionId, data }, at) => ({
    position: at + 1,
    key,
    kind,
    packageRevisionId,
    ...(data === null ? {} : { data: data as Prisma.InputJsonObject }),
  })),
});

/** The works of a revision for the next one. */
export const sameWorks = (rows: readonly WorkRow[]) => newWorks(rows.map(rowOf));

/** Changes the list of a draft's works and computes it anew, against its version. */
async function change(
  shop: ShopHandle,
  { id, version }: { id: number; version: number },
  act: string,
  decide: (tx: ShopTx, found: FoundQuote, rows: readonly NewRow[]) => Promise<Listed>,
): Promise<void> {
  await shop.write(async (tx) => {
    const found = await demandQuote(tx, id);
    const { quote, revision } = found;
    if (quote.state !== "draft") throw notADraft(quote.number, quote.state);
    if (quote.version !== version) throw await conflict(tx, id, quote.number);
    const next = await decide(tx, found, revision.works.map(rowOf));
    if (next.rows.length > MOST_WORKS)
      throw new Refusal(`A quote takes ${MOST_WORKS} works.`, "Take one off first.");
    await tx.quoteWork.deleteMany({ where: { revisionId: revision.id } });
    await tx.quoteRevision.update({
      where: { id: revision.id },
      data: { works: newWorks(next.rows), ...(await following(tx, found, next)) },
      select: { id: true },
    });
    const now = await demandQuote(tx, id);
    demandBounded(now.revision.works);
    const view = computeQuote(await factsOf(tx, now, shop.now));
    await tx.quoteRevision.update({
      where: { id: revision.id },
      data: figures(view),
      select: { id: true },
    });
    const title = quote.title === UNTITLED ? next.title : undefined;
    await demandOne(
      tx.quote.updateMany({
        where: { id, state: "draft", version },
        data: {
          ...(title === undefined ? {} : retitled(found, title)),
          grossMinor: view.price.grossMinor,
          minutes: view.plan.minutes,
          version: { increment: 1 },
        },
      }),
      () => conflict(tx, id, quote.number),
    );
    await audit(tx, shop, act, "quote", id, { number: quote.number });
  });
}

/** Ticks, discounts and extras follow the work they are of; what a new package presets is ticked in the alternatives too. */
async function following(
  tx: ShopTx,
  { quote, revision }: FoundQuote,
  { ticked = [], gone: leaves, rows }: Listed,
): Promise<{ choices: string[]; terms?: Prisma.InputJsonObject }> {
  const others = rows.map((row) => row.key).filter((key) => key !== "");
  const isOf = (key: string) => others.find((work) => key.startsWith(`${work}:`)) ?? "";
  const stays = (key: string) =>
    leaves === undefined || (leaves === "" ? isOf(key) !== "" : !key.startsWith(`${leaves}:`));
  const kept = await tx.quoteAlternative.findMany({
    where: { quoteId: quote.id },
    select: { id: true, choices: true },
    orderBy: { id: "asc" },
    take: 10,
  });
  for (const one of kept)
    await tx.quoteAlternative.update({
      where: { id: one.id },
      data: { choices: [...choicesOf(one.choices).filter(stays), ...ticked] },
      select: { id: true },
    });
  const choices = [...choicesOf(revision.choices).filter(stays), ...ticked];
  if (leaves === undefined || revision.terms === null) return { choices };
  const terms = storedTerms(revision.terms);
  const written = [...terms.lines, ...handPartsOf(terms)].map((line) => line.key);
  const lineDiscounts = terms.lineDiscounts.filter(({ line }) => written.includes(line) || stays(line));
  const extras = terms.extras.filter(stays);
  return { choices, terms: { ...terms, lineDiscounts, extras } as unknown as Prisma.InputJsonObject };
}

/** All works together are never more than one package may be, so that what is bounded for a package is bounded for them. */
function demandBounded(works: readonly WorkRow[]): void {
  const { recipe } = composedOf(works);
  const most = { groups: 40, options: 60, operations: 120, accesses: 60, rules: 120 } as const;
  for (const [part, limit] of Object.entries(most) as [keyof typeof most, number][])
    if (recipe[part].length > limit)
      throw new Refusal(
        `Together these works have ${recipe[part].length} ${part}; one quote takes ${limit}.`,
        "Take a work off first, or make a second quote.",
      );
}
