/** Each opening with the closing that ends it, counted from 0. */
export function openings(steps: readonly { kind: string; key: string; name: string; access: string }[]) {
  return steps.flatMap((step, from) => {
    if (step.kind !== "open") return [];
    const to = steps.findIndex((other, at) => at > from && other.kind === "close" && other.key === step.key);
    return to < 0 ? [] : [{ from, to, label: step.access || step.name }];
  });
}
