import { isValidElement, type ReactNode } from "react";

/** Draws a page as far as the server reads for it: every component that waits for something, and what those hold. */
export async function drawn(node: unknown): Promise<void> {
  const found = await node;
  if (Array.isArray(found)) {
    await Promise.all(found.map(drawn));
    return;
  }
  if (!isValidElement<{ children?: ReactNode }>(found)) return;
  const { type, props } = found;
  if (typeof type === "function" && !("$$typeof" in type)) await drawn(own(type as Component, props));
  await Promise.all(Object.values(props).map(drawn));
}

type Component = (props: object) => unknown;

/** A component for fingers alone uses hooks, which there are none of here; it reads nothing. */
function own(component: Component, props: object): unknown {
  try {
    return component(props);
  } catch {
    return null;
  }
}
