import type { ReactNode } from "react";

/** The acts of a job card under the thumb: lesser ones side by side, then the main act (size `act`). */
export function ActBar({ main, children }: { main: ReactNode; children?: ReactNode }) {
  return (
    <>
      <div
        aria-hidden="true"
        className={children ? "h-40 rail:hidden print:hidden" : "h-24 rail:hidden print:hidden"}
      />
      <div className="fixed inset-x-0 bottom-0 z-20 grid gap-2 bg-paper px-4 pt-2 pb-[max(0.75rem,env(safe-area-inset-bottom))] rail:sticky rail:mt-6 rail:max-w-xl rail:px-0 print:hidden">
        {children && <div className="flex gap-2 *:min-h-14 *:flex-1">{children}</div>}
        <div className="grid *:min-h-14 *:w-full">{main}</div>
      </div>
    </>
  );
}
