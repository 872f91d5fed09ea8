"use client";
import { type MouseEvent, type ReactNode, useEffect, useRef, useState } from "react";
import { Refused } from "./Refused";
import { useSlow } from "./useSlow";
import { words } from "./words";

export interface FileLinkProps {
  href: string;
  className: string;
  children: ReactNode;
  label?: string | undefined;
}

/**
 * A link to a file that the server makes. It says that it is at work where that takes over a second, and what is wrong where
 * there is no file; without scripts, or with a key held, it is the plain link.
 */
export function FileLink({ href, className, children, label }: FileLinkProps) {
  const [working, setWorking] = useState(false);
  const slow = useSlow(working);
  const [refused, setRefused] = useState<string>();
  const asked = useRef<AbortController>(null);
  useEffect(() => () => asked.current?.abort(), []);
  const fetchFile = async (event: MouseEvent<HTMLAnchorElement>) => {
    if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
    event.preventDefault();
    if (working) return;
    setWorking(true);
    setRefused(undefined);
    const leave = new AbortController();
    asked.current = leave;
    // How it is done is fetched on the first click: most pages with such a link are read for other things.
    const wrong = await import("./fetchFile").then(
      ({ fetchFile }) => fetchFile(href, leave.signal),
      () => words.noFile,
    );
    setRefused(wrong);
    setWorking(false);
  };

  return (
    <>
      <a
        href={href}
        className={className}
        download
        aria-label={label}
        aria-disabled={working || undefined}
        onClick={fetchFile}
      >
        {children}
      </a>
      <span role="status" className={slow ? "self-center text-[15px] text-soft" : "sr-only"}>
        {slow && words.makingFile}
      </span>
      {refused && <Refused message={refused} />}
    </>
  );
}
