interface Named {
  readonly modelCard: { readonly make: string; readonly model: string };
}

/** A bike on papers: its model and year. */
export function bikeName({ modelCard, year }: Named & { year: number | null }): string {
  const { make, model } = modelCard;
  return `${make} ${model}${year ? `, ${year}` : ""}`;
}

/** A bike on the floor: its model and plate, which is what hangs on it. */
export function bikeByPlate({ modelCard, plate }: Named & { plate: string }): string {
  const { make, model } = modelCard;
  return `${make} ${model}${plate ? `, ${plate}` : ""}`;
}
