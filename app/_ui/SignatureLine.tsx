import { SIGNATURE, signaturePath, signatureStrokes } from "@/lib/domain/signature/strokes";
import { Instant } from "./Instant";
import { words } from "./words";

export interface SignatureLineProps {
  signedBy: string;
  signedAt: Date;
  /** Strokes as text; empty where the name alone was typed. */
  signature: string;
  locale: string;
  zone: string;
}

/** A signature as it was given, over its line: drawn or typed, by whom and when. */
export function SignatureLine({ signedBy, signedAt, signature, locale, zone }: SignatureLineProps) {
  const strokes = signatureStrokes(signature) ?? [];
  return (
    <figure className="keep max-w-[340px]">
      {strokes.length > 0 ? (
        <svg
          role="img"
          viewBox={`0 0 ${SIGNATURE.width} ${SIGNATURE.height}`}
          width="100%"
          className="block"
          strokeLinecap="round"
          strokeLinejoin="round"
        >
          <title>{`${words.signatureOf} ${signedBy}`}</title>
          <path d={signaturePath(strokes)} className="fill-none stroke-ink" strokeWidth={3} />
        </svg>
      ) : (
        <p className="pt-4 pb-1 text-[20px] italic">{signedBy}</p>
      )}
      <figcaption className="border-ink border-t pt-1 text-[14px]">
        {signedBy}, <Instant at={signedAt.toISOString()} locale={locale} zone={zone} />
        {strokes.length === 0 && <span className="text-soft"> ({words.signedTyped})</span>}
      </figcaption>
    </figure>
  );
}
