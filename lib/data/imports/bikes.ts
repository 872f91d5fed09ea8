import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { inTurns } from "@/lib/db/giveWay";
import type { BikeRow } from "@/lib/domain/imports/rowTypes";
import type { ReadRow, RowNote, RowProblem } from "@/lib/domain/imports/types";
import { bikeKey } from "../bikes/bikeKeys";
import { carburettorLabels } from "../bikes/bikes";
import { createModelCardIn, type ModelCore } from "../bikes/modelCards";
import { auditChanges } from "../common/changes";
import { chunks, fetched } from "../common/chunks";
import { type Card, cardFor, modelKey, type Owner, ownersOf } from "./bikeStands";
import { knownRecords } from "./known";
import { learnKeysIn } from "./learn";
import { coreOf, MissingCards } from "./missingCards";
import { type Decide, type Entry, filledOf, type Reader } from "./types";
import { Updates } from "./updates";

const WHERE_COLUMNS = [
  "displacementCc",
  "cylinders",
  "carburettors",
  "carburettorType",
  "customerKey",
  "customerName",
  "make",
  "model",
];

const findBikes = (reader: Reader) => ({
  byKeys: (keys: string[]) =>
    reader.bike.findMany({ where: { importKey: { in: keys } }, orderBy: { id: "asc" } }),
  byIds: (ids: number[]) => reader.bike.findMany({ where: { id: { in: ids } }, orderBy: { id: "asc" } }),
  keyOf: (bike: { importKey: string | null }) => bike.importKey,
});

type Known = Prisma.BikeGetPayload<object>;

