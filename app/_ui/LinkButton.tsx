import Link from "next/link";
import type { ReactNode } from "react";
import { type ButtonSize, type ButtonTone, buttonLook } from "./buttonLook";

export interface LinkButtonProps {
  href: string;
  tone?: ButtonTone | undefined;
  size?: ButtonSize | undefined;
  children: ReactNode;
  className?: string | undefined;
  /** A file: fetched by the browser itself, not by the router. */
  download?: boolean | undefined;
  label?: string | undefined;
}

/** A link with a button's look: it goes somewhere. Nothing is fetched before it is followed: its page may be gone by then. */
export function LinkButton({ href, tone, size, children, className, download, label }: LinkButtonProps) {
  const look = buttonLook(tone, size, className);
  if (download)
    return (
      <a href={href} className={look} download aria-label={label}>
        {children}
      </a>
    );
  return (
    <Link href={href} prefetch={false} className={look} aria-label={label}>
      {children}
    </Link>
  );
}
