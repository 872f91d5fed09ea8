import { LineChart, type LineChartProps } from "@/app/_ui/LineChart";
import { Section } from "@/app/_ui/Section";
import type { Alternatives } from "@/lib/data/quotes/alternatives";
import { VERIFY } from "@/lib/domain/reason";

type LineOfChart = LineChartProps["lines"][number];

const TONES = ["brass", "pine", "soft"] as const;

/** The computed mixture of each alternative over throttle, first carburettor, with what is fitted now beside them. */
export function AlternativeCurves({ alternatives }: { alternatives: Alternatives }) {
  const drawn = alternatives.alternatives.filter((w) => w.mixture.length > 0);
  const [first] = drawn;
  if (!first) return null;
  const points = (curve: { points: readonly { throttle: number; lambda: number }[] }) =>
    curve.points.map((p) => ({ x: p.throttle * 100, y: p.lambda }));
  const before = first.mixture[0];
  const lines: LineOfChart[] = [
    ...(before
      ? [{ name: "as found", points: points(before.before), tone: "soft" as const, dashed: true }]
      : []),
    ...drawn.flatMap((alternative, at): LineOfChart[] => {
      const [mixture] = alternative.mixture;
      const name = [alternative.letter, alternative.name].filter(Boolean).join(", ");
      return mixture
        ? [{ name, points: points(mixture.after), tone: TONES[at] ?? "soft", dashed: at === 2 }]
        : [];
    }),
  ];
  return (
    <Section title="Mixture over throttle">
      <LineChart
        title="Mixture over throttle, each alternative"
        description="Computed lambda from closed to full throttle for each alternative kept, and as found."
        lines={lines}
        xName="throttle, %"
        yName="lambda"
        locale={alternatives.locale}
      />
      <p className="mt-2 text-[14px] text-soft">{VERIFY}</p>
    </Section>
  );
}
