import { Link } from "@/app/_ui/Link";
import type { QuoteWarning } from "@/lib/domain/quoting/result";

const LOOK =
  "ml-2 inline-flex min-h-6 items-center whitespace-nowrap text-brass underline underline-offset-4 pointer-coarse:min-h-12";

const PLACES = {
  "labour rates": { words: "Set the rate", path: "shop/prices" },
  options: { words: "To the choices", path: "#choices" },
  works: { words: "To the works", path: "#works" },
  margin: { words: "To the margin", path: "#margin" },
  terms: { words: "To what is agreed", path: "#terms" },
} as const;

interface Props {
  slug: string;
  warning: QuoteWarning;
  /** Address of the quote's page, where this is another one. */
  at?: string | undefined;
}

/** Where what stands against a quote is put right. */
export function Mend({ slug, warning, at = "" }: Props) {
  const { place, partId, partCode } = warning;
  if (partCode !== undefined)
    return (
      <Link href={`/s/${slug}/stock/new?code=${encodeURIComponent(partCode)}`} className={LOOK}>
        Add it to stock
      </Link>
    );
  if (partId !== undefined)
    return (
      <Link href={`/s/${slug}/stock/${partId}/edit`} className={LOOK}>
        Change the part
      </Link>
    );
  if (place === undefined) return null;
  const { words, path } = PLACES[place];
  return (
    <Link href={path.startsWith("#") ? `${at}${path}` : `/s/${slug}/${path}`} className={LOOK}>
      {words}
    </Link>
  );
}
