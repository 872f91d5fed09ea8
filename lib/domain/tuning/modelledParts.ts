import type { DescribedPart } from "./describedParts";
import { type FittedSpring, fittedSpring } from "./fittedSpring";
import { type Flows, flowsOf } from "./flowFigures";

/** What the fuel model takes of a bike's described parts beside the figures on its sheet; a key is absent where nothing is known. */
export interface ModelledParts {
  readonly spring?: FittedSpring | undefined;
  readonly flows?: Flows | undefined;
}

/** The spring, filter and silencer of described parts as the fuel model takes them: whoever rebuilds a fuel state takes them too. */
export function modelledParts(parts: readonly DescribedPart[] | undefined): ModelledParts {
  const spring = fittedSpring(parts);
  const flows = flowsOf(parts);
  return { ...(spring ? { spring } : {}), ...(flows ? { flows } : {}) };
}
