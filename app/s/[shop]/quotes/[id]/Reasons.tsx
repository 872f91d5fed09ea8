import type { QuoteWarning } from "@/lib/domain/quoting/result";
import { Mend } from "./Mend";

interface Props {
  slug: string;
  stops: readonly QuoteWarning[];
  /** Address of the quote's page, where the reasons stand on another one. */
  at?: string | undefined;
  className?: string | undefined;
}

/** Why a quote cannot be sent yet, each reason with the way to its mend. */
export function Reasons({ slug, stops, at, className }: Props) {
  const nothing = {
    message: "Nothing is on this quote yet.",
    remedy: "",
    stops: true,
    place: "works" as const,
  };
  return (
    <ul aria-label="Not to be sent yet" className={className}>
      {(stops.length > 0 ? stops : [nothing]).map((warning) => (
        <li key={warning.message}>
          {warning.message}
          <Mend slug={slug} warning={warning} at={at} />
        </li>
      ))}
    </ul>
  );
}
