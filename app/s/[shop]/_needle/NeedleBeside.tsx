import { LineChart } from "@/app/_ui/LineChart";
import { NeedleAndJet, type NeedleDrawn } from "@/app/_ui/NeedleAndJet";
import { Note } from "@/app/_ui/Note";
import { Refusal } from "@/lib/domain/refusal";
import { annulusMm2, needleDiameterMm } from "@/lib/domain/tuning/needle";
import type { NeedleShape } from "@/lib/domain/tuning/targetTypes";

export interface NeedleOnShow {
  readonly name: string;
  readonly shape: NeedleShape;
  /** Raised by this against where its shape was described, mm. */
  readonly raisedMm: number;
}

interface Props {
  readonly needles: readonly NeedleOnShow[];
  readonly needleJetMm: number;
  readonly liftMm: number;
  readonly fullLiftMm: number;
  readonly locale: string;
}

/** One needle or two in their jet, to scale at a lift, and the open ring over the lift. */
export function NeedleBeside({ needles, needleJetMm, liftMm, fullLiftMm, locale }: Props) {
  const drawn = read(() => needles.map((needle) => drawnAt(needle, needleJetMm, liftMm)));
  const rings = read(() => needles.map((needle) => ringOver(needle, needleJetMm, fullLiftMm)));
  if ("trouble" in drawn || "trouble" in rings)
    return (
      <Note title={"trouble" in drawn ? drawn.trouble : "trouble" in rings ? rings.trouble : ""}>
        Measure needle and needle jet again.
      </Note>
    );
  return (
    <>
      <div className={needles.length > 1 ? "max-w-[420px]" : "max-w-[210px]"}>
        <NeedleAndJet needleJetMm={needleJetMm} liftMm={liftMm} needles={drawn.value} locale={locale} />
      </div>
      <LineChart
        title="Open ring between needle and needle jet over slide lift"
        description={`${needles.map((n) => n.name).join(" and ")}, from the closed slide to ${fullLiftMm} mm of lift.`}
        lines={rings.value.map((points, i) => ({
          name: needles[i]?.name ?? "",
          points,
          tone: i === 0 && needles.length > 1 ? ("soft" as const) : ("brass" as const),
          dashed: i === 0 && needles.length > 1,
        }))}
        xName="lift, mm"
        yName="ring, mm²"
        mark={{ x: liftMm, name: `${liftMm} mm` }}
        locale={locale}
      />
    </>
  );
}

function read<T>(make: () => T): { readonly value: T } | { readonly trouble: string } {
  try {
    return { value: make() };
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return { trouble: cause.message };
  }
}

function drawnAt({ name, shape, raisedMm }: NeedleOnShow, needleJetMm: number, liftMm: number): NeedleDrawn {
  const here = liftMm + raisedMm;
  const inJetMm = needleDiameterMm(shape, here);
  return {
    name,
    outline: Array.from({ length: 25 }, (_, i) => {
      const atMm = -3 + i * 0.25;
      return { atMm, diameterMm: needleDiameterMm(shape, Math.max(-20, here - atMm)) };
    }),
    inJetMm,
    ringMm2: annulusMm2(needleJetMm, inJetMm),
  };
}

function ringOver({ shape, raisedMm }: NeedleOnShow, needleJetMm: number, fullLiftMm: number) {
  return Array.from({ length: 61 }, (_, i) => {
    const x = (fullLiftMm * i) / 60;
    return { x, y: annulusMm2(needleJetMm, needleDiameterMm(shape, x + raisedMm)) };
  });
}
