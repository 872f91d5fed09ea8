import type { ReactNode } from "react";
import { type ButtonSize, type ButtonTone, buttonLook } from "./buttonLook";
import { FileLink } from "./FileLink";
import { Link } from "./Link";

export interface LinkButtonProps {
  href: string;
  tone?: ButtonTone | undefined;
  size?: ButtonSize | undefined;
  children: ReactNode;
  className?: string | undefined;
  /** A file that the server makes. */
  download?: boolean | undefined;
  label?: string | undefined;
}

/** A link with a button's look: it goes somewhere. Nothing is fetched before it is followed: its page may be gone by then. */
export function LinkButton({ href, tone, size, children, className, download, label }: LinkButtonProps) {
  const look = buttonLook(tone, size, className);
  if (download)
    return (
      <FileLink href={href} className={look} label={label}>
        {children}
      </FileLink>
    );
  return (
    <Link href={href} className={look} aria-label={label}>
      {children}
    </Link>
  );
}
