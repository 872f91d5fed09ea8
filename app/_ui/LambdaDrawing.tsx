"use client";
import { curveOf } from "./curveText";
import { type LambdaChartProps, type LambdaFrame, LambdaPicture } from "./LambdaPicture";

type Curves = "before" | "after" | "wantedCurve";

export interface LambdaDrawingProps extends Omit<LambdaChartProps, Curves> {
  /** Each as `curveText` writes it: a page is sent its curves as figures, and not again as drawings. */
  before: string | undefined;
  after: string;
  wantedCurve: string | undefined;
  frame: LambdaFrame;
}

/** A lambda drawing from curves as text. */
export function LambdaDrawing({ before, after, wantedCurve, ...rest }: LambdaDrawingProps) {
  return (
    <LambdaPicture
      {...rest}
      before={before === undefined ? undefined : curveOf(before)}
      after={curveOf(after)}
      wantedCurve={wantedCurve === undefined ? undefined : curveOf(wantedCurve)}
    />
  );
}
