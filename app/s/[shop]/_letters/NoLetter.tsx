import { inPlaceOf, type Withheld } from "@/lib/data/mail/letters";

interface Props {
  withheld: Withheld;
  customer: { readonly name: string; readonly phone: string };
  /** False where the letter would have brought no link. */
  link?: boolean;
}

/** Stands where a letter would have been written: why none is, and what to do in its place. */
export function NoLetter({ withheld, customer, link }: Props) {
  const { message, remedy } = inPlaceOf(withheld, customer, link);
  return (
    <p className="max-w-prose text-[15px]">
      <span className="text-soft">{message}</span> {remedy}
    </p>
  );
}
