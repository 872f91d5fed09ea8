/** A step's name with what kind of step it is. */
export function stepTitle(step: { kind: "open" | "operation" | "close" | "ride"; name: string }): string {
  if (step.kind === "open") return `Open: ${step.name}`;
  if (step.kind === "close") return `Close: ${step.name}`;
  return step.name;
}

/** Each opening with the closing that ends it, counted from 0. */
export function openings(steps: readonly { kind: string; key: string; name: string }[]) {
  return steps.flatMap((step, from) => {
    if (step.kind !== "open") return [];
    const to = steps.findIndex((other, at) => at > from && other.kind === "close" && other.key === step.key);
    return to < 0 ? [] : [{ from, to, label: step.name }];
  });
}
