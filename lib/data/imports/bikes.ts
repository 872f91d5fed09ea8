import { inTurns } from "@/lib/db/giveWay";
import type { BikeRow } from "@/lib/domain/imports/rowTypes";
import type { ReadRow, RowNote, RowProblem } from "@/lib/domain/imports/types";
import { bikeKey } from "../bikes/bikeKeys";
import { carburettorLabels } from "../bikes/bikes";
import { createModelCardIn, type ModelCore } from "../bikes/modelCards";
import { auditChanges, type Change } from "../common/changes";
import { chunks, fetched } from "../common/chunks";
import { type Card, cardFor, modelKey, type Owner, ownersOf } from "./bikeStands";
import { type Decide, differing, filledOf } from "./types";

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

/** Bikes by their key in the file. A model without a card gets the smallest one where the file knows enough. */
export const decideBikes: Decide<BikeRow> = async (reader, rows, column) => {
  const problems: RowProblem[] = [];
  const notes: RowNote[] = [];
  const refuse = (line: number, field: string, value: string, wrong: string, remedy: string) =>
    problems.push({ line, column: column(field), value, wrong, remedy });
  const stored = await fetched(
    rows.map((row) => row.key),
    (keys) => reader.bike.findMany({ where: { importKey: { in: keys } }, orderBy: { id: "asc" } }),
  );
  const byKey = new Map(stored.map((bike) => [bike.importKey, bike]));
  const models = [...new Set(rows.map((row) => modelKey(row.values.make ?? "", row.values.model ?? "")))];
  const cards = Map.groupBy(
    await fetched(models, (some) =>
      reader.modelCard.findMany({ where: { searchKey: { in: some } }, orderBy: { id: "asc" } }),
    ),
    (card) => modelKey(card.make, card.model),
  );
  const ownerOf = await ownersOf(reader, rows);
  const newCards = new Map<string, ModelCore>();
  const adds: { row: ReadRow<BikeRow>; owner: Owner; card: Card | string }[] = [];
  const changes: (Change & { searchKey: string })[] = [];
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
    else if (!card && values.displacementCc && values.carburettorType) {
      card = name;
      if (!newCards.has(name)) {
        newCards.set(name, {
          make: values.make ?? "",
          model: values.model ?? "",
          displacementCc: values.displacementCc,
          cylinders: values.cylinders ?? 1,
          carburettors: values.carburettors ?? values.cylinders ?? 1,
          carburettorType: values.carburettorType,
        });
        notes.push({ line, text: `A model card for ${values.make} ${values.model} is made from this row.` });
      }
    } else if (!card)
      refuse(
        line,
        "model",
        values.model ?? "",
        `has no model card for ${values.make} ${values.model}`,
        "Make the card first, or give displacement and carburettor type in the file.",
      );
    if ("wrong" in owner || !card) continue;
    const before = byKey.get(row.key);
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
    const stands = keeps ?? card;
    if (typeof stands === "string" || stands.id !== before.modelCardId) {
      refuse(
        line,
        "model",
        values.model ?? "",
        "is another model than this bike has here",
        "Change the bike's model card on its page, or give this row its own key.",
      );
      continue;
    }
    const to = differing(before, { ...own, customerId: owner.id });
    if (Object.keys(to).length === 0) continue;
    const from = Object.fromEntries(Object.keys(to).map((key) => [key, before[key as "plate"]]));
    changes.push({
      id: before.id,
      version: before.version,
      from,
      to,
      searchKey: bikeKey({ ...before, ...to }, stands, owner),
    });
  }
  return {
    added: adds.length,
    changed: changes.length,
    unchanged: rows.length - adds.length - changes.length,
    problems,
    notes,
    async store(tx, shop) {
      const made = new Map<string, Card>();
      for (const [name, core] of newCards)
        made.set(name, {
          ...core,
          yearFrom: null,
          yearTo: null,
          id: await createModelCardIn(tx, shop, core),
        });
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
    },
  };
};
