"use client";
import { type PointerEvent, useId, useState } from "react";
import {
  SIGNATURE,
  type SignatureStroke,
  signaturePath,
  signatureStrokes,
  signatureText,
  withPoint,
} from "@/lib/domain/signature/strokes";
import { Button } from "./Button";
import { FieldError } from "./FieldFrame";
import { useFormField } from "./formContext";
import { TextField } from "./TextField";
import { words } from "./words";

export interface SignatureFieldProps {
  /** Who will probably sign. */
  by?: string | undefined;
  /** Above the sheet: what is signed for. */
  label?: string | undefined;
}

/**
 * A signature: the name of whoever signs, and a sheet to sign on with finger, pen or mouse. The name alone is enough, so that
 * a keyboard signs too, and a page without scripts, which shows no sheet. Sends `signedBy` and `signature`.
 */
export function SignatureField({ by, label = words.signHere }: SignatureFieldProps) {
  const { value, error, seq } = useFormField("signature");
  return (
    <>
      <TextField
        name="signedBy"
        label={words.signedBy}
        initial={by}
        maxLength={120}
        autoComplete="name"
        hint={words.signedByHint}
        required
      />
      <Sheet key={seq} label={label} initial={signatureStrokes(value) ?? []} error={error} />
    </>
  );
}

interface SheetProps {
  label: string;
  initial: readonly SignatureStroke[];
  error: string | undefined;
}

function Sheet({ label, initial, error }: SheetProps) {
  const id = useId();
  const [strokes, setStrokes] = useState(initial);
  const [drawing, setDrawing] = useState(false);
  const draw = (event: PointerEvent<SVGSVGElement>, begins: boolean) => {
    const box = event.currentTarget.getBoundingClientRect();
    const on = ({ clientX, clientY }: { clientX: number; clientY: number }) =>
      [
        ((clientX - box.left) / box.width) * SIGNATURE.width,
        ((clientY - box.top) / box.height) * SIGNATURE.height,
      ] as const;
    // A fast pen reports several places at once.
    const native = event.nativeEvent;
    const seen = begins ? [] : (native.getCoalescedEvents?.() ?? []);
    const places = (seen.length > 0 ? seen : [native]).map(on);
    setStrokes((before) =>
      places.reduce((drawn, place, at) => withPoint(drawn, place, begins && at === 0), before),
    );
  };
  const said = strokes.length > 0 ? words.signed : words.signNothing;
  return (
    <div id={id} tabIndex={-1} className="mb-4 max-w-[600px] noscript:hidden">
      <p className="mb-1 font-semibold text-[15px]">{label}</p>
      <input type="hidden" name="signature" value={signatureText(strokes)} data-focus={id} readOnly />
      <svg
        role="img"
        viewBox={`0 0 ${SIGNATURE.width} ${SIGNATURE.height}`}
        width="100%"
        className="block cursor-crosshair touch-none select-none rounded-[3px] border border-edge bg-sheet"
        onPointerDown={(event) => {
          if (event.button !== 0) return;
          event.preventDefault();
          event.currentTarget.setPointerCapture(event.pointerId);
          setDrawing(true);
          draw(event, true);
        }}
        onPointerMove={(event) => drawing && draw(event, false)}
        onPointerUp={() => setDrawing(false)}
        onPointerCancel={() => setDrawing(false)}
      >
        <title>{`${label}: ${said}`}</title>
        <path d={`M30 ${SIGNATURE.height - 45}H${SIGNATURE.width - 30}`} className="fill-none stroke-rule" />
        <path
          d={signaturePath(strokes)}
          className="fill-none stroke-ink"
          strokeWidth={3}
          strokeLinecap="round"
          strokeLinejoin="round"
        />
      </svg>
      <div className="mt-1 flex flex-wrap items-center justify-between gap-2">
        <p className="text-[14px] text-soft">{said}</p>
        <Button tone="quiet" disabled={strokes.length === 0} onClick={() => setStrokes([])}>
          {words.signClear}
        </Button>
      </div>
      <FieldError id={id} error={error} />
    </div>
  );
}
