import type { ReactNode } from "react";

interface Props {
  title: string;
  children: ReactNode;
  /** How to reach the shop, where it may be told. */
  foot?: ReactNode;
}

/** A message in place of a document: kind, and with nothing private in it. */
export function Plain({ title, children, foot }: Props) {
  return (
    <main className="mx-auto max-w-[36rem] px-5 py-16">
      <h1 className="border-ink border-b-2 pb-2 font-bold text-[26px] leading-tight">{title}</h1>
      <p className="mt-4">{children}</p>
      {foot}
    </main>
  );
}
