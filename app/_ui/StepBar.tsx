import { cx } from "./cx";

export interface StepBarProps {
  /** "Step 5 of 10". */
  label: string;
  steps: readonly { readonly minutes: number; readonly state: "done" | "now" | "ahead" }[];
}

const percent = (share: number) => `${Math.round(share * 100) / 100}%`;

/** How far the job is: one piece a step, as wide as its minutes. */
export function StepBar({ label, steps }: StepBarProps) {
  const whole = steps.reduce((sum, step) => sum + Math.max(step.minutes, 1), 0) || 1;
  let left = 0;
  return (
    <svg role="img" aria-label={label} width="100%" height="14" className="my-2.5 block">
      <title>{label}</title>
      {steps.map((step, at) => {
        const wide = (Math.max(step.minutes, 1) / whole) * 100;
        const x = left;
        left += wide;
        return (
          <svg
            // biome-ignore lint/suspicious/noArrayIndexKey: steps keep their order
            key={at}
            x={percent(x)}
            width={percent(wide)}
            height="14"
            aria-hidden="true"
          >
            <rect
              x="1"
              y={step.state === "now" ? 1 : 2}
              width="100%"
              height={step.state === "now" ? 12 : 10}
              className={cx(
                step.state === "done" && "fill-brass-fill stroke-paper",
                step.state === "now" && "fill-brass-wash stroke-ink",
                step.state === "ahead" && "fill-rule stroke-paper",
              )}
              strokeWidth="2"
            />
          </svg>
        );
      })}
    </svg>
  );
}
