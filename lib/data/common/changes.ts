import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { chunks } from "./chunks";

type Plain = string | number | boolean | null;
export type Fields = Readonly<Record<string, Plain>>;

/** What differs between two states of a record's fields. */
function changedFields(from: Fields, to: Fields): string[] {
  return Object.keys(to).filter((key) => from[key] !== to[key]);
}

/** Tells an edit to the audit trail: the version it made, and each field from and to. */
export async function auditChange(
  tx: ShopTx,
  shop: ShopHandle,
  noun: string,
  id: number,
  version: number,
  from: Fields,
  to: Fields,
): Promise<void> {
  const changed = changedFields(from, to);
  const part = (fields: Fields) => Object.fromEntries(changed.map((key) => [key, fields[key] ?? null]));
  await audit(tx, shop, "changed", noun, id, { version, from: part(from), to: part(to) });
}

interface Told {
  version: number;
  from: Record<string, Plain>;
  to: Record<string, Plain>;
}

const said = (value: Plain | undefined): string =>
  value === null || value === undefined || value === ""
    ? "blank"
    : value === true
      ? "yes"
      : value === false
        ? "no"
        : `"${value}"`;

/**
 * The refusal of an edit made on an old version: who changed which fields since, from what to what. Field `over.<version>`
 * lets the form offer to save over exactly the version that was shown.
 */
export async function changedMeanwhile(
  tx: ShopTx,
  noun: string,
  word: string,
  id: number,
  seen: number,
  now: number,
  names: Readonly<Record<string, string>>,
): Promise<Refusal> {
  const entries = await tx.auditEntry.findMany({
    where: { noun, nounId: id, act: "changed" },
    select: { personName: true, detail: true },
    orderBy: { id: "desc" },
    take: 50,
  });
  const since = entries
    .map((entry) => ({ who: entry.personName, told: entry.detail as unknown as Told }))
    .filter((entry) => entry.told?.version > seen)
    .reverse();
  const fields: Record<string, string> = {};
  for (const { who, told } of since)
    for (const [key, to] of Object.entries(told.to))
      fields[key] = `${who} changed ${names[key] ?? key} from ${said(told.from[key])} to ${said(to)}.`;
  fields[`over.${now}`] =
    "To save yours over these changes, tick “Save mine over these changes” and save again.";
  const people = [...new Set(since.map((entry) => entry.who))].join(" and ") || "Someone";
  return new Refusal(
    `${people} changed this ${word} while you were typing. Nothing of yours was saved or lost.`,
    "Look at what changed, take over what is right, then save over it; or open the page anew to drop yours.",
    fields,
    "conflict",
  );
}

export interface Change {
  readonly id: number;
  readonly version: number;
  readonly from: Readonly<Record<string, Plain>>;
  readonly to: Readonly<Record<string, Plain>>;
}

/** Tells many changes of one act to the audit trail as edits would have, so that a half-typed form learns of them. */
export async function auditChanges(
  tx: ShopTx,
  shop: ShopHandle,
  noun: string,
  changes: readonly Change[],
  by: "import" | "merge" = "import",
): Promise<void> {
  for (const some of chunks(changes))
    await tx.auditEntry.createMany({
      data: some.map(({ id, version, from, to }) => ({
        at: shop.now,
        personId: shop.by.personId,
        personName: `${shop.by.name} (${by})`,
        act: "changed",
        noun,
        nounId: id,
        detail: { version: version + 1, changed: Object.keys(to), from, to },
      })),
    });
}
