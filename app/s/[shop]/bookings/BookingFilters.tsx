"use client";
import { TableFilters } from "@/app/_ui/TableFilters";

type Named = { id: number; name: string };

export interface BookingFiltersProps {
  path: string;
  day: string | undefined;
  place: { bay?: number | undefined; person?: number | undefined };
  bays: readonly Named[];
  people: readonly Named[];
}

/** Narrows the diary to a bay or a person. */
export function BookingFilters({ path, day, place, bays, people }: BookingFiltersProps) {
  const options = (rows: readonly Named[]) => rows.map((row) => ({ value: String(row.id), label: row.name }));
  return (
    <TableFilters
      at={{ path, query: { day, bay: place.bay?.toString(), person: place.person?.toString() } }}
      filters={[
        { name: "bay", label: "Bay", options: options(bays) },
        { name: "person", label: "Person", options: options(people) },
      ]}
    />
  );
}
