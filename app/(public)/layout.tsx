import type { Metadata } from "next";
import type { ReactNode } from "react";
import { Link } from "@/app/_ui/Link";

export const metadata: Metadata = {
  title: { default: "Throttlewright", template: "%s · Throttlewright" },
};

export default function PublicLayout({ children }: { children: ReactNode }) {
  return (
    <div className="mx-auto flex min-h-dvh max-w-[1060px] flex-col px-4 rail:px-8">
      <header className="flex items-center justify-between border-rule border-b py-4">
        <Link href="/" className="flex min-h-11 items-center font-bold text-[17px] no-underline">
          Throttlewright
        </Link>
      </header>
      <main id="page" className="flex-1 py-6">
        {children}
      </main>
    </div>
  );
}
