import type { ReactNode } from "react";

/** The acts of a job card under the thumb: lesser ones side by side, then the main act (size `act`); one row where the screen is low. */
export function ActBar({ main, children }: { main: ReactNode; children?: ReactNode }) {
  return (
    <div className="act-bar">
      {children && <div className="act-bar-lesser">{children}</div>}
      <div className="act-bar-main">{main}</div>
    </div>
  );
}