/** Bikes by their key in the file. A model without a card gets the smallest one where the file knows enough. */
export const decideBikes: Decide<BikeRow> = async (reader, rows, column, asked) => {
  const problems: RowProblem[] = [];
  const notes: RowNote[] = [];
  const refuse = (line: number, field: string, value: string, wrong: string, remedy: string) =>
    problems.push({ line, column: column(field), value, wrong, remedy });
  const stored = await knownRecords<Known>(reader, "bike", rows, findBikes(reader));
  const models = [...new Set(rows.map((row) => modelKey(row.values.make ?? "", row.values.model ?? "")))];
  const cards = Map.groupBy(
    await fetched(models, (some) =>
      reader.modelCard.findMany({ where: { searchKey: { in: some } }, orderBy: { id: "asc" } }),
    ),
    (card) => modelKey(card.make, card.model),
  );
  const ownerOf = await ownersOf(reader, rows);
  const newCards = new Map<string, ModelCore>();
  const described = new Map(asked.cards.map((card) => [modelKey(card.make, card.model), card]));
  const missing = new MissingCards();
  const adds: { row: ReadRow<BikeRow>; owner: Owner; card: Card | string }[] = [];
  const updates = new Updates<Known>(asked.byWords);
  const stands = new Map<number, { card: Card; owner: Owner }>();
  for await (const row of inTurns(rows)) {
    const { values, line } = row;
    const owner = ownerOf(row);
    if ("wrong" in owner)
      refuse(
        line,
        owner.field,
        (owner.field === "customerKey" ? values.customerKey : values.customerName) ?? "",
        owner.wrong,
        owner.remedy,
      );
    const name = modelKey(values.make ?? "", values.model ?? "");
    const known = cards.get(name) ?? [];
    let card: Card | string | undefined = cardFor(known, values.year);
    if (!card && known.length > 0)
      refuse(
        line,
        "year",
        String(values.year ?? ""),
        `is outside the years of every ${values.make} ${values.model} card`,
        "Widen a card's years, or mend the year.",
      );
    else if (!card) {
      const core = described.get(name) ?? coreOf(values);
      if (core) {
        card = name;
        if (!newCards.has(name)) {
          newCards.set(name, core);
          const from = described.has(name) ? "as you described it" : "from this row";
          notes.push({ line, text: `A model card for ${values.make} ${values.model} is made ${from}.` });
        }
      } else missing.add(name, row);
    }
    if ("wrong" in owner || !card) continue;
    const before = stored.of(row);
    if (!before) {
      adds.push({ row, owner, card });
      continue;
    }
    const own = Object.fromEntries(Object.entries(values).filter(([key]) => !WHERE_COLUMNS.includes(key)));
    // A file is older than the workshop: an odometer never goes back, and a bike on a card of its model keeps that card.
    if (values.odometerKm !== undefined && values.odometerKm < (before.odometerKm ?? 0)) {
      notes.push({ line, text: `The odometer here stands at ${before.odometerKm} km already: kept.` });
      delete own.odometerKm;
    }
    const keeps = known.find((each) => each.id === before.modelCardId);
    const stand = keeps ?? card;
    if (typeof stand === "string" || stand.id !== before.modelCardId) {
      refuse(
        line,
        "model",
        values.model ?? "",
        "is another model than this bike has here",
        "Change the bike's model card on its page, or give this row its own key.",
      );
      continue;
    }
    stands.set(before.id, { card: stand, owner });
    updates.take(before, { ...own, customerId: owner.id });
  }
  for (const one of missing.all())
    refuse(
      one.line,
      "model",
      one.model,
      `has no model card for ${one.make} ${one.model}${one.rows > 1 ? `, and neither have ${one.rows - 1} more rows` : ""}`,
      "Answer what is asked about it below, make the card first, or give displacement and carburettor type in the file.",
    );
  const changes = updates.changes((bike) => {
    const { card, owner } = stands.get(bike.id) as { card: Card; owner: Owner };
    return bikeKey(bike, card, owner);
  });
  return {
    added: adds.length,
    changed: changes.length,
    unchanged: rows.length - adds.length - updates.rowsThatChange,
    problems,
    notes,
    missing: missing.all(),
    async store(tx, shop) {
      const entries: Entry[] = [];
      const made = new Map<string, Card>();
      for (const [name, core] of newCards) {
        const id = await createModelCardIn(tx, shop, core);
        made.set(name, { ...core, yearFrom: null, yearTo: null, id });
        entries.push({ noun: "modelCard", nounId: id, act: "added", version: 1 });
      }
      const full = adds.map(({ row, owner, card }) => ({
        row,
        owner,
        card: typeof card === "string" ? (made.get(card) as Card) : card,
      }));
      for (const some of chunks(full)) {
        await tx.bike.createMany({
          data: some.map(({ row, owner, card }) => {
            const own = Object.fromEntries(
              Object.entries(row.values).filter(([key]) => !WHERE_COLUMNS.includes(key)),
            ) as BikeRow;
            const fields = { plate: "", frameNumber: "", colour: "", year: null, ...filledOf(own) };
            return {
              ...fields,
              customerId: owner.id,
              modelCardId: card.id,
              importKey: row.key,
              searchKey: bikeKey(fields, card, owner),
              createdAt: shop.now,
            };
          }),
        });
        const count = new Map(some.map(({ row, card }) => [row.key, card.carburettors]));
        const bikes = await tx.bike.findMany({
          where: { importKey: { in: [...count.keys()] } },
          select: { id: true, importKey: true },
          orderBy: { id: "asc" },
        });
        entries.push(
          ...bikes.map(({ id }): Entry => ({ noun: "bike", nounId: id, act: "added", version: 1 })),
        );
        await tx.carburettor.createMany({
          data: bikes.flatMap((bike) =>
            carburettorLabels(count.get(bike.importKey ?? "") ?? 1).map((label, at) => ({
              bikeId: bike.id,
              position: at + 1,
              label,
            })),
          ),
        });
      }
      for (const { id, to, searchKey: key } of changes)
        await tx.bike.updateMany({
          where: { id },
          data: { ...to, searchKey: key, version: { increment: 1 } },
        });
      await auditChanges(tx, shop, "bike", changes);
      await learnKeysIn(tx, stored.learned);
      return [...entries, ...updates.entries("bike", changes), ...stored.learned];
    },
  };
};
