"use client";
import { useRouter } from "next/navigation";
import { useEffect } from "react";

const EVERY_MS = 2_000;

/** Asks for the page again every other second, until it says something else. */
export function ComeBack() {
  const router = useRouter();
  useEffect(() => {
    const timer = setInterval(() => router.refresh(), EVERY_MS);
    return () => clearInterval(timer);
  }, [router]);
  return null;
}
