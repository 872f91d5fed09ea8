import type { CardStep, CardView } from "@/lib/data/jobs/card";
import { CardParts } from "./CardParts";
import { PassForm } from "./PassForm";

/** What the acts of an open step are given, on the live card and on the kept one. */
export interface StepActsProps {
  step: CardStep;
  card: Pick<CardView, "id" | "carburettors" | "looseParts" | "today">;
  slug: string;
  locale: string;
  mayUse: boolean;
  /** On the kept card: what needs a connection is left out. */
  away?: boolean | undefined;
}

/** Passing a step, and using its parts one by one. */
export function PassAndParts(props: StepActsProps) {
  return (
    <>
      <PassForm {...props} />
      <CardParts {...props} />
    </>
  );
}
