"use client";
import { type KeyboardEvent, useId, useRef, useState } from "react";
import { offeredUnits, partedReading, type ReadingScale, readOn } from "@/lib/domain/sheets/readingScale";
import { FieldError } from "./FieldFrame";
import { figureText } from "./format";
import { useFormField } from "./formContext";
import { State } from "./State";
import { decimalsOf, readDecimal, stepped } from "./stepped";
import { words } from "./words";

export interface ReadingStepperProps {
  name: string;
  label: string;
  unit: string;
  step: number;
  /** The limits the reading should lie in; either may be open. */
  low?: number | undefined;
  high?: number | undefined;
  decimals?: number | undefined;
  initial?: number | string | undefined;
  /** The units it may be given in, and what can be. */
  scale: ReadingScale;
  locale?: string | undefined;
}

/** A reading for gloved hands: less, value, more; says in word and shape whether it lies inside its limits. */
export function ReadingStepper({ name, label, initial, ...rest }: ReadingStepperProps) {
  const { seq, value } = useFormField(name, initial === undefined ? "" : String(initial));
  return <Reading key={seq} name={name} label={label} first={value} {...rest} />;
}

type ReadingProps = Omit<ReadingStepperProps, "initial"> & { first: string };

function Reading({ name, label, first, unit, step, low, high, scale, locale = "en", ...rest }: ReadingProps) {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  const { error } = useFormField(name);
  const [text, setText] = useState(first);
  const unitName = name.replace(/^readings\./, "units.");
  const [chosen, setChosen] = useState(useFormField(unitName, unit).value);
  const decimals = rest.decimals ?? decimalsOf(step);
  const units = offeredUnits(scale);
  // A step away from nothing would be a value that nobody read.
  const go = (way: 1 | -1) =>
    readDecimal(text) === null
      ? input.current?.focus()
      : setText((now) =>
          stepped(now, way, { step, decimals, min: low !== undefined && low < 0 ? undefined : 0 }),
        );
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== "ArrowUp" && event.key !== "ArrowDown") return;
    event.preventDefault();
    go(event.key === "ArrowUp" ? 1 : -1);
  };
  const reading = readingOf(scale, unit, text, chosen);
  const limits = limitsOf(low, high, (limit) => figureText(limit, locale, decimals));
  const button = "w-16 flex-none text-[28px] font-bold leading-none hover:bg-hair";
  return (
    <div className="my-4">
      <label htmlFor={id} className="mb-1.5 block font-semibold text-[15px]">
        {label}
      </label>
      <div className="flex h-[68px] rounded-[3px] border-2 border-ink bg-sheet">
        <button type="button" tabIndex={-1} aria-label={words.less} className={button} onClick={() => go(-1)}>
          −
        </button>
        <div className="flex min-w-0 flex-1 items-baseline justify-center gap-3 self-center">
          <input
            ref={input}
            id={id}
            name={name}
            type="text"
            inputMode="decimal"
            autoComplete="off"
            value={text}
            onChange={(event) => setText(event.currentTarget.value)}
            onKeyDown={onKeyDown}
            aria-invalid={error ? true : undefined}
            aria-describedby={`${id}-limits${error ? ` ${id}-error` : ""}`}
            className="h-14 w-32 min-w-0 bg-transparent text-center font-mono text-[34px]"
          />
          {units.length > 0 ? (
            <select
              name={unitName}
              aria-label={`${label}, ${words.unit}`}
              value={chosen}
              onChange={(event) => setChosen(event.currentTarget.value)}
              className="min-h-12 min-w-14 bg-transparent font-mono text-soft"
            >
              {units.map((one) => (
                <option key={one}>{one}</option>
              ))}
            </select>
          ) : (
            <span data-unit className="whitespace-nowrap font-mono text-soft">
              {unit}
            </span>
          )}
        </div>
        <button type="button" tabIndex={-1} aria-label={words.more} className={button} onClick={() => go(1)}>
          +
        </button>
      </div>
      <div id={`${id}-limits`} aria-live="polite" className="mt-1.5 flex justify-between gap-4 text-[15px]">
        <span className="text-soft">
          {limits} <span className={chosen === unit ? "sr-only" : ""}>{unit}</span>
        </span>
        <Verdict reading={reading} low={low} high={high} />
      </div>
      <FieldError id={id} error={error} />
    </div>
  );
}

function limitsOf(
  low: number | undefined,
  high: number | undefined,
  text: (limit: number) => string,
): string {
  if (low !== undefined && high !== undefined) return `${text(low)} ${words.to} ${text(high)}`;
  if (low !== undefined) return `${words.from} ${text(low)}`;
  return high === undefined ? words.noLimit : `${words.upTo} ${text(high)}`;
}

/** The number in the hold point's own unit; null while there is none that can be. */
function readingOf(scale: ReadingScale, own: string, text: string, chosen: string): number | null {
  const parted = partedReading(text);
  if (!parted) return null;
  const found = readOn(scale, own, parted.value, parted.unit || chosen);
  return typeof found === "number" ? found : null;
}

function Verdict({
  reading,
  low,
  high,
}: {
  reading: number | null;
  low?: number | undefined;
  high?: number | undefined;
}) {
  if (reading === null) return <State shape="dash">{words.noReading}</State>;
  if (low !== undefined && reading < low)
    return (
      <State shape="triangle" tone="oxide">
        {words.below}
      </State>
    );
  if (high !== undefined && reading > high)
    return (
      <State shape="triangle" tone="oxide">
        {words.above}
      </State>
    );
  return (
    <State shape="filled" tone="brass">
      {words.inside}
    </State>
  );
}
