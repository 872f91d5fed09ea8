import { Link } from "@/app/_ui/Link";

interface OfBikeProps {
  /** The bike's own page. */
  home: string;
  bike: {
    readonly plate: string;
    readonly modelCard: { readonly make: string; readonly model: string };
    readonly customer: { readonly name: string };
  };
}

/** Under a page's title: which bike it is of, with the way to its page. */
export function OfBike({ home, bike }: OfBikeProps) {
  return (
    <>
      <Link href={home} className="text-brass underline underline-offset-4">
        {bike.modelCard.make} {bike.modelCard.model}
      </Link>
      {[bike.plate, bike.customer.name].filter(Boolean).map((text) => ` · ${text}`)}
    </>
  );
}
