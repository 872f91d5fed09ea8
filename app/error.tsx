"use client";
import { useEffect } from "react";
import { Button } from "./_ui/Button";
import { buttonLook } from "./_ui/buttonLook";
import { Trouble } from "./_ui/Trouble";

interface ErrorPageProps {
  error: Error & { digest?: string };
  reset: () => void;
}

export default function ErrorPage({ error, reset }: ErrorPageProps) {
  useEffect(() => console.error(error), [error]);
  return (
    <Trouble
      title="This page broke"
      id={error.digest}
      acts={
        <>
          <Button tone="main" onClick={reset}>
            Try again
          </Button>
          {/* A plain link: every page brings what this one needs. */}
          <a href="/" className={buttonLook()}>
            Go to the start
          </a>
        </>
      }
    >
      <title>This page broke · Throttlewright</title>
      <p>Something failed on our side while this page was being made.</p>
      <p>
        <strong>What is safe:</strong> everything that was saved before. Nothing is half saved: a change is
        either recorded whole or not at all.
      </p>
      <p>
        <strong>What to do:</strong> try again. If it breaks twice, tell whoever runs the server the number
        below and what you were doing.
      </p>
    </Trouble>
  );
}
