"use client";
import { GregorianCalendar } from "@internationalized/date";
import { type RefObject, useEffect, useEffectEvent, useRef, useState } from "react";
import { I18nProvider } from "react-aria/I18nProvider";
import { useDateField, useDateSegment } from "react-aria/useDateField";
import { type DateFieldState, type DateSegment, useDateFieldState } from "react-stately/useDateFieldState";
import type { DateKind } from "./DateField";
import { dateOf, textOf } from "./dateTexts";
import { NativePicker } from "./NativePicker";
import { useSeparators } from "./useSeparators";

export interface DateSegmentsProps {
  id: string;
  name: string;
  kind: DateKind;
  locale: string;
  /** Counts answers of the form: at each one the field shows `value` anew. */
  seq: number;
  /** ISO. */
  value: string;
  /** What stood in the plain control that this one takes the place of. */
  typed: string | undefined;
  onValue: ((text: string) => void) | undefined;
  invalid: boolean;
  described: string | undefined;
  required: boolean | undefined;
  min: string | undefined;
  max: string | undefined;
}

// react-aria adds a style element of its own, for which the page's policy wants the nonce that the page's scripts have.
(globalThis as { __webpack_nonce__?: string | undefined }).__webpack_nonce__ ??=
  document.querySelector<HTMLElement>("script[nonce]")?.nonce;

/** Day, month, year, hour and minute as places to type into, in the order of the locale. */
export function DateSegments(props: DateSegmentsProps) {
  return (
    <I18nProvider locale={props.locale}>
      <Places {...props} />
    </I18nProvider>
  );
}

/** The calendar of papers and the law here, whichever one a locale would prefer. */
const createCalendar = () => new GregorianCalendar();

function Places({ id, name, kind, locale, seq, value, typed, ...props }: DateSegmentsProps) {
  const box = useRef<HTMLDivElement>(null);
  const [date, setDate] = useState(() => dateOf(kind, typed ?? value));
  const [answered, setAnswered] = useState(seq);
  if (answered !== seq) {
    setAnswered(seq);
    const again = dateOf(kind, value);
    // What was half typed and refused stays as it stands.
    if (again || value === "") setDate(again);
  }
  const field = {
    value: date,
    onChange: (now: typeof date) => setDate(now),
    locale,
    createCalendar,
    granularity: kind === "date" ? ("day" as const) : ("minute" as const),
    maxGranularity: kind === "time" ? ("hour" as const) : ("year" as const),
    hourCycle: 24 as const,
    shouldForceLeadingZeros: true,
    isRequired: props.required ?? false,
    isInvalid: props.invalid,
    "aria-labelledby": `${id}-label`,
    ...(props.described ? { "aria-describedby": props.described } : {}),
    // “26” is meant as 2026: nothing here is of the first century.
    onBlur: () => date && kind !== "time" && date.year < 100 && setDate(date.set({ year: 2000 + date.year })),
  };
  const state = useDateFieldState(field);
  const { fieldProps } = useDateField(field, state, box);
  const text = textOf(kind, state.segments);
  const tell = useEffectEvent((now: string) => props.onValue?.(now));
  useEffect(() => tell(text), [text]);
  useLabel(id, box);
  useSeparators(box);
  return (
    <>
      <input type="hidden" name={name} value={text} readOnly data-focus={id} />
      <div className="flex max-w-96 items-stretch rounded-[3px] border border-edge bg-sheet has-aria-invalid:border-2 has-aria-invalid:border-oxide">
        <div
          {...fieldProps}
          ref={box}
          id={id}
          lang={locale}
          className="flex min-h-11 min-w-0 flex-1 items-stretch pl-2 font-mono pointer-coarse:min-h-12"
        >
          {state.segments.map((segment, at) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a place stays where the locale puts it
            <Place key={at} segment={segment} state={state} />
          ))}
        </div>
        <NativePicker
          id={id}
          kind={kind}
          value={dateOf(kind, text) ? text : ""}
          min={props.min}
          max={props.max}
          onValue={(iso) => setDate(dateOf(kind, iso))}
        />
      </div>
    </>
  );
}

function Place({ segment, state }: { segment: DateSegment; state: DateFieldState }) {
  const ref = useRef<HTMLSpanElement>(null);
  const { segmentProps } = useDateSegment(segment, state, ref);
  return (
    <span
      {...segmentProps}
      ref={ref}
      data-place={segment.isEditable ? segment.type : undefined}
      data-placeholder={segment.isPlaceholder || undefined}
      className={
        segment.isEditable
          ? "flex min-w-6 items-center justify-center whitespace-nowrap rounded-[2px] px-0.5 data-placeholder:text-soft focus:bg-ink focus:text-paper data-placeholder:focus:text-paper pointer-coarse:min-w-8"
          : "flex items-center whitespace-pre text-soft"
      }
    >
      {segment.text}
    </span>
  );
}

/** A click on the label leads into the field, as it does where the browser knows them to belong together. */
function useLabel(id: string, box: RefObject<HTMLElement | null>) {
  useEffect(() => {
    const label = document.getElementById(`${id}-label`);
    const enter = () => box.current?.querySelector<HTMLElement>("[data-place]")?.focus();
    label?.addEventListener("click", enter);
    return () => label?.removeEventListener("click", enter);
  }, [id, box]);
}
